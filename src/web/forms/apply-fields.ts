import type { Problem } from "../../core/problem.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { Study as StudySchema } from "../../core/study/schema/study.ts";
import { followRenames } from "./follow-renames.ts";
import type { formProblems } from "./form-problems.ts";
import { readValue } from "./read-value.ts";
import { isObject, isRows, type SchemaNode, schemaAt } from "./schema-node.ts";
import { startingVariant } from "./starting-values.ts";
import { updateOrigins } from "./update-origins.ts";

/** A form as it came in: every name with all its values, in order. */
export type FormEntries = ReadonlyMap<string, readonly string[]>;

export interface AppliedFields {
  /** The study with the fields applied, not yet validated; fields at fault keep their old value. */
  readonly study: Study;
  readonly problems: readonly Problem[];
}

const root = StudySchema as unknown as SchemaNode;

/**
 * Applies a form's `path=value` entries to a copy of a study. Entries named `remove:PATH` drop a row,
 * `confirm:PATH` marks a value as confirmed, `confirm-under:PATH` all of a thing's. An empty entry leaves an optional value out. A choice of
 * another variant brings that variant's starting values, marked as assumptions.
 */
export function applyFields(before: Study, entries: FormEntries): AppliedFields {
  const study = structuredClone(before) as Study;
  const problems: Problem[] = [];
  const changed: string[] = [];
  const assumed: string[] = [];
  const leftOut: string[] = [];

  // Variants first: they decide which of the other fields still exist.
  for (const [path, values] of entries) {
    const variant = chosenVariant(study, path, values.at(-1) ?? "");
    if (variant === null) continue;
    setAt(study, variant.path, variant.value);
    (variant.value === undefined ? leftOut : assumed).push(variant.path);
  }
  for (const [path, values] of entries) {
    if (path.includes(":") || (!path.includes("/") && !topLevel.has(path))) continue;
    if ([...assumed, ...leftOut].some((group) => path.startsWith(`${group}/`))) continue;
    const node = schemaAt(root, study, path);
    if (node === null || node.const !== undefined || isRows(node)) continue;
    const outcome = readValue(node, values, path, isRequired(study, path));
    if (!outcome.ok) {
      problems.push(...outcome.problems);
      continue;
    }
    if (isNothingInNewRow(study, path, outcome.value)) continue;
    if (JSON.stringify(getAt(study, path)) === JSON.stringify(outcome.value)) continue;
    setAt(study, path, outcome.value);
    changed.push(path);
  }
  const dropped = dropRows(study, entries);
  prune(study, root);
  problems.push(...emptyOnes(study, entries, problems));
  updateOrigins(before, study, { changed, assumed, dropped, entries });
  followRenames(before, study);
  return { study, problems };
}

/** A list without entries, as unticked boxes give it, makes no new row by itself. */
function isNothingInNewRow(study: Study, path: string, value: unknown): boolean {
  if (!Array.isArray(value) || value.length > 0) return false;
  return getAt(study, path.split("/").slice(0, -1).join("/")) === undefined;
}

const topLevel = new Set(["title", "client", "author", "note"]);

/**
 * The new variant where `path` is the tag of a union and its value changes, undefined where an optional one
 * is left out by an empty choice; null otherwise.
 */
function chosenVariant(
  study: Study,
  path: string,
  tagValue: string,
): { path: string; value: unknown } | null {
  const keys = path.split("/");
  const tag = keys.pop()!;
  if (keys.length === 0) return null;
  const groupPath = keys.join("/");
  const node = schemaAt(root, study, groupPath);
  if (node?.discriminator?.propertyName !== tag || node.oneOf === undefined) return null;
  const current = getAt(study, groupPath);
  if (current !== undefined && !isObject(current)) return null;
  if (current?.[tag] === tagValue) return null;
  if (tagValue === "" && current !== undefined && !isRequired(study, groupPath))
    return { path: groupPath, value: undefined };
  const variant = node.oneOf.find((option) => option.properties?.[tag]?.const === tagValue);
  if (variant === undefined) return null;
  const starting = startingVariant(study, node.title ?? "", tagValue);
  const own = variant.properties ?? {};
  const start = Object.fromEntries(Object.entries(starting).filter(([key]) => Object.hasOwn(own, key)));
  const kept = Object.entries(current ?? {}).filter(([key]) => key !== tag && Object.hasOwn(own, key));
  return { path: groupPath, value: { ...start, ...Object.fromEntries(kept), [tag]: tagValue } };
}

