import type { Question } from "./account.ts";

const startName = /(?:^|[\s_(])(?:start|begin|beginning|from|von|ab|inicio|début)(?:$|[\s_)])/i;
const endName = /(?:^|[\s_(])(?:end|ending|until|to|bis|ende|fin)(?:$|[\s_)])/i;
const day_ms = 86_400_000;

export interface StampGuess {
  readonly stamp: "start" | "end";
  readonly how: string;
  readonly question: Question | null;
}

/**
 * Whether stamps mark the start or the end of their interval: by the column's name, else by the first
 * and last stamp, which begin and end a day. Asked where neither tells.
 */
export function guessStamp(
  column: string,
  wall: { readonly first_ms: number; readonly last_ms: number },
  step_ms: number,
): StampGuess {
  const plain = { question: null };
  if (startName.test(column) !== endName.test(column)) {
    const stamp = startName.test(column) ? "start" : "end";
    return { ...plain, stamp, how: `the time column is named "${column}"` };
  }
  const midnight = (ms: number) => ms % day_ms === 0;
  const { first_ms, last_ms } = wall;
  if (midnight(first_ms) && midnight(last_ms + step_ms)) {
    return {
      ...plain,
      stamp: "start",
      how: "the first stamp is midnight and the last is one step before midnight",
    };
  }
  if (midnight(first_ms - step_ms) && midnight(last_ms)) {
    return {
      ...plain,
      stamp: "end",
      how: "the first stamp is one step after midnight and the last is midnight",
    };
  }
  return {
    stamp: "start",
    how: "guessed: neither the column's name nor the first and last stamp tell",
    question: {
      code: "DEMAND_STAMP",
      sentence: "Does a time stamp mark the start or the end of its interval?",
      field: "stamp",
      choices: [
        { value: "start", sentence: "the value holds from the stamp on" },
        { value: "end", sentence: "the value holds up to the stamp" },
      ],
      taken: "start",
    },
  };
}
