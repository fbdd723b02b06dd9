import { hourIndex, monthLength_days } from "../../core/calendar.ts";
import type { WeatherYear } from "../../core/weather.ts";

/**
 * A weather year as plain CSV, in the shortest numbers that read back as the same values; missing
 * values are empty cells. Hours 1–24 mark the end of the interval. `notes` are `name: value` lines more.
 */
export function writePlainWeather(weather: WeatherYear, notes: readonly string[] = []): string {
  const oneLine = (words: string) => words.replace(/\s+/g, " ").trim();
  const lines = [`# description: ${oneLine(weather.description)}`];
  if (weather.madeFrom !== undefined) lines.push(`# made_from: ${weather.madeFrom}`);
  if (weather.beamEstimatedBy !== undefined) lines.push(`# beam_estimated_by: ${weather.beamEstimatedBy}`);
  for (const note of notes) lines.push(`# ${oneLine(note)}`);
  const { station } = weather;
  if (station !== null) {
    lines.push(`# station: ${oneLine(station.name)}`);
    for (const key of ["latitude_deg", "longitude_deg", "elevation_m", "utcOffset_h"] as const)
      lines.push(`# ${key}: ${station[key]}`);
  }
  lines.push("month,day,hour,ghi_W_m2,dni_W_m2,dhi_W_m2,ambient_C,wind_m_s,humidity_share,pressure_Pa");
  const series = [
    weather.ghi_W_m2,
    weather.dni_W_m2,
    weather.dhi_W_m2,
    weather.ambient_C,
    weather.wind_m_s,
    weather.humidity_share,
    weather.pressure_Pa,
  ];
  const cell = (value: number) => (Number.isNaN(value) ? "" : `${value}`);
  for (let month = 1; month <= 12; month += 1)
    for (let day = 1; day <= monthLength_days(month); day += 1)
      for (let hour = 0; hour < 24; hour += 1) {
        const index = hourIndex(month, day, hour);
        lines.push(`${month},${day},${hour + 1},${series.map((values) => cell(values[index]!)).join(",")}`);
      }
  return `${lines.join("\n")}\n`;
}
