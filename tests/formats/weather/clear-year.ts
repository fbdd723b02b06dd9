import { standardPressure_Pa } from "../../../src/core/air/psychrometrics.ts";
import { hourIndex, monthLength_days } from "../../../src/core/calendar.ts";
import type { Site } from "../../../src/core/study/schema/study.ts";
import { extraterrestrialHorizontal_W_m2 } from "../../../src/core/sun/extraterrestrial.ts";
import { sunYear } from "../../../src/core/sun/sun-year.ts";
import type { WeatherYear } from "../../../src/core/weather.ts";
import { smallStudy } from "../../support/small-study.ts";

export const phoenix: Site = smallStudy().site;

/** An invented year without clouds in which global, direct and diffuse radiation agree exactly. */
export function clearYear(site: Site = phoenix): WeatherYear {
  const sun = sunYear(site);
  const above = extraterrestrialHorizontal_W_m2(sun, site.latitude_deg);
  const beam = above.map((value, hour) => {
    const most = 0.8 * sun.extraterrestrialNormal_W_m2[hour]! * sun.sunlitShare[hour]! * sun.up[hour]!;
    return Math.round(Math.min(0.65 * value, most) * 10) / 10;
  });
  const dhi = above.map((value) => Math.round(value) / 10);
  const hours = Array.from(above.keys());
  return {
    description: "An invented clear year",
    station: {
      name: "Test field",
      latitude_deg: site.latitude_deg,
      longitude_deg: site.longitude_deg,
      elevation_m: site.elevation_m,
      utcOffset_h: site.utcOffset_h,
    },
    ghi_W_m2: beam.map((value, hour) => value + dhi[hour]!),
    dni_W_m2: beam.map((value, hour) => (sun.up[hour]! > 0 ? value / sun.up[hour]! : 0)),
    dhi_W_m2: dhi,
    ambient_C: Float64Array.from(hours, (hour) => Math.round(200 + 100 * Math.sin((hour % 24) / 4)) / 10),
    humidity_share: Float64Array.from(hours, (hour) => (30 + (hour % 40)) / 100),
    wind_m_s: Float64Array.from(hours, (hour) => (hour % 90) / 10),
    pressure_Pa: new Float64Array(8760).fill(Math.round(standardPressure_Pa(site.elevation_m))),
  };
}

interface Label {
  readonly month: number;
  readonly day: number;
  readonly hour: number;
}

/** One line for each hour, in order. */
export function hourly(line: (index: number, label: Label) => string): string[] {
  const lines: string[] = [];
  for (let month = 1; month <= 12; month += 1)
    for (let day = 1; day <= monthLength_days(month); day += 1)
      for (let hour = 1; hour <= 24; hour += 1)
        lines.push(line(hourIndex(month, day, hour - 1), { month, day, hour }));
  return lines;
}

/** Lines of an EPW file; data begin at index 8, file line 9. */
export function epwLines(year: WeatherYear): string[] {
  const station = year.station!;
  const head = [
    `LOCATION,${station.name},-,XX,made up,0,${station.latitude_deg},${station.longitude_deg},${station.utcOffset_h},${station.elevation_m}`,
    "DESIGN CONDITIONS,0",
    "TYPICAL/EXTREME PERIODS,0",
    "GROUND TEMPERATURES,0",
    "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
    "COMMENTS 1,",
    "COMMENTS 2,",
    "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31",
  ];
  const data = hourly((i, { month, day, hour }) =>
    [
      ...[2001, month, day, hour, 0, "?"],
      ...[year.ambient_C[i], 5, year.humidity_share[i]! * 100, year.pressure_Pa[i]],
      ...[0, 0, 300, year.ghi_W_m2[i], year.dni_W_m2[i], year.dhi_W_m2[i]],
      ...[0, 0, 0, 0, 90, year.wind_m_s[i]],
      ...[0, 0, 9999, 99999, 9, 999999999, 0, 0, 0, 88, 0, 0, 0],
    ].join(","),
  );
  return [...head, ...data];
}

/** Lines of a TMY3 file with the columns that are read, in another order than usual; data begin at file line 3. */
export function tmy3Lines(year: WeatherYear): string[] {
  const station = year.station!;
  const two = (value: number) => String(value).padStart(2, "0");
  return [
    `999999,"${station.name}",XX,${station.utcOffset_h},${station.latitude_deg},${station.longitude_deg},${station.elevation_m}`,
    "Date (MM/DD/YYYY),Time (HH:MM),Wspd (m/s),Dry-bulb (C),RHum (%),Pressure (mbar),Hvis (m),DHI (W/m^2),DNI (W/m^2),GHI (W/m^2)",
    ...hourly((i, { month, day, hour }) =>
      [
        `${two(month)}/${two(day)}/1999`,
        `${two(hour)}:00`,
        year.wind_m_s[i],
        year.ambient_C[i],
        year.humidity_share[i]! * 100,
        year.pressure_Pa[i]! / 100,
        -9900,
        year.dhi_W_m2[i],
        year.dni_W_m2[i],
        year.ghi_W_m2[i],
      ].join(","),
    ),
  ];
}
