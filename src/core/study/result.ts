import type { SolveStatus } from "../dispatch/program.ts";
import type { FinanceFigures } from "../economics/finance-figures.ts";
import type { ContractFigures } from "../economics/heat-contract.ts";
import type { Annual, Costs } from "./annual-figures.ts";
import type { ColdYear } from "./cold-figures.ts";
import type { CollectorFigures } from "./collector-figures.ts";
import type { LoadYear } from "./load-figures.ts";
import type { Prices } from "./price-figures.ts";
import type { TruePrices } from "./true-prices.ts";
import type { WholeModules } from "./whole-modules.ts";

export type { Annual, Costs } from "./annual-figures.ts";
export type { ColdYear } from "./cold-figures.ts";
export type { CollectorFigures } from "./collector-figures.ts";
export type { AreaCurve, CurvePoint } from "./curve-figures.ts";
export type { LoadYear } from "./load-figures.ts";
export type { HeatPrice, PriceEntry, PriceKind, PriceState, Prices } from "./price-figures.ts";
export type { TruePrices } from "./true-prices.ts";
export type { WholeModules } from "./whole-modules.ts";

/** result.json: every figure that a sizing gives. Energies per year, money in the study's currency. */
export interface Result {
  readonly formatVersion: 1;
  readonly program: { readonly name: "noonkeep"; readonly version: string };
  readonly study: { readonly title: string; readonly currency: string; readonly years: number };
  readonly status: "optimal" | "infeasible" | "stopped";
  /** Present when the limits conflict: which, by how much, in sentences. */
  readonly conflicts: readonly Conflict[];
  readonly sizes: Sizes;
  readonly annual: Annual;
  /** Today's plant with nothing new. */
  readonly baseline: Costs;
  /** New equipment allowed, but no collector. */
  readonly withoutCollectors: Costs;
  readonly networks: readonly NetworkYear[];
  readonly loads: readonly LoadYear[];
  /** Cooling loads; missing from answers of earlier versions. */
  readonly cold?: readonly ColdYear[];
  readonly match: readonly MatchRow[];
  /** Every collector on every network that it may serve and is hot enough for. */
  readonly collectors: readonly CollectorFigures[];
  readonly levelised: Levelised;
  readonly money: MoneyFigures;
  readonly limits: readonly LimitFigure[];
  readonly months: readonly MonthFigures[];
  readonly marginal: readonly {
    readonly network: string;
    readonly mean_per_kWh: number;
    readonly least_per_kWh: number;
    readonly most_per_kWh: number;
  }[];
  /** What the shadow prices say; null where limits conflict or the solver gives none. */
  readonly prices: Prices | null;
  readonly proof: Proof;
  /** Null where no collector comes in modules; missing from answers of earlier versions. */
  readonly wholeModules?: WholeModules | null;
  /** Null where every cost is in proportion to size; missing from answers of earlier versions. */
  readonly truePrices?: TruePrices | null;
  /** The same plant without foresight; null where it was not run. */
  readonly replay: Replays | null;
  /** How typical days and full year differ; null when only one method ran. */
  readonly typicalDays: TypicalDaysFigures | null;
  /** Remarks on the input, in sentences. */
  readonly findings: readonly string[];
}

export interface Conflict {
  readonly what: string;
  readonly by: number;
  readonly unit: string;
  readonly sentence: string;
  /** Heat network that lacks heat. */
  readonly network?: string;
  /** Hours with something unmet; first and last in the site's civil time, ISO 8601. */
  readonly hours?: { readonly count: number; readonly first: string; readonly last: string };
  /** The hour that lacks most, at its start in civil time. */
  readonly worst?: { readonly at: string; readonly lacks: number; readonly unit: string };
  /** Limits that keep it so: where each stands and how much of the lack one more unit would serve. */
  readonly causes?: readonly LackCause[];
}

export interface LackCause {
  readonly limit: string;
  readonly at: number;
  readonly unit: string;
  /** kWh or m³ a year for one more unit; null where the solver gives no price. */
  readonly relief_per_unit: number | null;
}

