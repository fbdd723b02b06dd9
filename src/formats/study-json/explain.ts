import type { ErrorObject } from "ajv/dist/2020.js";
import type { Problem } from "../../core/problem.ts";
import { allowed, listed, type SchemaNode, unitOf } from "./describe-schema.ts";
import { nearestName } from "./nearest-name.ts";
import type { StudyJsonProblemCode } from "./study-json-problems.ts";

/** One clear sentence for a fault that ajv (verbose) found, at its path in the study. */
export function explain(error: ErrorObject, file: string): Problem {
  const { keyword, params, data } = error;
  const schema = (error.parentSchema ?? {}) as SchemaNode;
  const path = pathOf(error.instancePath);
  const name = nameOf(schema, path);
  const told = (code: StudyJsonProblemCode, message: string, at = path): Problem => ({
    code,
    message,
    place: at === "" ? { file } : { file, path: at },
  });
  const inside = (property: string) => (path === "" ? property : `${path}/${property}`);
  switch (keyword) {
    case "required": {
      const missing = String(params.missingProperty);
      const wanted = schema.properties?.[missing];
      const title = wanted?.title === undefined ? "" : ` (${wanted.title})`;
      const needed = wanted === undefined ? "it" : allowed(wanted);
      return told(
        "STUDY_JSON_MISSING",
        `"${missing}"${title} is missing; ${needed} is needed.`,
        inside(missing),
      );
    }
    case "additionalProperties": {
      const extra = String(params.additionalProperty);
      const known = Object.keys(schema.properties ?? {});
      const near = nearestName(extra, known);
      const hint = near === null ? `known are ${known.join(", ")}` : `"${near}" is the nearest that is known`;
      return told(
        "STUDY_JSON_UNKNOWN",
        `"${cut(extra)}" is not a property of ${name}; ${hint}.`,
        inside(extra),
      );
    }
    case "discriminator": {
      const tag = String(params.tag);
      const choices = (schema.oneOf ?? []).map((variant) => JSON.stringify(variant.properties?.[tag]?.const));
      const value = params.tagValue as unknown;
      const code = value === undefined ? "STUDY_JSON_MISSING" : "STUDY_JSON_CHOICE";
      const found =
        value === undefined ? `"${tag}" of ${name} is missing` : `"${tag}" of ${name} is ${shown(value)}`;
      return told(code, `${found}; ${listed(choices)} is allowed.`, inside(tag));
    }
    case "type":
      return told("STUDY_JSON_TYPE", `${cap(name)} is ${shown(data)}; ${allowed(schema)} is allowed.`);
    case "minimum":
    case "maximum":
    case "exclusiveMinimum":
    case "exclusiveMaximum":
      return told(
        "STUDY_JSON_RANGE",
        `${cap(name)} is ${shown(data)}${unitOf(schema)}; ${allowed(schema)} is allowed.`,
      );
    case "enum":
    case "const":
      return told("STUDY_JSON_CHOICE", `${cap(name)} is ${shown(data)}; ${allowed(schema)} is allowed.`);
    case "minItems":
    case "maxItems":
      return told(
        "STUDY_JSON_LENGTH",
        `${cap(name)} has ${(data as unknown[]).length} entries; ${allowed(schema)} is allowed.`,
      );
    case "maxLength":
      return told(
        "STUDY_JSON_LENGTH",
        `${cap(name)} has ${[...(data as string)].length} characters; ${allowed(schema)} is allowed.`,
      );
    case "pattern": {
      const form = patternWords(schema);
      return told("STUDY_JSON_FORM", `${cap(name)} is ${shown(data)}; allowed is ${form}.`);
    }
    default:
      return told(
        "STUDY_JSON_TYPE",
        `${cap(name)} is ${shown(data)}, which ${error.message ?? "does not fit"}.`,
      );
  }
}

/** The path of a JSON pointer without its leading slash. */
function pathOf(pointer: string): string {
  return pointer.slice(1).replace(/~1/g, "/").replace(/~0/g, "~");
}

function nameOf(schema: SchemaNode, path: string): string {
  if (schema.title !== undefined) return schema.title;
  return path === "" ? "The study" : `"${path.split("/").at(-1)}"`;
}

/** Patterns of the schema in words. */
function patternWords(schema: SchemaNode): string {
  if (schema.description !== undefined) return lower(schema.description.replace(/\.$/, ""));
  if (schema.pattern?.startsWith("^(0[1-9]|1[0-2])-") === true) return "month-day such as 07-31";
  return `text of the form ${schema.pattern}`;
}

function shown(value: unknown): string {
  if (typeof value === "number" && !Number.isFinite(value)) return "a number too large to be held";
  if (typeof value === "string") return `the text "${cut(value)}"`;
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object" && value !== null) return "an object";
  return String(value);
}

function cut(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}

function cap(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Lower case at the start, except for a word in capitals. */
function lower(text: string): string {
  return /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}
