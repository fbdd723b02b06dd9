/** The known name that differs least from an unknown one; null where none is near. */
export function nearestName(unknown: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let least = Math.max(2, Math.floor(unknown.length / 3)) + 1;
  const plain = (name: string) => name.toLowerCase().replace(/[_\-\s]/g, "");
  for (const name of known) {
    const [wanted, written] = [plain(name), plain(unknown)];
    // A name without its unit is the commonest slip.
    const begins = written.length >= 3 && (wanted.startsWith(written) || written.startsWith(wanted));
    const edits = begins ? Math.min(1, distance(wanted, written)) : distance(wanted, written);
    if (edits < least) {
      best = name;
      least = edits;
    }
  }
  return best;
}

/** Levenshtein distance of the first 80 characters. */
function distance(first: string, second: string): number {
  const a = first.slice(0, 80);
  const b = second.slice(0, 80);
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1)
      next[j] = Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1));
    row = next;
  }
  return row[b.length]!;
}