function isRequired(study: Study, path: string): boolean {
  const keys = path.split("/");
  const key = keys.pop()!;
  if (keys.length === 0) return key === "title";
  const parent = schemaAt(root, study, keys.join("/"));
  const value = getAt(study, keys.join("/"));
  const tag = parent?.discriminator?.propertyName;
  const variant =
    tag === undefined
      ? parent
      : parent?.oneOf?.find(
          (option) => option.properties?.[tag]?.const === (isObject(value) ? value[tag] : undefined),
        );
  return variant?.required?.includes(key) ?? false;
}

/** Required values that were left empty in a group that is otherwise there. */
function emptyOnes(study: Study, entries: FormEntries, known: readonly Problem[]): Problem[] {
  const seen = new Set(known.map(({ place }) => place.path));
  const problems: Problem[] = [];
  for (const [path, values] of entries) {
    if (path.includes(":") || seen.has(path) || values.some((value) => value.trim() !== "")) continue;
    const node = schemaAt(root, study, path);
    if (node === null || node.type === "array" || !isRequired(study, path)) continue;
    const parent = path.includes("/") ? getAt(study, path.split("/").slice(0, -1).join("/")) : study;
    if (!isObject(parent)) continue;
    problems.push({
      code: "FORM_EMPTY" satisfies keyof typeof formProblems,
      message: `${node.title ?? path} is needed and was left empty.`,
      place: { path },
    });
  }
  return problems;
}

/** Takes out the rows marked for it, the last first; gives their paths. */
function dropRows(study: Study, entries: FormEntries): string[] {
  const paths = [...entries.keys()]
    .filter((name) => name.startsWith("remove:"))
    .map((name) => name.slice("remove:".length))
    .filter((path) => /\/\d{1,3}$/.test(path))
    .sort((a, b) => Number(b.split("/").at(-1)) - Number(a.split("/").at(-1)));
  for (const path of paths) {
    const keys = path.split("/");
    const list = getAt(study, keys.slice(0, -1).join("/"));
    if (Array.isArray(list)) list.splice(Number(keys.at(-1)), 1);
  }
  return paths;
}

/** Drops rows and optional groups in which nothing was written. */
function prune(value: unknown, node: SchemaNode): void {
  if (Array.isArray(value) && node.items !== undefined) {
    for (const entry of value) prune(entry, node.items);
    for (let i = value.length - 1; i >= 0; i -= 1) {
      if (value[i] === undefined || (isObject(value[i]) && Object.keys(value[i]).length === 0))
        value.splice(i, 1);
    }
    return;
  }
  if (!isObject(value)) return;
  const tag = node.discriminator?.propertyName;
  const shape = tag === undefined ? node : node.oneOf?.find((o) => o.properties?.[tag]?.const === value[tag]);
  for (const [key, child] of Object.entries(shape?.properties ?? {})) {
    const required = shape?.required?.includes(key) ?? false;
    if (!(key in value)) {
      // A group that is being filled in may have no rows yet.
      if (required && child.type === "array" && !isBlank(value)) value[key] = [];
      continue;
    }
    prune(value[key], child);
    const empty = isObject(value[key]) && isBlank(value[key]);
    if (value[key] === undefined || (empty && !required && key !== "limits")) delete value[key];
  }
}

/** True where a group holds nothing but groups and lists without anything in them. */
function isBlank(value: unknown): boolean {
  if (Array.isArray(value)) return value.length === 0;
  return isObject(value) ? Object.values(value).every(isBlank) : value === undefined;
}

export function getAt(root: unknown, path: string): unknown {
  let value = root;
  for (const key of path.split("/")) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<string, unknown>)[key];
  }
  return value;
}

/** Sets or, with undefined, deletes; makes the groups on the way. Paths come from the schema only. */
function setAt(root: unknown, path: string, value: unknown): void {
  const keys = path.split("/");
  const last = keys.pop()!;
  let place = root as Record<string, unknown>;
  for (const [index, key] of keys.entries()) {
    if (!Object.hasOwn(place, key) || typeof place[key] !== "object" || place[key] === null) {
      if (value === undefined) return;
      place[key] = /^\d+$/.test(keys[index + 1] ?? last) ? [] : {};
    }
    place = place[key] as Record<string, unknown>;
  }
  if (value === undefined) delete place[last];
  else place[last] = value;
}
