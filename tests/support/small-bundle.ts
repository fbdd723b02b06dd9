import type { StudyBundle } from "../../src/app/types.ts";
import { syntheticYear } from "../../src/core/sun/synthetic-year.ts";
import { writePlainWeather } from "../../src/formats/weather/write-plain-weather.ts";
import { exampleDefinition } from "../../src/store/example-files.ts";
import { smallStudy } from "./small-study.ts";

/** The small study with a weather file that fits it, made from the worked example's monthly means. */
export function smallBundle(): StudyBundle {
  const study = smallStudy();
  const { means } = exampleDefinition();
  const weather = writePlainWeather(syntheticYear(study.site, means, means.seed));
  return { study, files: new Map([["weather.csv", new TextEncoder().encode(weather)]]) };
}
