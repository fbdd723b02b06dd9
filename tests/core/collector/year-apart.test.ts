import { Body, Equator, Horizon, Observer } from "astronomy-engine";
import { describe, expect, it } from "vitest";
import { collectorYear } from "../../../src/core/collector/collector-year.ts";
import { desert, desertSun, hasPhoenix, ofRecord, phoenix } from "./support.ts";

const radians = Math.PI / 180;

/**
 * The sun of an hour by a general astronomy library: unit vector (east, north, up) at the middle of the part of
 * the hour with the sun above the horizon, found minute by minute; null where it is down.
 */
function sunOf(hour: number): readonly [number, number, number] | null {
  const start = Date.UTC(desert.calendarYear, 0, 1) - desert.utcOffset_h * 3_600_000 + hour * 3_600_000;
  const place = new Observer(desert.latitude_deg, desert.longitude_deg, desert.elevation_m);
  const at = (minute: number) => {
    const time = new Date(start + minute * 60_000);
    const { ra, dec } = Equator(Body.Sun, time, place, true, true);
    const { altitude, azimuth } = Horizon(time, place, ra, dec);
    const flat = Math.cos(altitude * radians);
    return [
      flat * Math.sin(azimuth * radians),
      flat * Math.cos(azimuth * radians),
      Math.sin(altitude * radians),
    ] as const;
  };
  const begins = at(0)[2] > 0;
  const ends = at(60)[2] > 0;
  if (begins && ends) return at(30);
  if (!begins && !ends) return null;
  let minute = 0;
  while (at(minute)[2] > 0 === begins) minute += 1;
  return at(begins ? minute / 2 : (minute + 60) / 2);
}

interface Sums {
  useful: number;
  onAperture: number;
  storm: number;
  heatLoss: number;
  warmUp: number;
}

/**
 * A year of the library's film trough written down from its formulas, hour by hour, with nothing of the program
 * but the weather file's columns: north–south axis, cosine from the vector across the axis (Duffie & Beckman
 * sec. 1.7), end loss 1 − f·tan θ/L, shade cos ρ/g, b0 modifier, film passed once, loss a1·ΔT + a2·ΔT² and one warm
 * body.
 */
function filmTrough(mean_C: number): Sums {
  const { dni_W_m2, ambient_C, wind_m_s } = phoenix();
  const trough = ofRecord("inflated-film-trough");
  const eta = 0.92 * 0.88 * 0.88 * 0.9 * (1 - 0.05) * 0.93;
  const a5_Wh = 4 / 3.6;
  const sums = { useful: 0, onAperture: 0, storm: 0, heatLoss: 0, warmUp: 0 };
  const stowed = (hour: number) => {
    for (let back = 0; back <= trough.storm.backAfter_h; back += 1) {
      if (wind_m_s[(hour - back + 8760) % 8760]! > trough.storm.stowWind_m_s) return true;
    }
    return false;
  };
  let body_C = ambient_C[0]!;
  for (let hour = 0; hour < 8760; hour += 1) {
    const air = ambient_C[hour]!;
    const excess = mean_C - air;
    const loss = Math.max(0, 0.4 * excess + 0.0008 * excess * Math.abs(excess));
    const sun = dni_W_m2[hour]! > 0 ? sunOf(hour) : null;
    let absorbed = 0;
    if (sun !== null) {
      const [east, north, up] = sun;
      const cosine = Math.hypot(east, up);
      const beam = dni_W_m2[hour]! * cosine;
      sums.onAperture += beam;
      if (stowed(hour)) sums.storm += beam;
      else {
        const tan = Math.abs(north) / cosine;
        const ends = Math.max(0, 1 - (1 * tan) / 50);
        const lit = Math.min(1, up / cosine / 0.4);
        const K = Math.max(0, 1 - 0.1 * (1 / cosine - 1));
        absorbed = beam * ends * lit * K * eta;
      }
    }
    if (absorbed > loss) {
      const debt = a5_Wh * Math.max(0, mean_C - body_C);
      const warming = Math.min(debt, absorbed - loss);
      body_C = warming < debt ? body_C + warming / a5_Wh : mean_C;
      sums.useful += absorbed - loss - warming;
      sums.warmUp += warming;
      sums.heatLoss += loss;
    } else {
      sums.heatLoss += absorbed;
      const U = loss / excess;
      const rest = air + absorbed / U;
      body_C = rest + (body_C - rest) * Math.exp(-U / a5_Wh);
    }
  }
  return sums;
}

describe.skipIf(!hasPhoenix)("a year computed again apart (TMY3 of Phoenix, shared data)", () => {
  it.each([100, 180, 240])("agrees within half a per cent at %i °C, and each loss with it", (mean_C) => {
    const apart = filmTrough(mean_C);
    const climate = { latitude_deg: desert.latitude_deg, sun: desertSun, weather: phoenix() };
    const levels = [{ collectorIn_C: mean_C - 10, collectorOut_C: mean_C + 10 }];
    const year = collectorYear(ofRecord("inflated-film-trough"), climate, levels);
    const { losses, useful_kWh_per_m2 } = year.levels[0]!;
    const agrees = (own: number, other_Wh: number) => {
      expect(other_Wh).toBeGreaterThan(0);
      expect(Math.abs(own / (other_Wh / 1000) - 1)).toBeLessThan(0.005);
    };
    agrees(year.beamOnAperture_kWh_per_m2, apart.onAperture);
    agrees(useful_kWh_per_m2, apart.useful);
    agrees(losses.storm, apart.storm);
    agrees(losses.heatLoss, apart.heatLoss);
    agrees(losses.warmUp, apart.warmUp);
  });
});
