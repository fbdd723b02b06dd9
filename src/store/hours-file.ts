import type { HourlyResult } from "../core/dispatch/hourly-result.ts";

/** Layout of hours.json: every array is replaced by its place in hours.bin, counted in float64 values. */
interface ColumnPlace {
  readonly column: number;
  readonly length: number;
}

/** Splits an hourly result into a small JSON text and one block of little-endian float64 columns. */
export function packHours(hours: HourlyResult): { header: string; columns: Uint8Array } {
  const arrays: Float64Array[] = [];
  let offset = 0;
  const header = JSON.stringify(hours, (_key, value: unknown) => {
    if (!(value instanceof Float64Array)) return value;
    arrays.push(value);
    const place: ColumnPlace = { column: offset, length: value.length };
    offset += value.length;
    return place;
  });
  const all = new Float64Array(offset);
  let at = 0;
  for (const array of arrays) {
    all.set(array, at);
    at += array.length;
  }
  return { header, columns: new Uint8Array(all.buffer) };
}

/** The reverse of packHours. @throws RangeError where the block is shorter than the header says. */
export function unpackHours(header: string, columns: Uint8Array): HourlyResult {
  // The block is copied once so that it starts on a multiple of eight bytes.
  const all = new Float64Array(columns.slice().buffer);
  return JSON.parse(header, (_key, value: unknown) => {
    if (!isPlace(value)) return value;
    if (value.column + value.length > all.length) {
      throw new RangeError(
        `hours.bin holds ${all.length} values; column ends at ${value.column + value.length}`,
      );
    }
    return all.slice(value.column, value.column + value.length);
  }) as HourlyResult;
}

function isPlace(value: unknown): value is ColumnPlace {
  return typeof value === "object" && value !== null && "column" in value && "length" in value;
}
