import { rowList } from "../../core/demand/quality/row-list.ts";
import type { Problem } from "../../core/problem.ts";

/** Faults for which a demand file is refused. */
export const demandProblems = {
  DEMAND_EMPTY: "The file holds no rows of data.",
  DEMAND_NOT_TEXT: "The file is not text: a demand file is xlsx, or CSV in UTF-8, UTF-16 or Latin-1.",
  DEMAND_NOT_XLSX:
    "The file is no workbook that can be read: damaged, protected, too large or of another kind.",
  DEMAND_SHEET_UNKNOWN: "The reading names a sheet that the workbook does not have.",
  DEMAND_QUOTE_OPEN: "A quotation mark is opened and never closed.",
  DEMAND_ROW_WIDTH: "A row has another number of cells than the rest.",
  DEMAND_NO_TIME_COLUMN: "No column of dates and times was found.",
  DEMAND_NO_VALUE_COLUMN: "No column of numbers was found.",
  DEMAND_COLUMN_UNKNOWN: "The reading names a column that the file does not have, or has more than once.",
  DEMAND_TIME_NOT_UNDERSTOOD: "A cell of the time column is not a date and time in the file's form.",
  DEMAND_DATE_ORDER_MIXED: "Some dates can only be day-first and others only month-first.",
  DEMAND_OFFSET_MIXED: "Some time stamps carry a UTC offset and others none.",
  DEMAND_NUMBER_NOT_UNDERSTOOD: "A cell of the value column is not a number.",
  DEMAND_DECIMAL_MIXED: "Some cells use a decimal point and others a decimal comma.",
  DEMAND_UNIT_UNSUPPORTED: "The unit is not one that can be read, or does not fit what the file is for.",
  DEMAND_FUEL_EFFICIENCY: "An efficiency above 1 is said to be on the gross heating value.",
  DEMAND_STEP: "Rows must be 1 to 60 minutes apart, by a step that divides the hour.",
  DEMAND_IRREGULAR: "A row does not lie on the file's steady step.",
  DEMAND_MORE_THAN_A_YEAR: "The file covers more than one year.",
  DEMAND_DOUBLE: "Two rows give different values for the same time.",
  DEMAND_COUNTER_FALLS: "A counter's reading lies below the one before.",
  DEMAND_ABSURD: "A demand is larger than any factory's, or a thousand times the file's own.",
  DEMAND_NEGATIVE: "A demand cannot be negative.",
  DEMAND_GAP: "A gap is too long to be filled.",
  DEMAND_LOG_TOO_SHORT: "A log is too short, or too even, to be extended by a calendar.",
  DEMAND_FILLED_SHARE: "More hours are missing than may be filled in all.",
} as const;
export type DemandProblemCode = keyof typeof demandProblems;

/** A row with what was found in it. */
export interface RowFault {
  readonly row: number;
  readonly found: string;
}

export interface FaultGroup {
  readonly code: DemandProblemCode;
  readonly file: string;
  readonly column?: string | undefined;
  readonly faults: readonly RowFault[];
  /** The sentence for one row. */
  readonly one: (found: string) => string;
  /** What the rows have in common, e.g. "are not numbers". */
  readonly many: string;
}

const mostSingle = 20;

/** One problem a row up to 20 rows; beyond, one problem that names every row in shortened form. */
export function rowProblems({ code, file, column, faults, one, many }: FaultGroup): Problem[] {
  const place = column === undefined ? { file } : { file, column };
  if (faults.length <= mostSingle) {
    return faults.map(({ row, found }) => ({ code, message: one(found), place: { ...place, row } }));
  }
  const found = [...new Set(faults.map((fault) => fault.found))];
  const samples = found.slice(0, 5).map((text) => `"${shorten(text)}"`);
  const message = `${faults.length} rows ${many}, for example ${samples.join(", ")}: ${rowList(faults.map((fault) => fault.row))}.`;
  return [{ code, message, place: { ...place, row: faults[0]!.row } }];
}

/** A cell as it can stand in a sentence. */
export function shorten(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is removed.
  const plain = text.replace(/[\u0000-\u001f\u007f-\u009f]/g, "?");
  return plain.length > 40 ? `${plain.slice(0, 37)}…` : plain;
}
