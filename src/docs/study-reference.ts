import { Study } from "../core/study/schema/study.ts";
import { allowed, type SchemaNode } from "../formats/study-json/describe-schema.ts";

/** docs/study-reference.md: every property of a study, made from the schema. */
export function studyReference(): string {
  const sections: string[] = [];
  const seen = new Map<string, string>();
  describe(Study as unknown as SchemaNode, { heading: "Study", path: "", sections, seen });
  return `${head}\n${sections.join("\n")}`;
}

const head = `# Reference of the study file

This page is made from the schema by \`npm run docs\`; do not edit it by hand. A study is one JSON object.
Paths are written with slashes, \`*\` stands for any entry of a list. Properties that are not listed are
refused. What the parts of a study must keep to among each other is checked as well (docs/errors.md).
`;

interface Writing {
  readonly heading: string;
  readonly path: string;
  readonly sections: string[];
  /** Heading of each object already written, by its content, so that repeated ones are written once. */
  readonly seen: Map<string, string>;
}

interface Nested {
  readonly node: SchemaNode;
  readonly heading: string;
  readonly path: string;
}

/** Writes one object, or all variants of a tagged one, then the objects inside. */
function describe(schema: SchemaNode, writing: Writing): void {
  const key = JSON.stringify(schema);
  if (writing.seen.has(key)) return;
  writing.seen.set(key, writing.heading);
  const tag = schema.discriminator?.propertyName;
  const lines = [`## ${writing.heading}`, ""];
  if (writing.path !== "") lines.push(`Path: \`${writing.path}\``, "");
  if (schema.description !== undefined) lines.push(`${schema.description}`, "");
  const nested: Nested[] = [];
  if (schema.oneOf === undefined || tag === undefined) lines.push(...tableOf(schema, writing, nested));
  else {
    lines.push(`One of these, told apart by \`${tag}\`.`, "");
    for (const variant of schema.oneOf) {
      const value = JSON.stringify(variant.properties?.[tag]?.const);
      lines.push(`### ${variant.title ?? value}: \`${tag}\` is \`${value}\``, "");
      if (variant.description !== undefined) lines.push(variant.description, "");
      lines.push(...tableOf(variant, writing, nested));
    }
  }
  writing.sections.push(lines.join("\n"));
  for (const { node, heading, path } of nested) describe(node, { ...writing, heading, path });
}

function tableOf(schema: SchemaNode, writing: Writing, nested: Nested[]): string[] {
  const rows = Object.entries(schema.properties ?? {}).map(([name, node]) => {
    const path = writing.path === "" ? name : `${writing.path}/${name}`;
    const needed = schema.required?.includes(name) === true ? "yes" : "no";
    return `| \`${name}\` | ${cell(meaningOf(node))} | ${cell(allowedIn(node, path, writing.seen, nested))} | ${needed} |`;
  });
  return ["| Property | Meaning | Value | Needed |", "| --- | --- | --- | --- |", ...rows, ""];
}

function meaningOf({ title, description, items, properties, oneOf }: SchemaNode): string {
  const own = title ?? items?.title ?? "";
  // Objects say what they are in their own section.
  if (description === undefined || properties !== undefined || oneOf !== undefined) return own;
  return own === "" ? description : `${own}. ${description}`;
}

function allowedIn(
  node: SchemaNode,
  path: string,
  seen: ReadonlyMap<string, string>,
  nested: Nested[],
): string {
  if (node.items !== undefined) {
    const inner = allowedIn(node.items, `${path}/*`, seen, nested);
    return `${allowed(node)}; each is ${inner}`;
  }
  if (node.properties === undefined && node.oneOf === undefined) {
    const unit = node.unit === undefined || node.unit === "1" ? "" : node.unit;
    const words = allowed(node);
    return unit === "" || words.includes(unit)
      ? words
      : `${words}, in ${unit.replace(/^(item|profile)'s/, "the $1's")}`;
  }
  const title = node.title ?? path;
  const heading =
    seen.get(JSON.stringify(node)) ??
    nested.find((one) => same(one.node, node))?.heading ??
    headingOf(title, path, seen, nested);
  if (!seen.has(JSON.stringify(node)) && !nested.some((one) => same(one.node, node)))
    nested.push({ node, heading, path });
  return `[${heading}](#${anchor(heading)})`;
}

const same = (a: SchemaNode, b: SchemaNode) => JSON.stringify(a) === JSON.stringify(b);

/** A title alone where it is free, else with its path. */
function headingOf(
  title: string,
  path: string,
  seen: ReadonlyMap<string, string>,
  nested: readonly Nested[],
): string {
  const taken = [...seen.values(), ...nested.map(({ heading }) => heading)];
  return taken.includes(title)
    ? `${title} (${path.replaceAll("/", " ").replaceAll("*", "").replace(/ +/g, " ")})`
    : title;
}

function anchor(heading: string): string {
  return heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s_-]/gu, "")
    .replace(/ /g, "-");
}

function cell(text: string): string {
  return text.replaceAll("|", "\\|").replace(/\s+/g, " ");
}