export interface Sizes {
  readonly collectors: readonly {
    readonly id: string;
    readonly network: string;
    readonly aperture_m2: number;
    readonly existing_m2: number;
  }[];
  readonly stores: readonly {
    readonly id: string;
    readonly capacity_kWh: number;
    readonly volume_m3: number;
    readonly existing_kWh: number;
    /** Charging power, what exists included; null where it has no size of its own. */
    readonly charge_kW: number | null;
  }[];
  readonly chillers: readonly {
    readonly id: string;
    readonly cold_kW: number;
    readonly existing_kW: number;
  }[];
  readonly stepDowns: readonly {
    readonly id: string;
    readonly heat_kW: number;
    readonly existing_kW: number;
  }[];
  /** New boilers; what exists is in the study. */
  readonly backups: readonly {
    readonly id: string;
    readonly heat_kW: number;
    readonly existing_kW: number | null;
  }[];
  readonly land_m2: number;
  readonly initialCapital: number;
}

export interface NetworkYear {
  readonly id: string;
  readonly name: string;
  readonly supply_C: number;
  readonly demand_kWh: number;
  readonly solar_kWh: number;
  readonly backup_kWh: number;
  readonly stepIn_kWh: number;
  readonly stepOut_kWh: number;
  readonly charge_kWh: number;
  readonly discharge_kWh: number;
  readonly storageLoss_kWh: number;
  readonly spill_kWh: number;
  readonly unmet_kWh: number;
  readonly peak_kW: number;
  readonly peakBackup_kW: number;
  readonly solarFraction: number;
}

export interface MatchRow {
  readonly collector: string;
  readonly network: string;
  readonly meanFluid_C: number;
  /** False: the collector's highest outlet lies below the network's collector outlet. */
  readonly possible: boolean;
  /** Why not, or a remark; empty where there is nothing to say. */
  readonly remark: string;
  readonly useful_kWh_per_m2: number;
  /** Per kWh collected; null where nothing is collected. */
  readonly cost_per_kWh: number | null;
  /** Demand of this and all cooler networks it may feed / all demand. */
  readonly reachableShare: number;
  readonly beam_kWh_per_m2: number;
  readonly runningHours: number;
  readonly stowedHours: number;
}

export interface Levelised {
  /** Of solar heat used; null where there is none. */
  readonly solarHeat_per_kWh: number | null;
  /** The same by part, which add up to it; missing from answers of earlier versions. */
  readonly solarHeatParts?: readonly {
    readonly item: string;
    readonly part: string;
    readonly cost_per_kWh: number;
  }[];
  /** Where prices go by the hour, their mean over the hours of the year. */
  readonly backupHeat: readonly {
    readonly id: string;
    readonly firstYear_per_kWh: number;
    readonly levelised_per_kWh: number;
  }[];
  readonly annualCost: number;
  readonly annualCostBaseline: number;
  readonly annualCapital: number;
  readonly annualSolarPlant: number;
  readonly annualFuel: number;
  readonly annualElectricity: number;
  readonly annualCarbon: number;
}

export interface CashFlowYear {
  readonly year: number;
  readonly capital: number;
  readonly replacements: number;
  readonly upkeep: number;
  readonly avoided: number;
  /** Grants and tax credits that are paid after the purchase; 0 in answers of earlier versions. */
  readonly credits?: number;
  readonly residual: number;
  readonly net: number;
  readonly cumulative: number;
}

/** What a cash flow comes to. */
export interface FlowFigures {
  readonly initialCapital: number;
  readonly simplePayback_years: number | null;
  readonly discountedPayback_years: number | null;
  readonly npv: number;
  readonly irr: number | null;
  /** Why a figure is missing, in a sentence; empty otherwise. */
  readonly remarks: readonly string[];
}

/** The same plant, run the same way, on another course of prices. */
export interface PricePathFigures extends FlowFigures {
  readonly name: string;
  readonly fuelCostAvoidedOverPeriod: number;
}

