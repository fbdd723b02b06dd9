import type { StudyCalendar } from "../../core/calendar.ts";
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
import { rowProblems } from "./demand-problems.ts";

export interface HoursOfRows {
  readonly problems: readonly Problem[];
  readonly quality: QualityReport;
  readonly hourly: Float64Array | null;
}

interface Context {
  readonly file: string;
  readonly calendar: StudyCalendar;
  readonly yearOfFile: number | null;
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
  if (!context.judgeGaps) return { problems, quality: { findings, filled: [] }, hourly: null };

  const part = Array.from(hours.known.keys()).filter(
    (h) => hours.known[h] < 1 - 1e-9 && !Number.isNaN(hours.hourly[h]),
  );
  const { hourly, filled: gapFilled, refused } = fillGaps(hours.hourly);
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
  for (const { from, lasts_h } of refused) {
    const before = hours.lastLine[(from + hoursPerYear - 1) % hoursPerYear]!;
    const after = hours.firstLine[(from + lasts_h) % hoursPerYear]!;
    const last = hourWords((from + lasts_h - 1) % hoursPerYear);
    const where =
      before > 0 && after > 0 && lasts_h < hoursPerYear ? ` (between row ${before} and row ${after})` : "";
    problems.push({
      code: "DEMAND_GAP",
      message: `${lasts_h} hours have no value, from ${hourWords(from)} to ${last} standard time${where}; gaps up to ${fillLimits.week_h} h are filled where the weeks or days around them are known. Add the rows, or give the year by a calendar.`,
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
  if (problems.length > 0) return { problems, quality: { findings, filled }, hourly: null };
  findings.push(
    ...equalRunFindings(hourly, hours),
    ...spikeFindings(hourly, hours),
    ...weekPatternFindings(hourly, calendar, yearOfFile),
  );
  return { problems, quality: { findings, filled }, hourly };
}

function ofRows(kind: QualityFinding["kind"], lines: readonly number[]) {
  const from = lines.reduce((a, b) => Math.min(a, b));
  const to = lines.reduce((a, b) => Math.max(a, b));
  return { kind, rows: { from, to }, from: null, to: null, count: lines.length };
}
