import { readFileSync } from "node:fs";
import { basename, dirname } from "node:path";
import { Command } from "commander";
import { readSeed, readTurbidity, weatherFromMeans, weatherOfClearSky } from "../../app/make-weather.ts";
import { type Outcome, tell } from "../../core/problem.ts";
import type { Study } from "../../core/study/schema/study.ts";
import type { WeatherYear } from "../../core/weather.ts";
import { readMeans } from "../../formats/weather/read-means.ts";
import { readWeather } from "../../formats/weather/read-weather.ts";
import { weatherOptions } from "../../formats/weather/weather-options.ts";
import { yearSums } from "../../present/year-sums.ts";
import { openStudyAlone, openStudyFile } from "../../store/open-study-file.ts";
import { accept, InputFault } from "../exit-codes.ts";
import { writeFiles } from "../write-files.ts";

interface WeatherYearOptions {
  readonly out: string;
  readonly means?: string;
  readonly seed: string;
  readonly clearSky: boolean;
  readonly turbidity: string;
}

export function weatherYearCommand(): Command {
  return new Command("weather-year")
    .description(
      "make a weather year for a study's site from monthly means, or a cloudless one, as a plain CSV",
    )
    .argument("<study>", "study.json or summary.html; its site is taken")
    .requiredOption("--out <file>", "the CSV to write")
    .option("--means <file>", "twelve monthly means as CSV or JSON")
    .option("--seed <n>", "deals out days and hours; the same seed gives the same year", "1")
    .option("--clear-sky", "without a cloud; air and wind from the means or the study's weather file", false)
    .option("--turbidity <n>", "Linke turbidity of the clear sky, 2 for an upper bound", "2")
    .action(async (path: string, options: WeatherYearOptions) => {
      if (options.means === undefined && !options.clearSky)
        throw new InputFault(["Say --means with a file of monthly means, or --clear-sky, or both."]);
      const file = basename(options.out);
      const made = accept(madeYear(path, options, file));
      await writeFiles(dirname(options.out), { [file]: made.value.text });
      for (const finding of made.findings) process.stdout.write(`- ${tell(finding)}\n`);
      process.stdout.write(`${yearSums(made.value.weather)}\nWrote ${options.out}\n`);
    });
}

function madeYear(path: string, options: WeatherYearOptions, file: string) {
  const fromMeans = (study: Study) => {
    const seed = accept(readSeed(options.seed));
    const means = accept(readMeans(bytesOf(options.means!), options.means!, study.site));
    return weatherFromMeans(study.site, means, seed, file);
  };
  if (!options.clearSky) return whole(fromMeans(accept(openStudyAlone(path))));
  const turbidity = accept(readTurbidity(options.turbidity));
  let study: Study;
  let air: WeatherYear;
  if (options.means !== undefined) {
    study = accept(openStudyAlone(path));
    air = accept(fromMeans(study)).weather;
  } else {
    const bundle = accept(openStudyFile(path));
    study = bundle.study;
    const name = study.weather.file;
    air = accept(readWeather(bundle.files.get(name)!, weatherOptions(study, name)));
  }
  return whole(weatherOfClearSky(study.site, air, turbidity, file));
}

/** The outcome as a value, so that its remarks come along. */
function whole<T>(outcome: Outcome<T>) {
  return outcome.ok ? { ...outcome, value: { value: outcome.value, findings: outcome.findings } } : outcome;
}

function bytesOf(path: string): Uint8Array {
  try {
    return readFileSync(path);
  } catch {
    throw new InputFault([`The file ${path} cannot be read; give a file of monthly means that exists.`]);
  }
}
