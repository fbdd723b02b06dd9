export type PriceKind =
  | "aperture"
  | "store"
  | "step-down"
  | "chiller"
  | "backup"
  | "charger"
  | "land"
  | "budget"
  | "solar-fraction";

/** "within its limit" is said of limits over the year, the others of sizes. */
export type PriceState = "built" | "unbuilt" | "at its limit" | "fixed" | "within its limit";

/** Derivatives of the least annual cost, from the shadow prices of the program that gave the sizes. */
export interface Prices {
  readonly program: "typical-days" | "full-year";
  /** Long-run, so null where the sizes came from typical days. */
  readonly heat: readonly HeatPrice[] | null;
  readonly entries: readonly PriceEntry[];
}

/** Marginal cost of heat of one network, sizes free to follow. */
export interface HeatPrice {
  readonly network: string;
  /** Hours count by their demand. */
  readonly mean_per_kWh: number;
  readonly least_per_kWh: number;
  readonly most_per_kWh: number;
  /** Dec–Feb, Mar–May, Jun–Aug, Sep–Nov; 24 hours of standard time each, weighted by demand. */
  readonly bySeasonAndHour_per_kWh: readonly (readonly number[])[];
}

export interface PriceEntry {
  readonly kind: PriceKind;
  readonly what: string;
  /** Id in the study; of a limit its kind. */
  readonly item: string;
  readonly network: string | null;
  /** New plant; of a limit what is used of it. */
  readonly size: number;
  readonly existing: number;
  readonly unit: string;
  readonly state: PriceState;
  /** What its parts cost a year per unit; null for limits. */
  readonly annualCost_per_unit: number | null;
  /** Annual saving of one more unit, its own cost taken off; null where the program gives none. */
  readonly value_per_unit: number | null;
  /** Land or budget binds and takes a share of what the unit saves. */
  readonly rationed: boolean;
  /** Where an unbuilt item would enter: the factor on all its prices, and these at that factor. */
  readonly entry: {
    readonly factor: number;
    readonly annualCost_per_unit: number;
    readonly initialPrice_per_unit: number;
  } | null;
  readonly sentence: string;
}
