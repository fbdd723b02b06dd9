import type { Problem } from "../../core/problem.ts";
import { rowsInWords, weatherProblem } from "./weather-problems.ts";
import type { WeatherColumn } from "./weather-rows.ts";

export interface ColumnToRead {
  readonly file: string;
  readonly title: string;
  readonly place: number;
  /** From the file's unit to the core's. */
  readonly convert: (value: number) => number;
  readonly isMissing: (cell: string, value: number) => boolean;
  readonly parse: (cell: string) => number;
}

/** One column of numbers; missing cells become NaN, cells that are no number are told in one sentence. */
export function readColumn(
  cells: readonly (readonly string[])[],
  line: Int32Array,
  column: ColumnToRead,
): { column: WeatherColumn; problems: Problem[] } {
  const values = new Float64Array(cells.length);
  const faults: number[] = [];
  let sample = "";
  for (let i = 0; i < cells.length; i += 1) {
    const cell = (cells[i]![column.place] ?? "").trim();
    const value = cell === "" ? Number.NaN : column.parse(cell);
    if (column.isMissing(cell, value)) values[i] = Number.NaN;
    else if (Number.isFinite(value)) values[i] = column.convert(value);
    else {
      values[i] = Number.NaN;
      if (faults.length === 0) sample = cell;
      faults.push(line[i]!);
    }
  }
  const problems =
    faults.length === 0
      ? []
      : [
          weatherProblem(
            column.file,
            "WEATHER_NUMBER",
            `"${sample.slice(0, 40)}" is not a number; cells without a number stand ${rowsInWords(faults)}.`,
            { row: faults[0]!, column: column.title },
          ),
        ];
  return { column: { title: column.title, values }, problems };
}

/** Digits with a decimal point, nothing else. */
export function pointNumber(cell: string): number {
  return /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/.test(cell) ? Number(cell) : Number.NaN;
}
