import type { Problem } from "../../core/problem.ts";
import type { Site } from "../../core/study/schema/study.ts";
import type { SunYear } from "../../core/sun/sun-year.ts";
import type { WeatherYear } from "../../core/weather.ts";
import { checkClock } from "./checks/clock-shift.ts";
import { checkClosure } from "./checks/closure.ts";
import { impossibleValues } from "./checks/impossible-values.ts";
import { checkNightLight } from "./checks/night-light.ts";
import { checkStation } from "./checks/station.ts";

export interface WeatherToCheck {
  readonly weather: WeatherYear;
  readonly sun: SunYear;
  readonly site: Site;
  readonly file: string;
  /** File line of each hour; 0 where the hour has no row. */
  readonly line: Int32Array;
  readonly dniDerived: boolean;
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
  // A wrong clock makes low-sun hours impossible too, so the cause is told before them.
  if (impossible.length > 0) return { problems: [...clock.problems, ...impossible], findings: station };
  const checks = [clock, checkNightLight(input), checkClosure(input)];
  return {
    problems: checks.flatMap((check) => check.problems),
    findings: [...station, ...checks.flatMap((check) => check.findings)],
  };
}
