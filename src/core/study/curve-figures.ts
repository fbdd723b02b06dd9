/** curve.json: the area curve. */
export interface AreaCurve {
  readonly optimum: CurvePoint;
  readonly chosen: CurvePoint | null;
  readonly lines: readonly {
    readonly storeFactor: number;
    readonly storePerAperture_kWh_m2: number;
    readonly points: readonly CurvePoint[];
  }[];
  /** Points where the program chose the split anew at the given total aperture. */
  readonly bound: readonly CurvePoint[];
  readonly split: readonly { readonly collector: string; readonly network: string; readonly share: number }[];
}

export interface CurvePoint {
  readonly aperture_m2: number;
  readonly store_kWh: number;
  readonly solarFraction: number;
  readonly fuelCostAvoided: number;
  readonly annualCost: number;
  readonly spilled_kWh: number;
}
