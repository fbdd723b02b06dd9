import type { Problem } from "../../core/problem.ts";
import type { Site } from "../../core/study/schema/study.ts";
import type { SunYear } from "../../core/sun/sun-year.ts";
import type { WeatherYear } from "../../core/weather.ts";
import { checkAboveClear } from "./checks/above-clear.ts";
import { checkClock } from "./checks/clock-shift.ts";
import { checkClosure } from "./checks/closure.ts";
import { impossibleValues } from "./checks/impossible-values.ts";
import { checkNightLight } from "./checks/night-light.ts";
import { askSeason, checkSeason } from "./checks/season.ts";
import { checkStation } from "./checks/station.ts";
import { checkStuck } from "./checks/stuck.ts";
import { checkWindUnit, isTooWindy } from "./checks/wind-unit.ts";

export interface WeatherToCheck {
  readonly weather: WeatherYear;
  readonly sun: SunYear;
  readonly site: Site;
  readonly file: string;
  /** File line of each hour; 0 where the hour has no row. */
  readonly line: Int32Array;
  readonly dniDerived: boolean;
  /** Distance of the station that the study accepts, beside what is allowed of itself. */
  readonly distanceAccepted_km?: number;
}

/** Faults that make the figures nonsense, and oddities to look at. */
export interface WeatherCheck {
  readonly problems: readonly Problem[];
  readonly findings: readonly Problem[];
}

/** Every check of a weather year. Checks that impossible values would mislead are left out where there are any. */
export function checkWeather(input: WeatherToCheck): WeatherCheck {
  const impossible = impossibleValues(input);
  const station = checkStation(input);
  const clock = checkClock(input);
  // A wrong place or clock makes low-sun hours impossible too, so the cause is told before them.
  if (impossible.length > 0) {
    const cause = [...station.problems, ...clock.problems];
    const season = cause.length > 0 ? [] : checkSeason(input).problems;
    const isWind = impossible.some(({ place }) => place.column === "wind");
    const wind = isWind && isTooWindy(input.weather.wind_m_s) ? checkWindUnit(input) : [];
    return { problems: [...cause, ...season, ...wind, ...impossible], findings: station.findings };
  }
  const checks = [station, clock, checkNightLight(input), checkClosure(input), checkAboveClear(input)];
  return {
    problems: checks.flatMap((check) => check.problems),
    findings: [
      ...checks.flatMap((check) => check.findings),
      ...checkStuck(input),
      ...checkWindUnit(input),
      ...askSeason(input),
    ],
  };
}
