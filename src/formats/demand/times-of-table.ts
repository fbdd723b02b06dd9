import type { QualityFinding } from "../../core/demand/quality/quality-report.ts";
import { rowList } from "../../core/demand/quality/row-list.ts";
import type { Problem } from "../../core/problem.ts";
import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { Question, Understood } from "./account.ts";
import { countTimes } from "./count-times.ts";
import { type DemandProblemCode, rowProblems } from "./demand-problems.ts";
import { timeColumns } from "./find-columns.ts";
import { findStep } from "./find-step.ts";
import { guessStamp } from "./guess-stamp.ts";
import type { Table } from "./open-table.ts";
import { type PlacedRows, placeRows } from "./place-rows.ts";
import type { DemandOptions } from "./read-demand.ts";
import { understandTimes, type WrittenTimes } from "./understand-times.ts";

export interface TimesOfTable {
  readonly problems: readonly Problem[];
  readonly questions: readonly Question[];
  readonly findings: readonly QualityFinding[];
  readonly understood: Partial<Understood>;
  readonly step_min: number | null;
  /** Null where the rows cannot be placed in a year at all. */
  readonly placed: PlacedRows | null;
  /** The part of the reading that concerns time, fully resolved. */
  readonly resolved: DemandReading;
}

const day_ms = 86_400_000;