export interface MoneyFigures extends FlowFigures {
  readonly fuelCostAvoidedOverPeriod: number;
  readonly cashFlow: readonly CashFlowYear[];
  /** Missing from answers of earlier versions. */
  readonly pricePaths?: readonly PricePathFigures[];
  /** In money of the day, after tax and loan; null where the study names neither, nor inflation. */
  readonly finance?: FinanceFigures | null;
  /** Selling the plant's heat instead of the plant; null where the study has no contract. */
  readonly contract?: ContractFigures | null;
  readonly parts: readonly {
    readonly item: string;
    readonly part: string;
    readonly quantity: number;
    readonly unit: string;
    readonly price: number;
    /** null: it keeps its price for ever, as land does. */
    readonly life_years: number | null;
    readonly upkeep_per_year: number;
    readonly annualCost: number;
    /** Money received at the end of the first year, a price below 0. */
    readonly paidAfterFirstYear?: boolean;
  }[];
}

/** A limit or bound of the study and what the answer makes of it. */
export interface LimitFigure {
  readonly what: string;
  readonly used: number;
  readonly limit: number;
  readonly unit: string;
  readonly binding: boolean;
  /** Annual cost saved by one more unit; null where the solver gives no price. */
  readonly valuePerUnit: number | null;
  readonly sentence: string;
}

export interface MonthFigures {
  readonly month: number;
  readonly demand_kWh: number;
  /** Solar used at once, over all networks. */
  readonly direct_kWh: number;
  readonly fromStore_kWh: number;
  readonly backup_kWh: number;
  readonly spill_kWh: number;
}

export interface Proof {
  readonly method: "typical-days" | "full-year";
  readonly solver: string;
  readonly status: SolveStatus;
  /** The objective of the program as written to MPS, currency per year. */
  readonly objective: number;
  /** Recomputed from the cleaned answer by code apart from the solver. */
  readonly recomputedObjective: number;
  readonly relativeGap: number | null;
  readonly primalResidual: number;
  readonly dualResidual: number | null;
  /** Largest violation of a network's hourly balance, kW, from the written hours. */
  readonly balanceResidual_kW: number;
  readonly columns: number;
  readonly rows: number;
  readonly nonZeros: number;
  readonly iterations: number;
  readonly solve_s: number;
  readonly secondOpinion: {
    readonly solver: string;
    readonly objective: number;
    readonly relativeDifference: number;
  } | null;
}

export interface TypicalDaysFigures {
  readonly days: readonly { readonly dayOfYear: number; readonly weight: number; readonly why: string }[];
  readonly sizes: Sizes;
  readonly solver: string;
  readonly objective: number;
  readonly solve_s: number;
  readonly solarFraction: number;
  /** Full-year dispatch at the typical days' sizes. */
  readonly dispatchObjective: number;
  readonly dispatchSolarFraction: number;
}

/** The plant of `sizes` run through the year by controllers that do not know it (docs/methods/replay.md). */
export interface Replays {
  readonly simple: ReplayFigures;
  /** null where it was not run. */
  readonly twoDay: ReplayFigures | null;
}

export interface ReplayFigures {
  readonly annual: Annual;
  /** Cooling loads; missing from answers of earlier versions. */
  readonly cold?: readonly ColdYear[];
  readonly networks: readonly NetworkYear[];
  readonly months: readonly MonthFigures[];
  readonly levelised: Levelised;
  /** Of the controller's own fuel and electricity; what is unmet costs nothing in it. */
  readonly money: MoneyFigures;
  /** As `levelised.annualCost`. */
  readonly annualCost: number;
  /** `annualCost` − `levelised.annualCost`: what perfect foresight would save; unmet heat is not in it. */
  readonly gap_per_year: number;
  /** What is unmet, at the program's price for it. */
  readonly unmetCost: number;
  /** What the program would pay for these hours, `unmetCost` and sizes included. */
  readonly programCost: number;
  /** Made by boilers at their least load and taken by nothing. */
  readonly wasted_kWh: number;
  /** Left in stores at the year's end, worth nothing. */
  readonly left_kWh: number;
  readonly sentences: readonly string[];
}
