import { type Clock, type StudyCalendar, studyCalendar } from "../../src/core/calendar.ts";
import type { LoadInputs } from "../../src/core/demand/loads/load-inputs.ts";
import { constantYear } from "../../src/core/series.ts";
import type { Network } from "../../src/core/study/schema/study.ts";
import type { WeatherYear } from "../../src/core/weather.ts";

export const madridClock: Clock = { utcOffset_h: 1, timeZone: "Europe/Madrid", calendarYear: 2025 };

const calendars = new Map<string, StudyCalendar>();

/** A calendar that is made once for each clock: asking a time zone for 8760 offsets takes a while. */
export function calendarOf(clock: Clock): StudyCalendar {
  const key = JSON.stringify(clock);
  const known = calendars.get(key);
  if (known !== undefined) return known;
  const made = studyCalendar(clock);
  calendars.set(key, made);
  return made;
}

/** A year of the same air: 25 °C, 60 %, 101325 Pa, no sun. */
export function steadyWeather(
  air: Partial<Record<"ambient_C" | "humidity_share" | "pressure_Pa", number>> = {},
): WeatherYear {
  return {
    description: "steady air",
    ghi_W_m2: constantYear(0),
    dni_W_m2: constantYear(0),
    dhi_W_m2: constantYear(0),
    ambient_C: constantYear(air.ambient_C ?? 25),
    humidity_share: constantYear(air.humidity_share ?? 0.6),
    wind_m_s: constantYear(2),
    pressure_Pa: constantYear(air.pressure_Pa ?? 101325),
    station: null,
  };
}

export function network(supply_C: number): Network {
  return { id: "heat", name: "Heat", carrier: "water", supply_C, return_C: 20, exchangerApproach_K: 5 };
}

/** Inputs of a load on a steady year; a number for the profile is that rate all year. */
export function loadInputs(
  profile: number | Float64Array | null,
  supply_C: number,
  clock = madridClock,
): LoadInputs {
  return {
    profile: typeof profile === "number" ? constantYear(profile) : profile,
    network: network(supply_C),
    calendar: calendarOf(clock),
    weather: steadyWeather(),
    elevation_m: 0,
  };
}
