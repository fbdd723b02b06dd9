import type { Problem } from "../../core/problem.ts";
import type { Origin, Study } from "../../core/study/schema/study.ts";
import { Study as StudySchema } from "../../core/study/schema/study.ts";
import { unitOfItem } from "../../present/unit-of-item.ts";
import { choicesFor } from "./choices.ts";
import { anchorOf, type FormField, type InputField } from "./form-field.ts";
import { withGathered } from "./gather-fields.ts";
import { isGroup, isRows, type SchemaNode, schemaAt, stepInto, variantOf } from "./schema-node.ts";
import { originAmong, withIndexes } from "./study-paths.ts";
import { wordFor } from "./words.ts";

export interface FormContext {
  readonly study: Study;
  /** Names of the files kept with the study. */
  readonly fileNames: readonly string[];
  /** What the user typed where it was refused, by path. */
  readonly typed: ReadonlyMap<string, readonly string[]>;
  readonly problems: readonly Problem[];
}

/** Properties that are set elsewhere: by the page's own actions or by the upload of a file. */
const elsewhere = new Set(["reading", "kind", "formatVersion"]);

/** The fields for everything at `path` of the study, made from the schema. */
export function buildForm(context: FormContext, path: string): FormField[] {
  const origins = originsOf(context.study);
  const root = StudySchema as unknown as SchemaNode;
  const node = schemaAt(root, context.study, path);
  if (node === null) return [];
  const value = valueAt(context.study, path);
  return isGroup(node)
    ? groupFields({ ...context, origins }, node, value, path, isOptional(context.study, path))
    : [fieldFor({ ...context, origins }, node, value, path, isOptional(context.study, path))];
}

const knownOrigins = new WeakMap<Study, ReadonlyMap<string, Origin>>();

/** Origins by the place of their value, worked out once for each study: a page asks for every input. */
function originsOf(study: Study): ReadonlyMap<string, Origin> {
  const known = knownOrigins.get(study);
  if (known !== undefined) return known;
  const origins = new Map((study.origins ?? []).map((origin) => [withIndexes(study, origin.path), origin]));
  knownOrigins.set(study, origins);
  return origins;
}

function isOptional(study: Study, path: string): boolean {
  const keys = path.split("/");
  const key = keys.pop()!;
  const root = StudySchema as unknown as SchemaNode;
  const parent = keys.length === 0 ? root : schemaAt(root, study, keys.join("/"));
  const shape = parent === null ? null : variantOf(parent, valueAt(study, keys.join("/")));
  return !(shape?.required ?? []).includes(key);
}

/** One input of the study, for a place in a sentence. */
export function buildInput(context: FormContext, path: string): InputField | null {
  const field = buildForm(context, path)[0];
  return field?.kind === "input" ? field : null;
}

interface Walk extends FormContext {
  readonly origins: ReadonlyMap<string, Origin>;
}

function groupFields(
  walk: Walk,
  node: SchemaNode,
  value: unknown,
  path: string,
  isOptionalGroup = false,
): FormField[] {
  return withGathered(plainFields(walk, node, value, path, isOptionalGroup), path);
}

function plainFields(
  walk: Walk,
  node: SchemaNode,
  value: unknown,
  path: string,
  isOptionalGroup = false,
): FormField[] {
  const tag = node.discriminator?.propertyName;
  const variant = variantOf(node, value);
  const fields: FormField[] = [];
  if (tag !== undefined && !elsewhere.has(tag))
    fields.push(tagField(walk, node, value, path, tag, isOptionalGroup));
  for (const [key, child] of Object.entries(variant?.properties ?? {})) {
    if (key === tag || elsewhere.has(key)) continue;
    const step = stepInto(node, value, key);
    const optional = !(variant?.required ?? []).includes(key);
    fields.push(fieldFor(walk, child, step?.value, `${path}/${key}`, optional));
  }
  return fields;
}

function fieldFor(walk: Walk, node: SchemaNode, value: unknown, path: string, optional: boolean): FormField {
  if (isRows(node)) return rowsField(walk, node, value, path);
  if (isGroup(node)) {
    return {
      kind: "group",
      ...place(walk, node, path),
      optional,
      folded: optional && value === undefined && !isTouched(walk, path),
      fields: groupFields(walk, node, value, path, optional),
    };
  }
  return inputField(walk, node, value, path, optional);
}

/** Whether something below `path` was typed, or found at fault, in a change that was refused. */
function isTouched({ typed, problems }: FormContext, path: string): boolean {
  const isBelow = (own: string) => own.startsWith(`${path}/`);
  const written = [...typed].some(([own, values]) => isBelow(own) && values.some((value) => value !== ""));
  return written || problems.some(({ place: { path: own } }) => own !== undefined && isBelow(own));
}

/** Lists that are usually long show so many rows from the start. */
const spareRows: Readonly<Record<string, number>> = { Bills: 12 };

