/** How sizes were found where costs are not simply in proportion to them. */
export interface TruePrices {
  /** How often the plant was sized. */
  readonly runs: number;
  /** How often until the prices of the answer stood. */
  readonly rounds: number;
  /** What was sized and compared, by true annual cost, what is unmet at its price included. */
  readonly trials: readonly {
    /** Names of items that could not be built in it; empty for the first trial. */
    readonly without: readonly string[];
    readonly annualCost: number;
    readonly chosen: boolean;
  }[];
}
