import { numberWords } from "../../core/demand/quality/hour-words.ts";
import type { QualityFinding } from "../../core/demand/quality/quality-report.ts";
import { rowList } from "../../core/demand/quality/row-list.ts";
import type { Problem } from "../../core/problem.ts";
import { countedValues } from "./counter-values.ts";
import { rowProblems } from "./demand-problems.ts";
import type { Table } from "./open-table.ts";

export interface CountedTable {
  readonly table: Table;
  readonly value: Float64Array;
  readonly problems: readonly Problem[];
  readonly findings: readonly QualityFinding[];
}

/** A table of counter readings as one of what was counted; the last reading in time only ends an interval. */
export function countTable(table: Table, readings: Float64Array, column: string, file: string): CountedTable {
  const known = readings.filter((reading) => !Number.isNaN(reading));
  const descending = known.length > 1 && fallsMostly(known);
  const { value, faults, rollOvers } = countedValues(readings, table.line, descending);
  const last = table.rows.length - 1;
  const from = descending ? 1 : 0;
  const to = descending ? last + 1 : last;
  const problems = faults.flatMap((group) => rowProblems({ ...group, file, column }));
  const findings: QualityFinding[] = rollOvers.map((i) => ({
    kind: "counter",
    sentence: `The counter began anew after row ${table.line[i]}, at the end of its digits; ${numberWords(value[i]!)} were counted across it.`,
    rows: { from: table.line[i]!, to: table.line[i]! },
    from: null,
    to: null,
    count: 1,
  }));
  return {
    table: { ...table, rows: table.rows.slice(from, to), line: table.line.slice(from, to) },
    value: value.slice(from, to),
    problems,
    findings,
  };
}

function fallsMostly(known: Float64Array): boolean {
  let falling = 0;
  for (let i = 1; i < known.length; i += 1) if (known[i]! < known[i - 1]!) falling += 1;
  return falling > known.length / 2;
}

/**
 * What a counter counted over missing rows has no hour of its own: it is taken out of `rate` (changed in
 * place), so that the rules for gaps apply, and told with its amount.
 */
export function voidOverGaps(
  rate: Float64Array,
  start_ms: Float64Array,
  step_min: number,
  line: Int32Array,
): QualityFinding[] {
  const step_ms = step_min * 60_000;
  const order = Array.from(start_ms.keys())
    .filter((i) => !Number.isNaN(start_ms[i]))
    .sort((a, b) => start_ms[a]! - start_ms[b]!);
  const spans: number[] = [];
  let amount = 0;
  for (let k = 1; k < order.length; k += 1) {
    const at = order[k - 1]!;
    if (start_ms[order[k]!]! - start_ms[at]! <= step_ms || Number.isNaN(rate[at])) continue;
    amount += (rate[at]! * step_min) / 60;
    rate[at] = Number.NaN;
    spans.push(line[at]!);
  }
  if (spans.length === 0) return [];
  return [
    {
      kind: "counter",
      sentence: `The counter went on over missing rows by ${numberWords(amount)} (hourly unit × h) that no hour can be given: after ${rowList(spans)}. The gaps are treated like others.`,
      rows: { from: Math.min(...spans), to: Math.max(...spans) },
      from: null,
      to: null,
      count: spans.length,
    },
  ];
}
