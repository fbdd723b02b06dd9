/**
 * min(cap, f·share) with the one factor f that makes Σ min(cap, f·share)·weight the wanted total; the cap
 * wherever a share is above 0 if even that gives too little.
 *
 * @param shares not below 0
 * @param weights not below 0
 * @returns a new array
 */
export function fillToTotal(
  shares: Float64Array,
  weights: Float64Array,
  total: number,
  cap: number,
): Float64Array {
  const factor = factorFor(shares, weights, total, cap);
  return shares.map((share) => (share > 0 ? Math.min(cap, factor * share) : 0));
}

/** Starts without the cap; each round can only cap more of them, so it ends. */
function factorFor(shares: Float64Array, weights: Float64Array, total: number, cap: number): number {
  let factor = 0;
  for (let round = 0; round <= shares.length; round += 1) {
    let capped = 0;
    let free = 0;
    for (let i = 0; i < shares.length; i += 1) {
      if (factor * shares[i]! >= cap) capped += cap * weights[i]!;
      else free += shares[i]! * weights[i]!;
    }
    if (!(free > 0)) return total > capped ? Number.MAX_VALUE : factor;
    const next = (total - capped) / free;
    if (!(next > factor)) return factor;
    factor = next;
  }
  return factor;
}
