/**
 * Moves label positions apart to at least `gap`, in their order, as near to where they belong as a
 * sweep from above and one from below allow, within [low, high] if they fit. Returns a new array in
 * the order given.
 */
export function spread(wanted: readonly number[], gap: number, low: number, high: number): number[] {
  const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const places = [...wanted];
  let floor = low;
  for (const index of order) {
    places[index] = Math.max(places[index]!, floor);
    floor = places[index]! + gap;
  }
  let ceiling = high;
  for (const index of [...order].reverse()) {
    places[index] = Math.min(places[index]!, ceiling);
    ceiling = places[index]! - gap;
  }
  return places;
}
