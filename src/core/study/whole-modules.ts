/** Sizes rounded to whole modules, and what that costs. */
export interface WholeModules {
  readonly fields: readonly {
    readonly id: string;
    readonly network: string;
    /** New modules. */
    readonly modules: number;
    readonly module_m2: number;
    /** New aperture before rounding. */
    readonly free_m2: number;
  }[];
  /** Of the program with these areas held, currency per year. */
  readonly objective: number;
  /** More than with the sizes before rounding. */
  readonly cost_per_year: number;
}
