/** A value that swings by a fifth from block to block. */
export function swinging(blocks: number, mean: number): Float64Array {
  return Float64Array.from({ length: blocks }, (_, t) => mean * (1 + 0.2 * Math.sin(2.4 * t)));
}

/** Constant up to a threshold, swinging above it, so that a generator makes some of both without another draw. */
export function byHour(mean: number, swingsAbove: number, blocks: number): Float64Array {
  return mean > swingsAbove ? swinging(blocks, mean) : new Float64Array(blocks).fill(mean);
}

/** Capacity that comes and goes: none in every sixth block, else 0.7 to 1.3 of the size. */
export function sometimesNone(blocks: number): Float64Array {
  return Float64Array.from({ length: blocks }, (_, t) => (t % 6 === 5 ? 0 : 1 + 0.3 * Math.cos(1.7 * t)));
}
