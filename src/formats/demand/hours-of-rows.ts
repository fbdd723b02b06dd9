import type { StudyCalendar } from "../../core/calendar.ts";
import { extendByCalendar, leastLogged_h } from "../../core/demand/extension.ts";
import { fillGaps, fillLimits } from "../../core/demand/fill-gaps.ts";
import { equalRunFindings } from "../../core/demand/quality/equal-runs.ts";
import { hourWords, numberWords } from "../../core/demand/quality/hour-words.ts";
import {
  findingAt,
  type QualityFinding,
  type QualityReport,
} from "../../core/demand/quality/quality-report.ts";
import { rowList } from "../../core/demand/quality/row-list.ts";
import { spikeFindings } from "../../core/demand/quality/spikes.ts";
import { weekPatternFindings } from "../../core/demand/quality/week-pattern.ts";
import { type MeteredIntervals, resampleToHours } from "../../core/demand/resample.ts";
import type { Problem } from "../../core/problem.ts";
import { hoursPerYear } from "../../core/series.ts";
import type { DemandExtension } from "./account.ts";
import { rowProblems } from "./demand-problems.ts";
import type { ReadingPlan } from "./plan-of-reading.ts";

export interface HoursOfRows {
  readonly problems: readonly Problem[];
  readonly quality: QualityReport;
  readonly hourly: Float64Array | null;
  /** Hours as metered, NaN where nothing is known; null where gaps are not judged. */
  readonly known: Float64Array | null;
  readonly extension: DemandExtension | null;
}

interface Context {
  readonly file: string;
  readonly calendar: StudyCalendar;
  readonly yearOfFile: number | null;
  readonly plan: ReadingPlan | null;
  /** False where rows are already refused: what they leave open is then no gap of the file. */
  readonly judgeGaps: boolean;
}

const partRule = "mean of the intervals present, in hours of which at least half is known";

