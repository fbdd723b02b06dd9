import type { StudyCalendar } from "../core/calendar.ts";
import type { BillYear } from "../core/demand/bills/bill-year.ts";
import type { ResolvedLoad } from "../core/demand/resolved-load.ts";
import type { HourlyResult } from "../core/dispatch/hourly-result.ts";
import type { Problem } from "../core/problem.ts";
import type { AreaCurve, Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import type { WeatherYear } from "../core/weather.ts";

/** A study with the bytes of every file that it names, keyed by the name it uses for them. */
export interface StudyBundle {
  readonly study: Study;
  readonly files: ReadonlyMap<string, Uint8Array>;
}

/** A study whose files are read and whose loads are hourly figures; nothing is missing any more. */
export interface ResolvedStudy {
  readonly study: Study;
  readonly calendar: StudyCalendar;
  readonly weather: WeatherYear;
  readonly loads: readonly ResolvedLoad[];
  /** How the bills of a load became its hours, by the load's id; loads without bills are not in it. */
  readonly billYears: Readonly<Record<string, BillYear>>;
  /** Year-1 electricity price by hour, currency/kWh. */
  readonly electricityPrice_per_kWh: Float64Array;
  /** Year-1 price of each backup's fuel by hour, currency per kWh on the heating value that it names. */
  readonly fuelPrices_per_kWh: readonly Float64Array[];
  /** Remarks that do not stop the work. */
  readonly findings: readonly Problem[];
}

/** Which solver takes the full year. */
export type { YearSolver } from "../core/study/sizing/solvers.ts";

export type Method = "typical-days" | "full-year";

export interface SizedStudy {
  readonly result: Result;
  readonly hours: HourlyResult;
}

export interface Progress {
  /** What is being done, for the reader, e.g. "Full year: finding sizes". */
  readonly doing: string;
  /** 0 to 1, or null where it cannot be told. */
  readonly share: number | null;
}

/** Everything the pages and the summary show of one study. */
export interface StudyDocument {
  readonly study: Study;
  readonly resolved: ResolvedStudy;
  readonly sized: SizedStudy | null;
  /** True where the study was changed after it was sized. */
  readonly stale: boolean;
  readonly curve: AreaCurve | null;
}
