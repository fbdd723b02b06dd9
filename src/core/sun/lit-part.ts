import { radians } from "../units.ts";

/** The sunlit part of an hour. */
export interface LitPart {
  /** 0 to 1. */
  readonly share: number;
  /** Middle of the longest sunlit stretch, hours after the hour's start; 0.5 where there is none. */
  readonly middle_h: number;
}

const down: LitPart = { share: 0, middle_h: 0.5 };
const lit: LitPart = { share: 1, middle_h: 0.5 };

/**
 * How much of an hour lies between sunrise and sunset, where the sun is up while cos H > `cosSunset`
 * (= −tan φ·tan δ; below −1 polar day, above 1 polar night; D&B eq. 1.6.10).
 *
 * @param start_deg hour angle at the start of the hour, any turn
 */
export function litPart(start_deg: number, cosSunset: number): LitPart {
  if (!(cosSunset < 1)) return down;
  if (cosSunset <= -1) return lit;
  const sunset_deg = Math.acos(cosSunset) / radians;
  const start = start_deg - 360 * Math.floor((start_deg + 180) / 360);
  // Today's daylight, and tomorrow's where the hour runs past midnight.
  const first = stretch(start, -sunset_deg, sunset_deg);
  const second = stretch(start, 360 - sunset_deg, 360 + sunset_deg);
  const longer = first.share >= second.share ? first : second;
  const share = Math.min(1, first.share + second.share);
  return share === 0 ? down : { share, middle_h: longer.middle_h };
}

function stretch(start_deg: number, sunrise_deg: number, sunset_deg: number): LitPart {
  const from = Math.max(start_deg, sunrise_deg);
  const to = Math.min(start_deg + 15, sunset_deg);
  if (!(to > from)) return down;
  return { share: (to - from) / 15, middle_h: ((from + to) / 2 - start_deg) / 15 };
}