function rowsField(walk: Walk, node: SchemaNode, value: unknown, path: string): FormField {
  const item = node.items!;
  const entries = Array.isArray(value) ? value : [];
  const typedRows = [...walk.typed.keys()]
    .filter((key) => key.startsWith(`${path}/`))
    .map((key) => Number(key.slice(path.length + 1).split("/")[0]) + 1);
  const count = Math.max(entries.length + 1, spareRows[node.title ?? ""] ?? 0, ...typedRows);
  const rows = Array.from({ length: Math.min(count, node.maxItems ?? count) }, (_, index) => ({
    path: `${path}/${index}`,
    isNew: index >= entries.length,
    // A row has a cell for each column, so nothing is gathered in it.
    cells: plainFields(walk, item, entries[index], `${path}/${index}`).filter(
      (field): field is InputField => field.kind === "input",
    ),
  }));
  const columns = Object.values(item.properties ?? {}).map((column) => ({
    title: column.title ?? "",
    unit: shownUnit(column.unit, path),
  }));
  return { kind: "rows", ...place(walk, node, path), columns, rows };
}

function inputField(
  walk: Walk,
  node: SchemaNode,
  value: unknown,
  path: string,
  optional: boolean,
): InputField {
  const choices = choicesFor(walk.study, walk.fileNames, node, path);
  const many = node.type === "array" && choices.length > 0;
  const typed = walk.typed.get(path);
  const stored = Array.isArray(value) ? value.map(String) : value === undefined ? [] : [String(value)];
  const values = typed ?? stored;
  const origin = originAmong(walk.origins, path);
  return {
    kind: "input",
    ...place(walk, node, path),
    input: many
      ? "many"
      : choices.length > 0
        ? "choice"
        : node.type === "array"
          ? "numbers"
          : node.type === "boolean"
            ? "yes-no"
            : node.type === "number" || node.type === "integer"
              ? "number"
              : (node.maxLength ?? 0) > 1000
                ? "long-text"
                : "text",
    unit: shownUnit(node.unit ?? node.items?.unit, path),
    range: many ? "" : rangeOf(node),
    optional,
    value: node.type === "array" && !many ? values.join(" ") : (values.at(-1) ?? ""),
    values: many ? values.filter((entry) => entry !== "") : values,
    choices,
    origin: origin === null ? null : { status: origin.status, source: origin.source },
  };
}

function tagField(
  walk: Walk,
  node: SchemaNode,
  value: unknown,
  path: string,
  tag: string,
  optional: boolean,
): InputField {
  const own = `${path}/${tag}`;
  const current = String((value as Record<string, unknown> | undefined)?.[tag] ?? "");
  const choices = (node.oneOf ?? [])
    .map((variant) => String(variant.properties?.[tag]?.const))
    // A profile becomes one from a file by its upload page, not here.
    .filter((entry) => entry !== "file" || current === "file")
    // A calendar can be named only where there is one.
    .filter(
      (entry) =>
        !["calendar", "bills"].includes(entry) || current === entry || walk.study.calendars.length > 0,
    )
    .map((entry) => ({ value: entry, label: wordFor(entry) }));
  return {
    kind: "input",
    ...place(walk, node, own),
    title: node.title ?? "Kind",
    help:
      node.title === "Profile" && walk.study.calendars.length === 0
        ? "By a calendar or by bills once the study has a calendar."
        : "Another choice brings its own inputs once saved.",
    input: "choice",
    unit: "",
    range: "",
    optional,
    value: walk.typed.get(own)?.at(-1) ?? current,
    values: [],
    choices,
    origin: null,
  };
}

function place(walk: Walk, node: SchemaNode, path: string) {
  return {
    path,
    anchor: anchorOf(path),
    title: node.title ?? path.split("/").at(-1) ?? path,
    help: node.description ?? "",
    problems: walk.problems.filter((problem) => problem.place.path === path),
  };
}

function shownUnit(unit: string | undefined, path: string): string {
  return unit === undefined || unit === "1" ? "" : unitOfItem(unit, path.split("/"));
}

/** What may be written, in a few words. */
function rangeOf(node: SchemaNode): string {
  const { minimum, maximum, exclusiveMinimum } = node.items ?? node;
  const items = node.type === "array" ? countOf(node) : "";
  const low = exclusiveMinimum === undefined ? minimum : exclusiveMinimum;
  const word = exclusiveMinimum === undefined ? "from" : "above";
  let span = "";
  if (low !== undefined && maximum !== undefined) {
    span =
      exclusiveMinimum === undefined
        ? `${plain(low)} to ${plain(maximum)}`
        : `above ${plain(low)}, to ${plain(maximum)}`;
  } else if (low !== undefined) span = `${word} ${plain(low)}`;
  else if (maximum !== undefined) span = `to ${plain(maximum)}`;
  return [items, span].filter((part) => part !== "").join(", ");
}

function countOf(node: SchemaNode): string {
  if (node.minItems !== undefined && node.minItems === node.maxItems) return `${node.minItems} numbers`;
  if (node.maxItems === undefined) return "";
  return `${node.minItems ?? 0} to ${node.maxItems} numbers`;
}

function plain(value: number): string {
  return String(value).replace("-", "−");
}

function valueAt(study: Study, path: string): unknown {
  let value: unknown = study;
  for (const key of path.split("/")) {
    value = typeof value === "object" && value !== null ? (value as Record<string, unknown>)[key] : undefined;
  }
  return value;
}
