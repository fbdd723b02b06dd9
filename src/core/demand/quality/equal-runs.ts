import { hourWords, numberWords } from "./hour-words.ts";
import { findingAt, type HourLines, type QualityFinding } from "./quality-report.ts";

const stuckFrom_h = 24;
const zeroFrom_h = 24;
const zeroLong_h = 168;
const mostNamed = 20;

interface Run {
  readonly from: number;
  readonly to: number;
  readonly value: number;
}

/**
 * Runs of one value: zeros for 24 h or more, and any other value kept for 24 h or more ("stuck"). Zero
 * runs of a week or more and the 20 longest stuck runs are named one by one, the rest counted
 * together. A series of one value all year is nothing to remark unless that value is 0.
 */
export function equalRunFindings(hourly: Float64Array, lines: HourLines): QualityFinding[] {
  const runs = equalRuns(hourly);
  const zeros = runs.filter((run) => run.value === 0 && length(run) >= zeroFrom_h);
  const longZeros = zeros.filter((run) => length(run) >= zeroLong_h);
  const shortZeros = zeros.filter((run) => length(run) < zeroLong_h);
  const findings = longZeros.map((run) =>
    findingAt(
      "zero-run",
      `The value is 0 for ${length(run)} hours without a break, from ${hourWords(run.from)}. Check whether the works stood still or the meter did.`,
      { from: run.from, to: run.to, count: length(run) },
      lines,
    ),
  );
  if (shortZeros.length > 0) {
    findings.push(together("zero-run", shortZeros, lines, "of zeros that last 24 h to a week"));
  }

  const stuck = runs
    .filter((run) => run.value !== 0 && length(run) >= stuckFrom_h && length(run) < hourly.length)
    .sort((a, b) => length(b) - length(a) || a.from - b.from);
  for (const run of stuck.slice(0, mostNamed)) {
    findings.push(
      findingAt(
        "stuck",
        `The value stays at exactly ${numberWords(run.value)} for ${length(run)} hours, from ${hourWords(run.from)}. A meter that hangs looks like this; so does a process that runs evenly.`,
        { from: run.from, to: run.to, count: length(run) },
        lines,
      ),
    );
  }
  const rest = stuck.slice(mostNamed).sort((a, b) => a.from - b.from);
  if (rest.length > 0)
    findings.push(together("stuck", rest, lines, "of one value that last 24 h or more, beside those named"));
  return findings;
}

function together(
  kind: "zero-run" | "stuck",
  runs: readonly Run[],
  lines: HourLines,
  what: string,
): QualityFinding {
  const hours = runs.reduce((total, run) => total + length(run), 0);
  const longest = runs.reduce((best, run) => (length(run) > length(best) ? run : best));
  const noun = runs.length === 1 ? "There is 1 run" : `There are ${runs.length} runs`;
  return findingAt(
    kind,
    `${noun} ${what}, ${hours} hours in all; the longest starts ${hourWords(longest.from)} and lasts ${length(longest)} h.`,
    { from: runs[0]!.from, to: runs[runs.length - 1]!.to, count: hours },
    lines,
  );
}

function equalRuns(hourly: Float64Array): Run[] {
  const runs: Run[] = [];
  for (let from = 0; from < hourly.length; ) {
    let to = from;
    while (to + 1 < hourly.length && hourly[to + 1] === hourly[from]) to += 1;
    runs.push({ from, to, value: hourly[from] });
    from = to + 1;
  }
  return runs;
}

const length = (run: Run) => run.to - run.from + 1;
