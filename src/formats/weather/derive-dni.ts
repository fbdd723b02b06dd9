import type { SunYear } from "../../core/sun/sun-year.ts";
import { radians } from "../../core/units.ts";

const lowest_deg = 3;

/**
 * Direct normal from global and diffuse radiation, (GHI − DHI)/cos θz, W/m², at most the radiation above
 * the air over the sunlit part of the hour. Below 3° of sun height the division means nothing: 0.
 */
export function deriveDni(ghi_W_m2: Float64Array, dhi_W_m2: Float64Array, sun: SunYear): Float64Array {
  const least = Math.sin(lowest_deg * radians);
  return ghi_W_m2.map((ghi, hour) => {
    const beam = ghi - dhi_W_m2[hour]!;
    if (Number.isNaN(beam)) return Number.NaN;
    if (!(sun.up[hour]! > least)) return 0;
    const most = sun.extraterrestrialNormal_W_m2[hour]! * sun.sunlitShare[hour]!;
    return Math.min(most, Math.max(0, beam / sun.up[hour]!));
  });
}
