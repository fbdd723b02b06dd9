import { ModelError } from "../errors.ts";

/**
 * Sample quantile of values in ascending order: linear between order statistics at (n − 1)·p, type 7 of Hyndman &
 * Fan 1996, The American Statistician 50, p. 361.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function quantile(ascending: ArrayLike<number>, share: number): number {
  const n = ascending.length;
  if (n === 0 || !(share >= 0 && share <= 1)) throw new ModelError("OUT_OF_RANGE", `${share} of ${n} values`);
  const place = (n - 1) * share;
  const below = Math.floor(place);
  const low = ascending[below]!;
  return low + (place - below) * (ascending[Math.min(n - 1, below + 1)]! - low);
}
