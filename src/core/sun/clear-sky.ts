import type { WeatherYear } from "../weather.ts";
import { clearBeam_W_m2 } from "./radiation.ts";
import type { SunYear } from "./sun-year.ts";

/** Linke turbidity of very clear, cold air: light under it is an upper bound. Town air has 4 to 7. */
export const clearestTurbidity = 2;

/**
 * Diffuse light of a cloudless sky on the horizontal, W/m²: ESRA, Rigollier, Bauer & Wald, Solar Energy 68
 * (2000) 33, eq. 16–21; coefficients from memory.
 *
 * @param sineOfHeight of the sun, 0 to 1
 */
export function clearDiffuse_W_m2(normal_W_m2: number, sineOfHeight: number, linkeTurbidity: number): number {
  const t = linkeTurbidity;
  const zenith = -0.015843 + t * (0.030543 + t * 0.0003797);
  const a0 = Math.max(0.26463 + t * (-0.061581 + t * 0.0031408), 0.002 / zenith);
  const a1 = 2.0402 + t * (0.018945 - t * 0.011161);
  const a2 = -1.3025 + t * (0.039231 + t * 0.0085079);
  return normal_W_m2 * zenith * (a0 + sineOfHeight * (a1 + sineOfHeight * a2));
}

/** Light of a year without a cloud, W/m². GHI = DHI + DNI·cos θz in every hour. */
export interface ClearLight {
  readonly ghi_W_m2: Float64Array;
  readonly dni_W_m2: Float64Array;
  readonly dhi_W_m2: Float64Array;
}

/**
 * Light of 8760 hours under a cloudless sky of one turbidity, in the hours of sunrise and sunset over their
 * sunlit part. Real air is hazier in most hours, so with a turbidity of 2 it is an upper bound.
 */
export function clearSkyLight(sun: SunYear, pressure_Pa: Float64Array, linkeTurbidity: number): ClearLight {
  const lit = (hour: number, value: (normal_W_m2: number) => number) =>
    sun.up[hour]! > 0 ? value(sun.extraterrestrialNormal_W_m2[hour]!) * sun.sunlitShare[hour]! : 0;
  const dni_W_m2 = pressure_Pa.map((pressure, t) =>
    lit(t, (normal) => clearBeam_W_m2(normal, sun.zenith_deg[t]!, pressure, linkeTurbidity)),
  );
  const dhi_W_m2 = dni_W_m2.map((_, t) =>
    lit(t, (normal) => clearDiffuse_W_m2(normal, sun.up[t]!, linkeTurbidity)),
  );
  const ghi_W_m2 = dhi_W_m2.map((diffuse, t) => diffuse + dni_W_m2[t]! * sun.up[t]!);
  return { ghi_W_m2, dni_W_m2, dhi_W_m2 };
}

/** The same year with the light of cloudless days; its air and wind stay as they are. */
export function clearSkyYear(sun: SunYear, air: WeatherYear, linkeTurbidity: number): WeatherYear {
  const { madeFrom: _, beamEstimatedBy: __, ...others } = air;
  return {
    ...others,
    ...clearSkyLight(sun, air.pressure_Pa, linkeTurbidity),
    description: `Cloudless year at Linke turbidity ${linkeTurbidity}; air and wind of: ${air.description}`,
    madeFrom: "clear-sky",
  };
}