/** Placed rows to 8760 hours, with doubles and gaps judged, short gaps filled and the year looked over. */
export function hoursOfRows(intervals: MeteredIntervals, context: Context): HoursOfRows {
  const { file, calendar, yearOfFile } = context;
  const { rate, line } = intervals;
  const hours = resampleToHours(intervals);
  const findings: QualityFinding[] = [];
  const problems: Problem[] = [];

  if (hours.leapDay.length > 0) {
    const lines = hours.leapDay.map((i) => line[i]!);
    findings.push({
      ...ofRows("leap-day", lines),
      sentence: `29 February was left out, as the study year has 365 days: ${lines.length} rows with ${numberWords(hours.leapDayTotal)} (value × hours).`,
    });
  }
  const same = hours.doubles.filter(
    ([a, b]) => rate[a] === rate[b] || (Number.isNaN(rate[a]) && Number.isNaN(rate[b])),
  );
  const differ = hours.doubles.filter((pair) => !same.includes(pair));
  if (same.length > 0) {
    const lines = same.map(([, later]) => line[later]!);
    findings.push({
      ...ofRows("double", lines),
      sentence: `${lines.length} rows repeat the time and value of an earlier row and were left out: ${rowList(lines)}.`,
    });
  }
  problems.push(
    ...rowProblems({
      code: "DEMAND_DOUBLE",
      file,
      faults: differ.map(([a, b]) => ({ row: line[b]!, found: `row ${line[a]} and row ${line[b]}` })),
      one: (found) => `${found} give different values for the same time of the year; keep one of them.`,
      many: "give another value for a time that an earlier row has already",
    }),
  );

  const valueless = Array.from(line.keys()).filter((i) => Number.isNaN(rate[i]));
  if (context.judgeGaps && valueless.length > 0) {
    const lines = valueless.map((i) => line[i]!);
    findings.push({
      ...ofRows("gap", lines),
      sentence: `${lines.length} rows have no value: ${rowList(lines)}.`,
    });
  }
  if (!context.judgeGaps)
    return { problems, quality: { findings, filled: [] }, hourly: null, known: null, extension: null };

  const refusedGaps: QualityFinding[] = [];
  const part = Array.from(hours.known.keys()).filter(
    (h) => hours.known[h] < 1 - 1e-9 && !Number.isNaN(hours.hourly[h]),
  );
  const gaps = fillGaps(hours.hourly);
  const { filled: gapFilled, refused } = gaps;
  const extended =
    refused.length > 0 && context.plan?.extend === true
      ? extension(hours.hourly, gaps.hourly, context.plan)
      : null;
  const hourly = extended?.hourly ?? gaps.hourly;
  const filled = [...(part.length > 0 ? [{ rule: partRule, hours: part }] : []), ...gapFilled];
  for (const { rule, hours: list } of filled) {
    const from = list[0]!;
    const to = list[list.length - 1]!;
    findings.push(
      findingAt(
        "filled",
        `${list.length} ${list.length === 1 ? "hour" : "hours"} filled by rule: ${rule}; the first is ${hourWords(from)}.`,
        { from, to, count: list.length },
        hours,
      ),
    );
  }
  if (extended !== null) findings.push(extendedFinding(extended.told));
  if (refused.length > 0 && extended === null && context.plan?.extend === true) {
    problems.push({
      code: "DEMAND_LOG_TOO_SHORT",
      message: `The log cannot be extended by the calendar "${context.plan.name}": at least ${leastLogged_h} logged hours are needed, and some of them at work and some not.`,
      place: { file },
    });
  }
  for (const { from, lasts_h } of extended === null ? refused : []) {
    const before = hours.lastLine[(from + hoursPerYear - 1) % hoursPerYear]!;
    const after = hours.firstLine[(from + lasts_h) % hoursPerYear]!;
    const last = hourWords((from + lasts_h - 1) % hoursPerYear);
    const where =
      before > 0 && after > 0 && lasts_h < hoursPerYear ? ` (between row ${before} and row ${after})` : "";
    // Told with the problem; here for the picture of where it lies.
    const to = from + lasts_h - 1;
    if (to < hoursPerYear && lasts_h < hoursPerYear)
      refusedGaps.push({
        kind: "gap",
        sentence: `${lasts_h} h have no value from ${hourWords(from)} and cannot be filled.`,
        rows: null,
        from,
        to,
        count: lasts_h,
      });
    problems.push({
      code: "DEMAND_GAP",
      message: `${lasts_h} hours have no value, from ${hourWords(from)} to ${last} standard time${where}; gaps up to ${fillLimits.week_h} h are filled where the weeks or days around them are known. Add the rows, let a calendar extend the log, or give the year by a calendar.`,
      place: before > 0 ? { file, row: before } : { file },
    });
  }
  const filledHours = gapFilled.reduce((total, { hours: list }) => total + list.length, 0);
  const most_h = fillLimits.totalShare * hoursPerYear;
  if (filledHours > most_h) {
    problems.push({
      code: "DEMAND_FILLED_SHARE",
      message: `${filledHours} hours would have to be filled; at most ${most_h} (${fillLimits.totalShare * 100} % of the year) may be.`,
      place: { file },
    });
  }
  const known = hours.hourly;
  const told = extended?.told ?? null;
  if (problems.length > 0)
    return {
      problems,
      quality: { findings: [...findings, ...refusedGaps], filled },
      hourly: null,
      known,
      extension: told,
    };
  findings.push(
    // Of a log, not of what a calendar foretells on other weekdays.
    ...(extended === null
      ? [
          ...equalRunFindings(hourly, hours),
          ...spikeFindings(hourly, hours),
          ...weekPatternFindings(hourly, calendar, yearOfFile),
        ]
      : []),
  );
  return { problems, quality: { findings, filled }, hourly, known, extension: told };
}

function extension(metered: Float64Array, bridged: Float64Array, plan: ReadingPlan) {
  const isMetered = Uint8Array.from(metered, (value) => (Number.isNaN(value) ? 0 : 1));
  const found = extendByCalendar(bridged, isMetered, plan.sharesThen, plan.shares);
  if (found === null) return null;
  const { hourly, ...told } = found;
  const { base, level } = told.fit;
  const model = plan.sharesThen.map((share) => base + level * share);
  return { hourly, told: { ...told, calendar: plan.name, model, logged: metered } };
}

function extendedFinding(told: DemandExtension): QualityFinding {
  const { fit, extended_h, extended, extendedError } = told;
  const error = Number.isNaN(fit.weekError)
    ? "Fewer than three weeks were logged, so how far this may be out is not known"
    : `Each of ${fit.weeks.length} logged weeks, foretold by the others, is missed by ${(100 * fit.weekError).toFixed(1)} % and each half of the log by ${(100 * fit.halfError).toFixed(1)} % (root mean squares), which makes ${numberWords(extended)} ± ${numberWords(extendedError)} (value × hours) of what was not logged`;
  return {
    kind: "extended",
    sentence: `${extended_h} hours were not logged and go by the calendar "${told.calendar}": ${numberWords(fit.base)} + ${numberWords(fit.level)} × its share, from ${fit.logged_h} logged hours (R² ${fit.r2.toFixed(2)}). ${error}; what changes with seasons that were not logged is not in it.`,
    rows: null,
    from: null,
    to: null,
    count: extended_h,
  };
}

function ofRows(kind: QualityFinding["kind"], lines: readonly number[]) {
  const from = lines.reduce((a, b) => Math.min(a, b));
  const to = lines.reduce((a, b) => Math.max(a, b));
  return { kind, rows: { from, to }, from: null, to: null, count: lines.length };
}
