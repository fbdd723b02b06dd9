import { found, type Outcome, refused } from "../../core/problem.ts";
import type { formProblems } from "./form-problems.ts";
import type { SchemaNode } from "./schema-node.ts";

const numberPattern = /^[+\-−]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/;

/**
 * One field's text as the value that its schema takes; undefined where it was left empty. Ranges are
 * left to the validation of the whole study.
 */
export function readValue(
  node: SchemaNode,
  texts: readonly string[],
  path: string,
  required: boolean,
): Outcome<unknown> {
  const last = (texts.at(-1) ?? "").trim();
  if (node.type === "array") return readList(node, texts, path, required);
  if (node.type === "boolean") return found(last === "true");
  if (last === "") return found(undefined);
  if (node.type === "number" || node.type === "integer") return readNumber(node, last, path);
  if (node.enum !== undefined && !node.enum.includes(last)) {
    return fault("FORM_CHOICE", `"${last}" is not one of ${node.enum.join(", ")}.`, path);
  }
  return found(node.maxLength !== undefined && node.maxLength > 1000 ? last.replaceAll("\r\n", "\n") : last);
}

function readNumber(node: SchemaNode, text: string, path: string): Outcome<unknown> {
  const compact = text.replace(/[\u00a0\u202f ]/g, "");
  if (!numberPattern.test(compact)) {
    const advice = compact.includes(",") ? " Write a decimal point, and no commas between thousands." : "";
    return fault(
      "FORM_NUMBER",
      `${node.title ?? "The value"} must be a number; found "${text}".${advice}`,
      path,
    );
  }
  return found(Number(compact.replace("−", "-")));
}

function readList(
  node: SchemaNode,
  texts: readonly string[],
  path: string,
  required: boolean,
): Outcome<unknown> {
  const entries = texts.flatMap((text) => text.trim().split(/[\s;]+/)).filter((entry) => entry !== "");
  if (entries.length === 0 && !required) return found(undefined);
  if (node.items?.type === "string") return found(entries);
  const values: unknown[] = [];
  for (const entry of entries) {
    const value = readNumber(node.items ?? {}, entry, path);
    if (!value.ok) return value;
    values.push(value.value);
  }
  return found(values);
}

function fault(code: keyof typeof formProblems, message: string, path: string): Outcome<never> {
  return refused([{ code, message, place: { path } }]);
}
