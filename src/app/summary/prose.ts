/** A piece of a sentence; a figure carries the number of its note. */
export interface Run {
  readonly words: string;
  readonly note: number | null;
}
export type Prose = readonly Run[];

/** A sentence with figures in it: prose`${figure} of ${name}`. */
export function prose(words: TemplateStringsArray, ...values: readonly (string | Run | Prose)[]): Prose {
  const runs: Run[] = [];
  words.forEach((text, index) => {
    if (text !== "") runs.push(plain(text));
    const value = values[index];
    if (value === undefined) return;
    if (typeof value === "string") runs.push(plain(value));
    else if (isProse(value)) runs.push(...value);
    else runs.push(value);
  });
  return runs;
}

/** "a", "a and b", "a, b and c" of pieces that hold figures. */
export function joinedProse(pieces: readonly Prose[]): Prose {
  return pieces.flatMap((piece, index) => {
    if (index === 0) return piece;
    return [plain(index === pieces.length - 1 ? " and " : ", "), ...piece];
  });
}

function plain(words: string): Run {
  return { words, note: null };
}

function isProse(value: Run | Prose): value is Prose {
  return Array.isArray(value);
}
