/** curve.json: the area curve. Every point says what made it. */
export interface AreaCurve {
  /** As sized: what the program makes of its own plant, with perfect foresight. */
  readonly optimum: CurvePoint;
  /** The same plant run by the simple controller. */
  readonly optimumReplay: CurvePoint;
  /** The study's own point, by replay. */
  readonly chosen: CurvePoint | null;
  /** The chosen plant with perfect foresight; null where there is none or it is not found yet. */
  readonly chosenBound: CurvePoint | null;
  /** By replay, apertures rising. */
  readonly lines: readonly {
    readonly storeFactor: number;
    readonly storePerAperture_kWh_m2: number;
    readonly points: readonly CurvePoint[];
  }[];
  /** Points where the program chose the split anew at the given total aperture, as far as they are found. */
  readonly bound: readonly CurvePoint[];
  /** Total apertures of all points of the bound, also of those not found yet. */
  readonly boundAt_m2: readonly number[];
  readonly split: readonly { readonly collector: string; readonly network: string; readonly share: number }[];
  /** Sentences about how the bound was found, where there is something to say. */
  readonly remarks: readonly string[];
}

export interface CurvePoint {
  /** `replay`: the simple controller. `lp`: the linear program, with perfect foresight. */
  readonly by: "replay" | "lp";
  readonly aperture_m2: number;
  readonly store_kWh: number;
  readonly solarFraction: number;
  readonly fuelCostAvoided: number;
  readonly annualCost: number;
  readonly spilled_kWh: number;
  /** Heat that nobody delivers; it costs nothing in `annualCost`. */
  readonly unmet_kWh: number;
}
