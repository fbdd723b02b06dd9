import { Ajv2020, type ErrorObject } from "ajv/dist/2020.js";
import { found, type Outcome, type Problem, refused } from "../core/problem.ts";
import { checkStudy, studyRemarks } from "../core/study/check-study.ts";
import { Study } from "../core/study/schema/study.ts";
import type { SchemaNode } from "./study-json/describe-schema.ts";
import { explain } from "./study-json/explain.ts";
import { migrate } from "./study-json/migrate.ts";
import type { StudyJsonProblemCode } from "./study-json/study-json-problems.ts";
import { syntaxFault } from "./study-json/syntax-fault.ts";

// A tagged union requires its tag outside the variants that define it, which strictRequired refuses.
const ajv = new Ajv2020({
  strict: true,
  strictRequired: false,
  allErrors: true,
  verbose: true,
  discriminator: true,
});
ajv.addVocabulary(["unit"]);
const fits = ajv.compile<Study>(Study);

/** A study out of JSON text: every fault against the schema at once, or the study. */
export function readStudyJson(text: string, file: string): Outcome<Study> {
  const json = text.replace(/^\ufeff/, "");
  const fault = syntaxFault(json);
  if (fault !== null) {
    const code: StudyJsonProblemCode = "STUDY_JSON_SYNTAX";
    const message = `The text is not JSON at line ${fault.line}, column ${fault.column}; ${fault.expected} is expected there.`;
    return refused([{ code, message, place: { file, row: fault.line } }]);
  }
  const migrated = migrate(JSON.parse(json) as unknown, file);
  return migrated.ok ? validateStudy(migrated.value, file) : refused(migrated.problems);
}

/** As readStudyJson, and held against the rules across the parts of a study; remarks come as findings. */
export function readSoundStudy(text: string, file: string): Outcome<Study> {
  const read = readStudyJson(text, file);
  if (!read.ok) return read;
  const problems = checkStudy(read.value);
  return problems.length > 0 ? refused(problems) : found(read.value, studyRemarks(read.value));
}

/** A value of any origin held against the study's schema. */
export function validateStudy(value: unknown, file: string): Outcome<Study> {
  if (fits(value)) return found(value);
  const problems = new Map<string, Problem>();
  for (const error of fits.errors ?? []) {
    if (isToldByTag(error)) continue;
    const problem = explain(error, file);
    const key = `${problem.place.path ?? ""}\n${problem.message}`;
    if (!problems.has(key)) problems.set(key, problem);
  }
  return refused([...problems.values()]);
}

/** A missing tag is told by the discriminator, which knows the choices. */
function isToldByTag({ keyword, params, parentSchema }: ErrorObject): boolean {
  const tag = (parentSchema as SchemaNode | undefined)?.discriminator?.propertyName;
  return keyword === "required" && tag !== undefined && params.missingProperty === tag;
}
