import { found, type Outcome, refused } from "../../core/problem.ts";
import { currentFormatVersion } from "../../core/study/schema/study.ts";
import { calendarsApart } from "./calendars-apart.ts";
import type { StudyJsonProblemCode } from "./study-json-problems.ts";

/** Turns a study of the version that is its key into one of the next. */
const migrations: ReadonlyMap<number, (study: object) => object> = new Map([[1, calendarsApart]]);

/** A study brought to the current format; one without a number as `formatVersion` is passed on to the schema. */
export function migrate(study: unknown, file: string): Outcome<unknown> {
  if (typeof study !== "object" || study === null || Array.isArray(study)) return found(study);
  const version = (study as { readonly formatVersion?: unknown }).formatVersion;
  if (typeof version !== "number" || version === currentFormatVersion) return found(study);
  if (version > currentFormatVersion)
    return wrongVersion(
      file,
      `The study has format version ${version}, from a later version of the program; up to ${currentFormatVersion} can be read.`,
    );
  let moved: object = study;
  for (let step = version; step < currentFormatVersion; step += 1) {
    const next = migrations.get(step);
    if (next === undefined)
      return wrongVersion(
        file,
        `There is no format version ${version}; 1 to ${currentFormatVersion} can be read.`,
      );
    moved = next(moved);
  }
  return found(moved);
}

function wrongVersion(file: string, message: string): Outcome<unknown> {
  const code: StudyJsonProblemCode = "STUDY_JSON_VERSION";
  return refused([{ code, message, place: { file, path: "formatVersion" } }]);
}
