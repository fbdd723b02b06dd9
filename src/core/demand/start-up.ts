import type { Calendar } from "../study/schema/study.ts";
import type { QuarterShares } from "./calendar-shares.ts";

type Ramp = NonNullable<Calendar["ramp"]>;

const perHour = 4;

/**
 * Quarters with start-ups: after a rest of `afterIdle_h` or more, what is drawn in the next `lasts_h`
 * is multiplied by a factor that moves in a straight line from `startsAt` to 1, each quarter by its
 * middle. The year closes on itself: a rest that runs over New Year counts in full. A new rest ends a
 * start-up that is not over.
 */
export function withStartUp(
  { share, rests }: QuarterShares,
  { afterIdle_h, lasts_h, startsAt }: Ramp,
): QuarterShares {
  const count = share.length;
  const out = Float64Array.from(share);
  const needed = afterIdle_h * perHour;
  const rise = lasts_h * perHour;
  // Rest before the first quarter: that of the year's end, as the same year comes again.
  let rested = 0;
  while (rested < count && rests[count - 1 - rested] === 1) rested += 1;
  if (rested === count) return { share: out, rests };
  // Where the start-up of the year's end runs over New Year, the first lap knows how far it is.
  let since = Number.POSITIVE_INFINITY;
  for (let lap = 0; lap < 2; lap += 1) {
    for (let index = 0; index < count; index += 1) {
      if (rests[index] === 1) {
        rested += 1;
        since = Number.POSITIVE_INFINITY;
        continue;
      }
      if (rested > 0) since = rested >= needed ? 0 : Number.POSITIVE_INFINITY;
      rested = 0;
      const part = Math.min(1, (since + 0.5) / rise);
      out[index] = share[index]! * (startsAt + (1 - startsAt) * part);
      since += 1;
    }
  }
  return { share: out, rests };
}
