import { monthLength_days } from "../calendar.ts";
import { hoursPerYear } from "../series.ts";
import { clearestTurbidity } from "./clear-sky.ts";
import { dailyClearness } from "./daily-clearness.ts";
import { extraterrestrialHorizontal_W_m2, sunsetHourAngle_deg } from "./extraterrestrial.ts";
import { fillToTotal } from "./fill-to-total.ts";
import { monthStarts } from "./monthly-means.ts";
import { clearBeam_W_m2, erbsDiffuseShare, profileFactor } from "./radiation.ts";
import type { RandomStream } from "./random.ts";
import type { SunYear } from "./sun-year.ts";

/** Light of a made-up year, W/m², and the clearness of its 365 days. */
export interface SyntheticRadiation {
  readonly ghi_W_m2: Float64Array;
  readonly dni_W_m2: Float64Array;
  readonly dhi_W_m2: Float64Array;
  readonly dayClearness: Float64Array;
}

/** Clearness above which no hourly mean goes. */
const clearestHour = 0.85;

/**
 * Hourly radiation from monthly clearness: days by dailyClearness, the day's course by Collares-Pereira &
 * Rabl with the hourly disturbance of Aguiar & Collares-Pereira (Solar Energy 49, 1992, 167), beam by Erbs
 * under a clear-sky bound. GHI = DHI + DNI·cos θz to 0.1 W/m² in every hour, with cos θz of the sun year.
 *
 * @param clearness twelve monthly means, 0.1 to 0.8
 */
export function syntheticRadiation(
  sun: SunYear,
  latitude_deg: number,
  pressure_Pa: number,
  clearness: ArrayLike<number>,
  random: RandomStream,
): SyntheticRadiation {
  const above = extraterrestrialHorizontal_W_m2(sun, latitude_deg);
  const hourClearness = new Float64Array(hoursPerYear);
  const dayClearness = new Float64Array(365);
  let disturbance = random.normal();

  for (let month = 0; month < 12; month += 1) {
    const start = monthStarts[month]!;
    const end = monthStarts[month + 1]!;
    const days = dailyClearness(clearness[month]!, monthLength_days(month + 1), random);
    days.forEach((dayMean, index) => {
      const first = start + index * 24;
      const spread = new Float64Array(24);
      for (let hour = 0; hour < 24; hour += 1) {
        const t = first + hour;
        const carry = carryOver(dayMean);
        disturbance = carry * disturbance + Math.sqrt(1 - carry * carry) * random.normal();
        if (!(above[t]! > 0)) continue;
        const sunset_deg = sunsetHourAngle_deg(latitude_deg, sun.declination_deg[t]!);
        const expected = dayMean * profileFactor(sun.hourAngle_deg[t]!, sunset_deg);
        spread[hour] = Math.max(0.02, expected + scatter(dayMean, sun.up[t]!) * disturbance);
      }
      const weights = above.subarray(first, first + 24);
      const day = fillToTotal(spread, weights, dayMean * total(weights), clearestHour);
      hourClearness.set(day, first);
      dayClearness[start / 24 + index] = dayMean;
    });
    const weights = above.subarray(start, end);
    const whole = clearness[month]! * total(weights);
    hourClearness.set(fillToTotal(hourClearness.subarray(start, end), weights, whole, clearestHour), start);
  }
  return { ...split(sun, above, hourClearness, pressure_Pa), dayClearness };
}

/** Correlation of one hour's disturbance with the next; Aguiar & Collares-Pereira 1992. */
function carryOver(dayMean: number): number {
  return 0.38 + 0.06 * Math.cos(7.4 * dayMean - 2.5);
}

/** Standard deviation of an hour's clearness about the day's course; same source. */
function scatter(dayMean: number, sineOfHeight: number): number {
  const size = 0.14 * Math.exp(-20 * (dayMean - 0.35) ** 2);
  const rise = 3 * (dayMean - 0.45) ** 2 + 16 * dayMean ** 5;
  return Math.min(0.3, size * Math.exp(rise * (1 - sineOfHeight)));
}

function split(sun: SunYear, above: Float64Array, clearness: Float64Array, pressure_Pa: number) {
  const ghi_W_m2 = new Float64Array(hoursPerYear);
  const dni_W_m2 = new Float64Array(hoursPerYear);
  const dhi_W_m2 = new Float64Array(hoursPerYear);
  for (let t = 0; t < hoursPerYear; t += 1) {
    if (!(above[t]! > 0)) continue;
    const global = clearness[t]! * above[t]!;
    const beam = global * (1 - erbsDiffuseShare(clearness[t]!));
    const normal = sun.extraterrestrialNormal_W_m2[t]!;
    const clear = clearBeam_W_m2(normal, sun.zenith_deg[t]!, pressure_Pa, clearestTurbidity);
    dni_W_m2[t] = Math.floor(Math.min(beam / sun.up[t]!, clear * sun.sunlitShare[t]!) * 10) / 10;
    dhi_W_m2[t] = tenth(Math.max(0, global - dni_W_m2[t]! * sun.up[t]!));
    ghi_W_m2[t] = tenth(dhi_W_m2[t]! + dni_W_m2[t]! * sun.up[t]!);
  }
  return { ghi_W_m2, dni_W_m2, dhi_W_m2 };
}

function total(series: Float64Array): number {
  return series.reduce((sum, value) => sum + value, 0);
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
