import { type Study, Study as StudySchema } from "../../core/study/schema/study.ts";
import type { SchemaNode } from "../../formats/study-json/describe-schema.ts";
import { asGiven } from "../../present/numbers.ts";
import { unitOfItem } from "../../present/unit-of-item.ts";
import { writingOf } from "../../present/writing-of.ts";

/** A value of the study in words: which thing it belongs to, its title, the value with its unit. */
export interface DescribedValue {
  readonly owner: string;
  readonly title: string;
  readonly value: string;
}

interface Step {
  readonly node: SchemaNode;
  readonly value: unknown;
}

/** The values at and below a path of the study (ids, names or positions in lists); none where there is nothing. */
export function describeValues(study: Study, path: string): DescribedValue[] {
  const keys = path.split("/").filter((key) => key !== "");
  let step: Step = { node: StudySchema as unknown as SchemaNode, value: study };
  let owner = "";
  const titles: string[] = [];
  for (const [depth, key] of keys.entries()) {
    const next = into(step, key);
    if (next === null) return [];
    const name = isObject(next.value) && typeof next.value.name === "string" ? next.value.name : null;
    if (depth === 0) owner = next.node.title ?? key;
    else if (depth === 1 && Array.isArray(step.value)) owner = `${singular(step.node)}: ${name ?? key}`;
    else titles.push(name ?? next.title ?? next.node.title ?? key);
    step = next;
  }
  return leaves(step, titles, study, keys.includes("charging") ? "charging" : (keys[0] ?? "")).map(
    (leaf) => ({ owner, ...leaf }),
  );
}

function leaves(
  step: Step,
  titles: readonly string[],
  study: Study,
  section: string,
): Omit<DescribedValue, "owner">[] {
  const { node, value } = step;
  if (value === undefined) return [];
  if (Array.isArray(value) && value.some(isObject)) {
    return value.flatMap((entry, index) => {
      const next = into(step, String(index));
      const name = isObject(entry) && typeof entry.name === "string" ? entry.name : String(index + 1);
      return next === null ? [] : leaves(next, [...titles, name], study, section);
    });
  }
  if (isObject(value)) {
    return Object.keys(value).flatMap((key) => {
      if (key === "name" || key === "id") return [];
      const next = into(step, key);
      return next === null
        ? []
        : leaves(
            next,
            [...titles, next.title ?? next.node.title ?? key],
            study,
            key === "charging" ? key : section,
          );
    });
  }
  return [
    {
      title: titles.at(-1) === undefined ? (node.title ?? "") : shortTitle(titles),
      value: written(step, study, section),
    },
  ];
}

/** Of nested titles the last, with the group before it where the last alone says too little. */
function shortTitle(titles: readonly string[]): string {
  return [...new Set(titles.slice(-2))].join(": ");
}

function written({ node, value }: Step & { words?: string }, study: Study, section: string): string {
  const { locale, currency } = writingOf(study);
  const unit = unitFor(node.unit ?? node.items?.unit, section, currency);
  if (typeof value === "number") return `${asGiven(value, locale)}${unit}`;
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value))
    return `${value.map((entry) => (typeof entry === "number" ? asGiven(entry, locale) : String(entry))).join("; ")}${unit}`;
  if (node.const !== undefined) return (node.title ?? String(value)).replaceAll("-", " ");
  return node.enum === undefined ? String(value) : String(value).replaceAll("-", " ");
}

/** Unit as it follows a number; a price per unit of an item says which unit that is. */
function unitFor(unit: string | undefined, section: string, currency: string): string {
  if (unit === undefined || unit === "1") return "";
  return ` ${unitOfItem(unit, [section]).replace("currency", currency)}`;
}

/** One key down; the tag of a union shows as the union's title and the variant's. */
function into(step: Step, key: string): (Step & { title?: string }) | null {
  const { node, value } = step;
  if (Array.isArray(value)) {
    const named = value.findIndex((entry) => isObject(entry) && (entry.id === key || entry.name === key));
    const index = named >= 0 ? named : /^\d{1,4}$/.test(key) ? Number(key) : -1;
    if (node.items === undefined || !(index >= 0 && index < value.length)) return null;
    return { node: node.items, value: value[index] };
  }
  if (!isObject(value) || !Object.hasOwn(value, key)) return null;
  const tag = node.discriminator?.propertyName;
  const variant =
    tag === undefined ? node : node.oneOf?.find((one) => one.properties?.[tag]?.const === value[tag]);
  const child = variant?.properties?.[key];
  if (child === undefined) return null;
  if (key === tag) {
    const shown: SchemaNode = { ...child, ...(variant?.title === undefined ? {} : { title: variant.title }) };
    return { node: shown, value: value[key], ...(node.title === undefined ? {} : { title: node.title }) };
  }
  return { node: child, value: value[key] };
}

/** "Collectors" as "Collector": the title of a list's items where they have one. */
function singular({ items, title }: SchemaNode): string {
  return items?.title ?? title ?? "";
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
