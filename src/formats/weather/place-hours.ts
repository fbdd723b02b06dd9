import { hourIndex, monthLength_days } from "../../core/calendar.ts";
import type { Problem } from "../../core/problem.ts";
import { hoursPerYear } from "../../core/series.ts";
import { rowsInWords, weatherProblem } from "./weather-problems.ts";
import type { WeatherRows } from "./weather-rows.ts";

/** Where the rows of a file belong in the study year. */
export interface PlacedHours {
  /** Row (position in the file's rows) of each hour; −1 where there is none. */
  readonly rowOf: Int32Array;
  readonly problems: readonly Problem[];
  readonly findings: readonly Problem[];
}

/**
 * Finds the row of each hour by its month, day and hour. `shift_h` moves the station's clock to the
 * study's; a few hours wrap at New Year.
 */
export function placeHours(rows: WeatherRows, file: string, shift_h: number): PlacedHours {
  const problems: Problem[] = [];
  const findings: Problem[] = [];
  const rowOf = new Int32Array(hoursPerYear).fill(-1);
  const count = new Uint16Array(hoursPerYear);
  const doubles: number[] = [];
  const unreal: number[] = [];
  let leapRows = 0;
  let leapRow = 0;
  let ordered = true;
  let before = -1;
  for (let i = 0; i < rows.line.length; i += 1) {
    const [month, day, hour] = [rows.month[i]!, rows.day[i]!, rows.hour[i]!];
    if (month === 0) continue;
    if (month === 2 && day === 29) {
      if (leapRows === 0) leapRow = rows.line[i]!;
      leapRows += 1;
      continue;
    }
    if (day > monthLength_days(month)) {
      unreal.push(rows.line[i]!);
      continue;
    }
    const own = hourIndex(month, day, hour);
    if (own < before) ordered = false;
    before = own;
    const index = (own + shift_h + hoursPerYear) % hoursPerYear;
    count[index]! += 1;
    if (rowOf[index] === -1) rowOf[index] = i;
    else doubles.push(i);
  }
  const oneLine = (i: number) => rows.line[i]!;
  if (unreal.length > 0)
    problems.push(
      weatherProblem(
        file,
        "WEATHER_TIME",
        `A day that its month does not have stands ${rowsInWords(unreal)}.`,
        {
          row: unreal[0]!,
        },
      ),
    );
  if (doubles.length >= hoursPerYear / 2)
    problems.push(
      weatherProblem(
        file,
        "WEATHER_STEP",
        `The file has ${rows.line.length} rows, ${doubles.length} of them for hours that already have one; one row an hour is allowed.`,
        { row: oneLine(doubles[0]!) },
      ),
    );
  else if (doubles.length > 0)
    problems.push(
      weatherProblem(
        file,
        "WEATHER_HOUR_DOUBLE",
        `An hour that another row already holds stands ${rowsInWords(doubles.map(oneLine))}, first ${words(rows, doubles[0]!)}; one row an hour is allowed.`,
        { row: oneLine(doubles[0]!) },
      ),
    );
  if (rows.line.length > 0) problems.push(...missingRuns(rows, rowOf, file, shift_h));
  else
    problems.push(
      weatherProblem(file, "WEATHER_HOUR_MISSING", "The file holds no rows of data; 8760 are needed."),
    );
  if (leapRows > 0)
    findings.push(
      weatherProblem(file, "WEATHER_LEAP_DAY", `29 February (${leapRows} rows) was left out.`, {
        row: leapRow,
      }),
    );
  if (!ordered && rows.problems.length === 0)
    findings.push(
      weatherProblem(
        file,
        "WEATHER_ORDER",
        "The rows do not run from January to December; they were put in order by their dates.",
      ),
    );
  return { rowOf, problems, findings };
}

const mostRuns = 20;

function missingRuns(rows: WeatherRows, rowOf: Int32Array, file: string, shift_h: number): Problem[] {
  const runs: { first: number; length: number }[] = [];
  for (let hour = 0; hour < hoursPerYear; hour += 1) {
    if (rowOf[hour] !== -1) continue;
    const last = runs.at(-1);
    if (last !== undefined && last.first + last.length === hour) last.length += 1;
    else runs.push({ first: hour, length: 1 });
  }
  const told = runs.slice(0, mostRuns).map(({ first, length }) => {
    const beforeRow = first > 0 ? rowOf[first - 1]! : -1;
    const afterRow = first + length < hoursPerYear ? rowOf[first + length]! : -1;
    const between = [
      beforeRow < 0 ? null : `after row ${rows.line[beforeRow]}`,
      afterRow < 0 ? null : `before row ${rows.line[afterRow]}`,
    ].filter((part) => part !== null);
    const where = between.length === 0 ? "" : ` (${between.join(", ")})`;
    const own = (index: number) => (index - shift_h + hoursPerYear) % hoursPerYear;
    const span =
      length === 1
        ? `1 hour is missing, ${labelOf(own(first))}`
        : `${length} hours are missing, ${labelOf(own(first))} to ${labelOf(own(first + length - 1))}`;
    const place = beforeRow < 0 ? {} : { row: rows.line[beforeRow]! };
    return weatherProblem(file, "WEATHER_HOUR_MISSING", `${span}${where}; all 8760 are needed.`, place);
  });
  if (runs.length > mostRuns) {
    const rest = runs.slice(mostRuns);
    const hours = rest.reduce((total, run) => total + run.length, 0);
    told.push(
      weatherProblem(
        file,
        "WEATHER_HOUR_MISSING",
        `${hours} more hours are missing in ${rest.length} further gaps, the last ${labelOf(rest.at(-1)!.first)}.`,
      ),
    );
  }
  return told;
}

/** Month, day and hour label 1–24 of an hour index. */
export function labelOf(index: number): string {
  let day = Math.floor(index / 24) + 1;
  let month = 1;
  while (day > monthLength_days(month)) {
    day -= monthLength_days(month);
    month += 1;
  }
  return `month ${month} day ${day} hour ${(index % 24) + 1}`;
}

function words(rows: WeatherRows, i: number): string {
  return `month ${rows.month[i]} day ${rows.day[i]} hour ${rows.hour[i]! + 1}`;
}
