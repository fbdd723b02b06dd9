import { loadProfile } from "../core/demand/loads/load-profile.ts";
import type { Study } from "../core/study/schema/study.ts";

/** A file that a study names. */
export interface NamedFile {
  readonly file: string;
  /** Where the study names it. */
  readonly path: string;
}

/** Every file that a study names, each once. */
export function filesOf(study: Study): NamedFile[] {
  const named: NamedFile[] = [{ file: study.weather.file, path: "weather/file" }];
  study.loads.forEach((load, i) => {
    const profile = loadProfile(load);
    if (profile?.rate.from === "file") {
      named.push({ file: profile.rate.file, path: `loads/${i}/${profile.property}/file` });
    }
  });
  if (study.electricity.priceFile !== undefined) {
    named.push({ file: study.electricity.priceFile, path: "electricity/priceFile" });
  }
  study.backups.forEach(({ fuel }, i) => {
    if (fuel.priceFile !== undefined)
      named.push({ file: fuel.priceFile, path: `backups/${i}/fuel/priceFile` });
  });
  (study.futures ?? []).forEach(({ weatherFile }, i) => {
    if (weatherFile !== undefined) named.push({ file: weatherFile, path: `futures/${i}/weatherFile` });
  });
  return named.filter(({ file }, i) => named.findIndex((other) => other.file === file) === i);
}
