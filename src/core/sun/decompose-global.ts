import { standardPressure_Pa } from "../air/psychrometrics.ts";
import type { DiffuseModel } from "../weather.ts";
import { clearestTurbidity } from "./clear-sky.ts";
import { extraterrestrialHorizontal_W_m2 } from "./extraterrestrial.ts";
import { clearBeam_W_m2, erbsDiffuseShare } from "./radiation.ts";
import type { SunSite, SunYear } from "./sun-year.ts";

/** Beam and diffuse light that were estimated from global light, W/m². */
export interface DecomposedLight {
  readonly dni_W_m2: Float64Array;
  readonly dhi_W_m2: Float64Array;
}

/** Sine of 3°: below it a division by cos θz means nothing. */
const leastHeight = 0.0523;

/**
 * Splits hourly global light into beam and diffuse. The beam is at most that of very clear air (ESRA, Linke
 * turbidity 2, standard pressure of the height), and 0 with the sun below 3°; what is cut is diffuse, so that
 * GHI = DHI + DNI·cos θz stays true in every hour with sun. An hour of NaN stays NaN.
 *
 * @param ghi_W_m2 8760 hourly means
 * @returns two arrays of 8760
 */
export function decomposeGlobal(
  ghi_W_m2: Float64Array,
  sun: SunYear,
  site: SunSite,
  by: DiffuseModel,
): DecomposedLight {
  const above = extraterrestrialHorizontal_W_m2(sun, site.latitude_deg);
  const share = by === "erbs" ? erbsShares(ghi_W_m2, above) : persistenceShares(ghi_W_m2, above, sun);
  const pressure_Pa = standardPressure_Pa(site.elevation_m);
  const dni_W_m2 = new Float64Array(ghi_W_m2.length);
  const dhi_W_m2 = new Float64Array(ghi_W_m2.length);
  for (let t = 0; t < ghi_W_m2.length; t += 1) {
    const ghi = ghi_W_m2[t]!;
    if (sun.up[t]! > leastHeight) {
      const clear = clearBeam_W_m2(
        sun.extraterrestrialNormal_W_m2[t]!,
        sun.zenith_deg[t]!,
        pressure_Pa,
        clearestTurbidity,
      );
      dni_W_m2[t] = Math.min((ghi * (1 - share[t]!)) / sun.up[t]!, clear * sun.sunlitShare[t]!);
    } else if (Number.isNaN(ghi)) dni_W_m2[t] = Number.NaN;
    dhi_W_m2[t] = Math.max(0, ghi - dni_W_m2[t]! * sun.up[t]!);
  }
  return { dni_W_m2, dhi_W_m2 };
}

function erbsShares(ghi_W_m2: Float64Array, above_W_m2: Float64Array): Float64Array {
  return ghi_W_m2.map((ghi, t) => (above_W_m2[t]! > 0 ? erbsDiffuseShare(ghi / above_W_m2[t]!) : 1));
}

/** Inputs of the persistence model in one hour. */
export interface PersistenceHour {
  /** Global over extraterrestrial light on the horizontal, of the hour and of its day. */
  readonly hourClearness: number;
  readonly dayClearness: number;
  /** Mean clearness of the hours before and after; of the one neighbour at sunrise and sunset. */
  readonly persistence: number;
  /** Hours, 12 at solar noon. */
  readonly solarTime_h: number;
  readonly height_deg: number;
}

/**
 * Diffuse share by the logistic model of Boland, Ridley & Lauret: Ridley, Boland & Lauret, Renewable Energy
 * 35 (2010) 478, coefficients from memory. The hour's neighbours and its day tell broken cloud from haze of
 * the same clearness. Fitted to seven stations of both hemispheres.
 */
export function persistenceDiffuseShare(hour: PersistenceHour): number {
  const power =
    -5.38 +
    6.63 * hour.hourClearness +
    0.006 * hour.solarTime_h -
    0.007 * hour.height_deg +
    1.75 * hour.dayClearness +
    1.31 * hour.persistence;
  return 1 / (1 + Math.exp(power));
}

function persistenceShares(ghi_W_m2: Float64Array, above_W_m2: Float64Array, sun: SunYear): Float64Array {
  const length = ghi_W_m2.length;
  const share = new Float64Array(length).fill(1);
  const isLit = (t: number) => above_W_m2[t]! > 0;
  const clearness = ghi_W_m2.map((ghi, t) => (isLit(t) ? ghi / above_W_m2[t]! : 0));
  const dayClearness = clearnessOfSolarDays(ghi_W_m2, above_W_m2, sun);
  for (let t = 0; t < length; t += 1) {
    if (!isLit(t)) continue;
    const before = (t + length - 1) % length;
    const after = (t + 1) % length;
    const near = [before, after].filter(isLit).map((hour) => clearness[hour]!);
    share[t] = persistenceDiffuseShare({
      hourClearness: clearness[t]!,
      dayClearness: dayClearness[t]!,
      persistence: near.length === 0 ? clearness[t]! : near.reduce((a, b) => a + b, 0) / near.length,
      solarTime_h: 12 + sun.hourAngle_deg[t]! / 15,
      height_deg: 90 - sun.zenith_deg[t]!,
    });
  }
  return share;
}

/** A day runs from one solar midnight to the next, so that a clock far from the sun does not cut a day in two. */
function clearnessOfSolarDays(
  ghi_W_m2: Float64Array,
  above_W_m2: Float64Array,
  { hourAngle_deg }: SunYear,
): Float64Array {
  const length = ghi_W_m2.length;
  const clearness = new Float64Array(length);
  const starts = Array.from(hourAngle_deg.keys()).filter(
    (t) => hourAngle_deg[t]! < hourAngle_deg[(t + length - 1) % length]!,
  );
  starts.forEach((start, i) => {
    const next = starts[(i + 1) % starts.length]!;
    const end = next > start ? next : next + length;
    let global = 0;
    let above = 0;
    for (let t = start; t < end; t += 1) {
      global += ghi_W_m2[t % length]!;
      above += above_W_m2[t % length]!;
    }
    for (let t = start; t < end; t += 1) clearness[t % length] = above > 0 ? global / above : 0;
  });
  return clearness;
}
