import type { ExtendedYear } from "../../core/demand/extension.ts";
import type { QualityReport } from "../../core/demand/quality/quality-report.ts";
import type { Problem } from "../../core/problem.ts";
import type { DemandReading } from "../../core/study/schema/profile.ts";

/** What the hourly figures are to be: kW, kg/h, a price in currency/kWh, or the file's own unit as it stands. */
export type DemandQuantity = "power" | "mass-flow" | "volume-flow" | "price" | "any";

/** Everything that was understood of a demand file, what was done to it, and the hours if it holds. */
export interface DemandAccount {
  readonly understood: Understood;
  /** Faults; the file is refused while there is one. */
  readonly problems: readonly Problem[];
  /** What the file leaves open: each with its choices and the one taken meanwhile. */
  readonly questions: readonly Question[];
  readonly quality: QualityReport;
  /** How hours that were not logged were found; null where none had to be. */
  readonly extension: DemandExtension | null;
  /** Hours as metered, NaN where nothing is known, of a refused file too; null where rows could not be placed. */
  readonly known: Float64Array | null;
  /** 8760 hours in `understood.hourlyUnit`, from 1 January 00:00 standard time; null if refused. */
  readonly hourly: Float64Array | null;
  /** The reading with nothing left to find out: reading again with it gives the same hours. */
  readonly resolvedReading: DemandReading;
}

/** A log of part of a year, extended by a calendar. */
export interface DemandExtension extends Omit<ExtendedYear, "hourly"> {
  readonly calendar: string;
  /** The fit on the log's own dates, to be seen beside it: 8760 rates. */
  readonly model: Float64Array;
  /** The log as it was metered, NaN elsewhere. */
  readonly logged: Float64Array;
}

export interface Question {
  readonly code: string;
  readonly sentence: string;
  /** The field of the reading that an answer sets. */
  readonly field: keyof DemandReading;
  readonly choices: readonly { readonly value: string; readonly sentence: string }[];
  readonly taken: string;
}

export interface ColumnSample {
  readonly name: string;
  /** The column's first cell below the header. */
  readonly sample: string;
}

export interface Understood {
  readonly encoding: string;
  /** Sheet of an xlsx file; null for text. */
  readonly sheet: string | null;
  readonly delimiter: string;
  readonly delimiterHow: string;
  readonly decimal: string;
  readonly decimalHow: string;
  /** File line of the header; null where there is none. */
  readonly headerRow: number | null;
  /** File lines above the first row of data that were not read as data, the header among them. */
  readonly linesAbove: readonly string[][];
  readonly columns: readonly ColumnSample[];
  readonly timeColumn: string | null;
  readonly valueColumn: string | null;
  /** Unit of the cells; null where none is said or needed. */
  readonly unit: string | null;
  readonly unitHow: string;
  /** Unit of `hourly`; null where the file's own unit is unknown. */
  readonly hourlyUnit: string | null;
  /** Whether a value is the figure of its interval or a counter's reading. */
  readonly values: "interval" | "counter";
  readonly step_min: number | null;
  readonly stamp: "start" | "end";
  readonly stampHow: string;
  readonly clock: "standard" | "civil";
  readonly clockHow: string;
  readonly dateOrder: "ymd" | "dmy" | "mdy" | null;
  readonly dateOrderHow: string;
  /** Rows of data. */
  readonly rows: number;
  /** The first 8 rows of data as read: file line, then the cells. */
  readonly firstRows: readonly string[][];
  readonly firstStamp: string | null;
  readonly lastStamp: string | null;
  /** The year that most rows belong to; null where stamps have no year. */
  readonly yearOfFile: number | null;
  /** Sum over the rows of the file before anything was filled or left out, hourly unit × h (prices: meaningless). */
  readonly fileTotal: number | null;
  /** Of the 8760 hours, in `hourlyUnit` (× h); null if refused. */
  readonly total: number | null;
  readonly peak: number | null;
  readonly mean: number | null;
  /** The same for quantity "power"; null for others. */
  readonly total_kWh: number | null;
  readonly peak_kW: number | null;
  readonly mean_kW: number | null;
  /** Hour index of the peak. */
  readonly peakAt: number | null;
  /** The hours sorted from the largest; null if refused. */
  readonly loadDuration: Float64Array | null;
}

export const emptyUnderstood: Understood = {
  encoding: "unknown",
  sheet: null,
  delimiter: ",",
  delimiterHow: "not found out",
  decimal: ".",
  decimalHow: "not found out",
  headerRow: null,
  linesAbove: [],
  columns: [],
  timeColumn: null,
  valueColumn: null,
  unit: null,
  unitHow: "not found out",
  hourlyUnit: null,
  values: "interval",
  step_min: null,
  stamp: "start",
  stampHow: "not found out",
  clock: "standard",
  clockHow: "not found out",
  dateOrder: null,
  dateOrderHow: "not found out",
  rows: 0,
  firstRows: [],
  firstStamp: null,
  lastStamp: null,
  yearOfFile: null,
  fileTotal: null,
  total: null,
  peak: null,
  mean: null,
  total_kWh: null,
  peak_kW: null,
  mean_kW: null,
  peakAt: null,
  loadDuration: null,
};