/** The time of every row: stamps read, step found, start or end and clock settled, rows placed. */
export function timesOfTable(table: Table, options: DemandOptions): TimesOfTable {
  const { file, reading, calendar } = options;
  const { layout, rows, line } = table;
  const problems: Problem[] = [];
  const findings: QualityFinding[] = [];
  let understood: Partial<Understood> = {};
  const add = (code: DemandProblemCode, message: string) => problems.push({ code, message, place: { file } });
  const stop = (questions: readonly Question[] = []): TimesOfTable => ({
    problems,
    questions,
    findings,
    understood,
    step_min: null,
    placed: null,
    resolved: {},
  });

  const source = layout.time;
  if (source === null) return stop();
  const columns = timeColumns(source);
  const column = columns.length === 0 ? undefined : columns.map((k) => layout.names[k]).join(" + ");

  let written: WrittenTimes;
  if (source.kind === "count" || source.kind === "none") {
    const counts = source.kind === "none" ? Array.from(rows.keys()) : rows.map((row) => row[source.column]!);
    const wall_ms = countTimes(counts, calendar.calendarYear);
    if (wall_ms === null) {
      add(
        "DEMAND_STEP",
        `Rows without dates must count up to 8760 hours, or to 2, 3, 4, 6, 12 or 60 times as many steps; the file has ${rows.length} rows.`,
      );
      return stop();
    }
    const bad = Array.from(wall_ms.keys()).filter((i) => Number.isNaN(wall_ms[i]));
    const faults = bad.map((i) => ({ row: line[i]!, found: String(counts[i]) }));
    const one = (found: string) => `"${found}" is not a whole number, as the other rows are counted.`;
    written = {
      wall_ms,
      offset_min: null,
      dateOrder: null,
      dateOrderHow: "the rows are counted, not dated",
      faults: [
        { code: "DEMAND_TIME_NOT_UNDERSTOOD", faults, one, many: "are not counted by a whole number" },
      ],
      questions: [],
    };
  } else written = understandTimes(rows, line, source, reading);
  for (const group of written.faults) problems.push(...rowProblems({ ...group, file, column }));
  const questions: Question[] = [...written.questions];

  const { wall_ms, offset_min } = written;
  const text = (i: number) => columns.map((k) => rows[i]![k]!.trim()).join(" ");
  understood = {
    dateOrder: written.dateOrder,
    dateOrderHow: written.dateOrderHow,
    firstStamp: rows.length === 0 || columns.length === 0 ? null : text(0),
    lastStamp: rows.length === 0 || columns.length === 0 ? null : text(rows.length - 1),
  };

  // Where stamps carry an offset, true time is steady and the wall clock is not.
  const steady_ms = offset_min === null ? wall_ms : wall_ms.map((wall, i) => wall - offset_min[i] * 60_000);
  const step = findStep(steady_ms);
  if (step === null) {
    if (problems.length === 0)
      add("DEMAND_STEP", "Fewer than two rows have a time, so no step can be found.");
    return stop(questions);
  }
  const { step_min } = step;
  understood = { ...understood, step_min };
  if (!(step_min >= 1 && step_min <= 60 && Number.isInteger(60 / step_min))) {
    add(
      "DEMAND_STEP",
      `The rows are ${step_min} minutes apart (median); allowed are steps of 1 to 60 minutes that divide the hour. Daily or monthly figures can be given by a calendar.`,
    );
    return stop(questions);
  }
  problems.push(
    ...rowProblems({
      code: "DEMAND_IRREGULAR",
      file,
      column,
      faults: step.off.map((i) => ({ row: line[i]!, found: text(i) })),
      one: (found) => `"${found}" does not lie on the file's step of ${step_min} minutes.`,
      many: `do not lie on the file's step of ${step_min} minutes`,
    }),
  );
  const remark = (kind: "irregular" | "order", positions: readonly number[], sentence: string) => {
    if (positions.length === 0) return;
    const lines = positions.map((i) => line[i]!);
    const span = { from: lines[0]!, to: lines[lines.length - 1]! };
    findings.push({
      kind,
      sentence: `${sentence}: ${rowList(lines)}.`,
      rows: span,
      from: null,
      to: null,
      count: lines.length,
    });
  };
  remark(
    "irregular",
    step.moved,
    `${step.moved.length} stamps are off the step by less than a tenth of it and were moved onto it`,
  );
  remark(
    "order",
    step.outOfOrder,
    `${step.outOfOrder.length} rows stand out of order in time; each was placed by its own stamp`,
  );

  const { first_ms: least, last_ms: most } = rangeOf(step.time_ms);
  if (most - least > 367 * day_ms) {
    const days = Math.round((most - least) / day_ms);
    const [from, to] = [least, most].map((ms) => new Date(ms).toISOString().slice(0, 10));
    add(
      "DEMAND_MORE_THAN_A_YEAR",
      `The rows run from ${from} to ${to}, ${days} days; give one year, from 1 January to 31 December or any twelve months in a row.`,
    );
    return stop(questions);
  }

  const local_ms =
    offset_min === null ? step.time_ms : step.time_ms.map((ms, i) => ms + offset_min[i] * 60_000);
  const ends = rangeOf(local_ms);
  const stamped = source.kind === "stamp" || source.kind === "date-and-time";
  const guess = stamped
    ? guessStamp(column ?? "", ends, step_min * 60_000)
    : {
        stamp: "start" as const,
        how: "rows are counted: the first is the first of the year",
        question: null,
      };
  if (guess.question !== null && reading.stamp === undefined) questions.push(guess.question);
  const stamp = reading.stamp ?? guess.stamp;

  const placed = placeRows(
    { wall_ms: local_ms, offset_min, line, step_min, stamp, descending: step.descending },
    calendar,
    reading.clock,
  );
  if (placed.question !== null) questions.push(placed.question);
  findings.push(...placed.findings);
  understood = {
    ...understood,
    stamp,
    stampHow: reading.stamp === undefined ? guess.how : "said by user",
    clock: placed.clock,
    clockHow: placed.how,
    yearOfFile: stamped ? commonYear(placed.start_ms) : null,
  };
  const resolved: DemandReading = {
    ...(column === undefined ? {} : { timeColumn: column }),
    clock: placed.clock,
    stamp,
    ...(written.dateOrder === null ? {} : { dateOrder: written.dateOrder }),
  };
  return { problems, questions, findings, understood, step_min, placed, resolved };
}

function commonYear(start_ms: Float64Array): number | null {
  const tally = new Map<number, number>();
  let best: number | null = null;
  for (const start of start_ms) {
    if (Number.isNaN(start)) continue;
    const year = new Date(start).getUTCFullYear();
    const count = (tally.get(year) ?? 0) + 1;
    tally.set(year, count);
    if (best === null || count > tally.get(best)!) best = year;
  }
  return best;
}

/** Least and greatest of the values that are not NaN. */
function rangeOf(values: Float64Array): { first_ms: number; last_ms: number } {
  let first_ms = Number.POSITIVE_INFINITY;
  let last_ms = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < first_ms) first_ms = value;
    if (value > last_ms) last_ms = value;
  }
  return { first_ms, last_ms };
}
