import { civilLabel, studyCalendar } from "../core/calendar.ts";
import { hoursPerYear } from "../core/series.ts";
import type { Study } from "../core/study/schema/study.ts";
import { randomStream } from "../core/sun/random.ts";
import { type MonthlyMeans, syntheticYear } from "../core/sun/synthetic-year.ts";
import { writePlainWeather } from "../formats/weather/write-plain-weather.ts";
import type { StudyBundle } from "./types.ts";

export interface ExampleDefinition {
  readonly study: Study;
  readonly means: MonthlyMeans & { readonly seed: number };
}

/** The worked example with its files: an invented works, weather made from invented monthly means. */
export function exampleBundle({ study, means }: ExampleDefinition): StudyBundle {
  const text = new TextEncoder();
  const weather = syntheticYear(study.site, means, means.seed);
  return {
    study,
    files: new Map([
      ["weather.csv", text.encode(writePlainWeather(weather))],
      ["roasting.csv", text.encode(roastingLog(study, means.seed))],
    ]),
  };
}

/** Two shifts on six days, a warm standby between them, a shut-down in January, and a restless meter. */
function roastingLog(study: Study, seed: number): string {
  const calendar = studyCalendar(study.site);
  const random = randomStream(seed);
  const rows = Array.from({ length: hoursPerYear }, (_, hour) => {
    const weekday = calendar.civilWeekday[hour];
    const clock = calendar.civilHour[hour];
    const shut = calendar.civilMonth[hour] === 1 && calendar.civilDay[hour] <= 10;
    const running = weekday <= 6 && clock >= 6 && clock < 22;
    const level_kW = shut ? 0 : running ? 520 : 60;
    const heat_kW = level_kW * Math.max(0, 1 + 0.08 * random.normal());
    return `${civilLabel(calendar, hour).slice(0, 16)},${heat_kW.toFixed(1)}\n`;
  });
  return `time,heat [kW]\n${rows.join("")}`;
}
