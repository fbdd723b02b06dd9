import type { Proof, Sizes } from "../result.ts";

/** robust.json: one set of sizes for several possible years (docs/methods/robust-sizes.md). */
export interface RobustAnswer {
  readonly formatVersion: 1;
  readonly program: { readonly name: "noonkeep"; readonly version: string };
  readonly study: { readonly title: string; readonly currency: string; readonly years: number };
  /** "infeasible" where some demand or limit cannot be kept in some year; `conflicts` says which. */
  readonly status: "optimal" | "infeasible";
  readonly conflicts: readonly string[];
  /** The sizes that suit all years together. */
  readonly sizes: Sizes;
  readonly expected: {
    readonly annualCost: number;
    /** Expected annual cost if the year were known before anything is built. */
    readonly annualCostIfKnown: number;
    readonly fuelCostAvoided: number;
    /** Heat that is neither backup nor unmet / all heat, over the expected year. */
    readonly solarFraction: number;
  };
  /** Expected value of perfect information, currency a year; null where status is not optimal. */
  readonly valueOfKnowing: number | null;
  readonly ownSizes: OwnSizes;
  readonly years: readonly RobustYear[];
  readonly sentences: readonly string[];
  /** Of the program of all years. */
  readonly proof: Proof;
  /** Remarks on the input and the solving, in sentences. */
  readonly findings: readonly string[];
}

/** The study's own optimum, found for its own weather and prices, put to the test of all years. */
export interface OwnSizes {
  readonly sizes: Sizes;
  readonly expectedAnnualCost: number;
  /** What the common sizes save against them, currency a year; null where one of them fails in some year. */
  readonly valueOfCommonSizes: number | null;
  /** Where they fall short, in sentences; new boilers, where allowed, have been fitted to the years. */
  readonly shortfalls: readonly string[];
}

export interface RobustYear {
  readonly id: string;
  readonly name: string;
  readonly probability: number;
  /** As `levelised.annualCost` of a result, at the common sizes. */
  readonly annualCost: number;
  /** The same with the sizes that this year alone would have. */
  readonly annualCostIfKnown: number;
  readonly sizesIfKnown: Sizes;
  readonly solarFraction: number;
  readonly fuelCostAvoided: number;
  readonly unmet_kWh: number;
  readonly unmetCold_kWh: number;
  readonly unmetWater_m3: number;
}
