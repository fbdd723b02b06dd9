import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { collectorFromRecord } from "../../../src/core/collector/records.ts";
import { constantYear, hoursPerYear } from "../../../src/core/series.ts";
import type { Collector } from "../../../src/core/study/schema/study.ts";
import { sunYear } from "../../../src/core/sun/sun-year.ts";
import type { WeatherYear } from "../../../src/core/weather.ts";

export const desert = {
  latitude_deg: 33.45,
  longitude_deg: -111.98,
  elevation_m: 337,
  utcOffset_h: -7,
  calendarYear: 2025,
};
export const desertSun = sunYear(desert);

const shared = process.env.NOONKEEP_SHARED ?? fileURLToPath(new URL("../../../../shared", import.meta.url));
const phoenixFile = `${shared}/data/weather/USA_AZ_Phoenix_722780_TMY3.csv`;
export const hasPhoenix = existsSync(phoenixFile);

/** Columns by name; rows are in order, labelled at the end of the hour. */
export function phoenix(): WeatherYear {
  const lines = readFileSync(phoenixFile, "utf8").trim().split(/\r?\n/);
  const names = lines[1]!.split(",");
  const column = (name: string, factor = 1) => {
    const at = names.indexOf(name);
    return Float64Array.from(lines.slice(2), (line) => Number(line.split(",")[at]) * factor);
  };
  return {
    ...madeWeather(),
    description: "Phoenix TMY3",
    ghi_W_m2: column("GHI (W/m^2)"),
    dni_W_m2: column("DNI (W/m^2)"),
    dhi_W_m2: column("DHI (W/m^2)"),
    ambient_C: column("Dry-bulb (C)"),
    wind_m_s: column("Wspd (m/s)"),
  };
}

/** Weather by rule: clear sun of `beam`·√(height) while it is up, constant air. */
export function madeWeather(beam_W_m2 = 900, ambient_C = 20, wind_m_s = 3): WeatherYear {
  const dni_W_m2 = Float64Array.from(desertSun.up, (up) => (up > 0 ? beam_W_m2 * Math.sqrt(up) : 0));
  const dhi_W_m2 = Float64Array.from(desertSun.up, (up) => (up > 0 ? 80 : 0));
  return {
    description: "made",
    dni_W_m2,
    dhi_W_m2,
    ghi_W_m2: Float64Array.from(
      { length: hoursPerYear },
      (_, i) => dni_W_m2[i]! * desertSun.up[i]! + dhi_W_m2[i]!,
    ),
    ambient_C: constantYear(ambient_C),
    humidity_share: constantYear(0.4),
    wind_m_s: constantYear(wind_m_s),
    pressure_Pa: constantYear(97000),
    station: null,
  };
}

export function ofRecord(recordId: string, changes: Partial<Collector> = {}): Collector {
  return { ...collectorFromRecord(recordId, { id: "c", networks: ["n"] }).collector, ...changes };
}

/** A perfect mirror: everything that falls on the aperture is absorbed and kept. */
export function perfect(mount: Collector["mount"]): Collector {
  return {
    ...collectorFromRecord("inflated-film-dish", { id: "c", networks: ["n"] }).collector,
    mount,
    optics: { by: "measured", opticalEfficiency: 1 },
    modifier: { type: "none" },
    rowShading: false,
    cleanliness: 1,
    ageing_per_year: 0,
    heatLoss: { by: "iso-9806", a1_W_m2K: 0, a2_W_m2K2: 0 },
    storm: { stowWind_m_s: 60, backAfter_h: 0 },
  };
}
