import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { Question } from "./account.ts";
import type { FaultGroup, RowFault } from "./demand-problems.ts";

/** Counter readings turned into what was counted from each row to the next. */
export interface CountedValues {
  /** One entry per row; NaN in the last row and where a reading is missing. */
  readonly value: Float64Array;
  readonly faults: readonly Omit<FaultGroup, "file" | "column">[];
  /** Positions of rows after which the counter began anew. */
  readonly rollOvers: readonly number[];
}

const leastRising = 0.98;

/** Asks whether a column that practically only rises, and rises far, holds readings of a counter. */
export function askCounter(value: Float64Array, said: DemandReading["values"]): Question | null {
  if (said !== undefined || !risesLikeCounter(value)) return null;
  return {
    code: "DEMAND_COUNTER",
    sentence: "The values only rise, as the readings of a counter do. What is a value?",
    field: "values",
    choices: [
      { value: "counter", sentence: "the reading of a counter; the difference to the next row is used" },
      { value: "interval", sentence: "the figure of its own interval" },
    ],
    taken: "counter",
  };
}

function risesLikeCounter(value: Float64Array): boolean {
  const known = value.filter((reading) => !Number.isNaN(reading));
  if (known.length < 100) return false;
  const reversed = known[0]! > known[known.length - 1]!;
  const steps = known.subarray(1).map((reading, i) => (reversed ? -1 : 1) * (reading - known[i]!));
  const rising = steps.filter((step) => step >= 0).length;
  const moved = steps.filter((step) => step > 0).length;
  return rising >= leastRising * steps.length && moved >= 0.1 * steps.length;
}

/**
 * Differences of a counter from each row to the next in time. A counter that falls from the last tenth
 * of its digits to the first has rolled over; any other fall is a fault.
 */
export function countedValues(value: Float64Array, line: Int32Array, descending: boolean): CountedValues {
  const n = value.length;
  const later = descending ? -1 : 1;
  const counted = new Float64Array(n).fill(Number.NaN);
  const falls: RowFault[] = [];
  const rollOvers: number[] = [];
  const top = value.reduce((most, reading) => (Number.isNaN(reading) ? most : Math.max(most, reading)), 1);
  const span = 10 ** Math.ceil(Math.log10(top * (1 + 1e-12)));
  for (let i = 0; i < n; i += 1) {
    const from = value[i]!;
    const to = value[i + later] ?? Number.NaN;
    const step = to - from;
    if (step >= 0) counted[i] = step;
    else if (from > 0.9 * span && to >= 0 && to < 0.1 * span) {
      counted[i] = step + span;
      rollOvers.push(i);
    } else if (step < 0) falls.push({ row: line[i + later]!, found: `${from} to ${to}` });
  }
  return {
    value: counted,
    rollOvers,
    faults: [
      {
        code: "DEMAND_COUNTER_FALLS",
        faults: falls,
        one: (found) =>
          `The counter falls from ${found} without having reached the end of its digits; a changed meter needs a file for each, or the differences.`,
        many: "hold a reading below the one before, away from the end of the counter's digits",
      },
    ],
  };
}
