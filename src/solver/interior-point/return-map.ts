import type { Columns } from "./columns.ts";
import type { Occurrences } from "./occurrences.ts";
import type { Rows } from "./rows.ts";

/** The way back from slots to a program's own columns and rows, and nothing else: it outlives the sorting. */
export interface ReturnMap {
  /** Slot or size of each column, −1 for one held fixed. */
  readonly columnPlace: Int32Array;
  readonly columnSign: Int8Array;
  readonly sizeSource: Int32Array;
  readonly sizeSign: Float64Array;
  readonly rowClass: Uint8Array;
  /** Interior slot, limit slot or long row. */
  readonly rowPlace: Int32Array;
  readonly rowSign: Int8Array;
  /** What made a limit's coefficient ±1; null where all were. */
  readonly limitDivisor: Float64Array | null;
}

export function returnMap(columns: Columns, rows: Rows, seen: Occurrences): ReturnMap {
  return {
    columnPlace: columns.place,
    columnSign: columns.sign,
    sizeSource: columns.sizeSource,
    sizeSign: columns.sizeSign,
    rowClass: rows.kind,
    rowPlace: rows.place,
    rowSign: rows.sign,
    limitDivisor: seen.limitDivisor,
  };
}
