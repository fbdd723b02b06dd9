interface NumberCell {
  readonly t: string;
  readonly v?: unknown;
}

/** Day counts of 1970 to 2120, in either day count of a workbook. */
const least = 24_000;
const most = 81_000;
const minute_days = 1 / 1440;

/**
 * Columns that hold dates as plain numbers of days, whose date format was lost: nine in ten of their
 * numbers lie between 1970 and 2120 and follow one another by the same whole number of minutes, at
 * most an hour. A meter that counts so evenly for so long would be constant.
 */
export function serialColumns(
  rows: readonly (readonly (NumberCell | undefined)[] | undefined)[],
): ReadonlySet<number> {
  const width = rows.reduce((wide, row) => Math.max(wide, row?.length ?? 0), 0);
  return new Set(
    Array.from({ length: width }, (_, column) => column).filter((column) => isSerial(rows, column)),
  );
}

function isSerial(
  rows: readonly (readonly (NumberCell | undefined)[] | undefined)[],
  column: number,
): boolean {
  const values: number[] = [];
  for (const row of rows) {
    const cell = row?.[column];
    if (cell?.t === "n" && typeof cell.v === "number") values.push(cell.v);
  }
  if (values.length < 24) return false;
  const inRange = values.filter((value) => value > least && value < most).length;
  if (inRange < 0.9 * values.length) return false;
  const step = values[1]! - values[0]!;
  const minutes = Math.round(step / minute_days);
  if (minutes < 1 || minutes > 60) return false;
  const even = values.filter(
    (value, i) => i > 0 && Math.abs(value - values[i - 1]! - minutes * minute_days) < minute_days / 4,
  ).length;
  return even >= 0.9 * (values.length - 1);
}
