import type { Problem } from "../../core/problem.ts";
import { weatherProblem } from "./weather-problems.ts";
import type { WeatherColumn, WeatherQuantity, WeatherRows } from "./weather-rows.ts";

export interface PickedYear {
  readonly rows: WeatherRows;
  readonly problems: readonly Problem[];
}

/**
 * The rows of the calendar year that the user named. A file whose years meet in no month, as a typical year is
 * put together, is one year and needs no name.
 */
export function pickYear(rows: WeatherRows, file: string, wanted: number | undefined): PickedYear {
  const { year } = rows;
  const counts = new Map<number, number>();
  if (year !== undefined) for (const one of year) if (one > 0) counts.set(one, (counts.get(one) ?? 0) + 1);
  if (year === undefined || counts.size === 0) {
    if (wanted === undefined) return { rows, problems: [] };
    return {
      rows,
      problems: [
        none(
          file,
          `The file tells no years, so the year ${wanted} cannot be taken from it; leave the year out.`,
        ),
      ],
    };
  }
  const found = [...counts].sort(([a], [b]) => a - b);
  const list = found.map(([one, count]) => `${one} (${count} rows)`).join(", ");
  if (wanted === undefined) {
    if (!meetInAMonth(rows, year)) return { rows, problems: [] };
    return {
      rows,
      problems: [
        none(
          file,
          `The file holds several years: ${list}. Say which one to take, in the study as weather/year or weatherYear of a possible year.`,
        ),
      ],
    };
  }
  if (!counts.has(wanted)) {
    return { rows, problems: [none(file, `The file does not hold the year ${wanted}; it holds ${list}.`)] };
  }
  return { rows: only(rows, year, wanted), problems: [] };
}

function none(file: string, message: string): Problem {
  return weatherProblem(file, "WEATHER_YEARS", message);
}

function meetInAMonth({ month }: WeatherRows, year: Int16Array): boolean {
  const yearOf = new Map<number, number>();
  return month.some((each, i) => {
    if (each === 0 || year[i] === 0) return false;
    const first = yearOf.get(each);
    if (first === undefined) yearOf.set(each, year[i]!);
    return first !== undefined && first !== year[i];
  });
}

/** The rows of one year, and those whose date could not be read, which are told apart. */
function only(rows: WeatherRows, year: Int16Array, wanted: number): WeatherRows {
  const kept = Array.from(year.keys()).filter((i) => year[i] === wanted || year[i] === 0);
  const columns: Partial<Record<WeatherQuantity, WeatherColumn>> = {};
  for (const [name, column] of Object.entries(rows.columns)) {
    columns[name as WeatherQuantity] = {
      ...column,
      values: Float64Array.from(kept, (i) => column.values[i]!),
    };
  }
  return {
    ...rows,
    description: `${rows.description}, year ${wanted}`,
    line: Int32Array.from(kept, (i) => rows.line[i]!),
    month: Uint8Array.from(kept, (i) => rows.month[i]!),
    day: Uint8Array.from(kept, (i) => rows.day[i]!),
    hour: Uint8Array.from(kept, (i) => rows.hour[i]!),
    year: Int16Array.from(kept, (i) => year[i]!),
    columns,
  };
}
