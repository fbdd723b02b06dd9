import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Study } from "../../src/core/study/schema/study.ts";
import { studyReference } from "../../src/docs/study-reference.ts";
import type { SchemaNode } from "../../src/formats/study-json/describe-schema.ts";

describe("the reference of the study file", () => {
  it("is fresh in docs", () => {
    const page = readFileSync(new URL("../../docs/study-reference.md", import.meta.url), "utf8");
    expect(page).toBe(studyReference());
  });

  it("names every property of the schema", () => {
    const page = studyReference();
    const names = new Set<string>();
    const walk = (node: SchemaNode): void => {
      for (const [name, child] of Object.entries(node.properties ?? {})) {
        names.add(name);
        walk(child);
      }
      for (const variant of node.oneOf ?? []) walk(variant);
      if (node.items !== undefined) walk(node.items);
    };
    walk(Study as unknown as SchemaNode);
    expect(names.size).toBeGreaterThan(100);
    expect([...names].filter((name) => !page.includes(`| \`${name}\` |`))).toEqual([]);
  });

  it("links only to headings that it has", () => {
    const page = studyReference();
    const anchors = new Set(
      [...page.matchAll(/^## (.+)$/gm)].map(([, heading]) =>
        heading!
          .toLowerCase()
          .replace(/[^\p{L}\p{N}\s_-]/gu, "")
          .replace(/ /g, "-"),
      ),
    );
    const links = [...page.matchAll(/\]\(#([^)]+)\)/g)].map(([, anchor]) => anchor!);
    expect(links.length).toBeGreaterThan(20);
    expect(links.filter((anchor) => !anchors.has(anchor))).toEqual([]);
  });
});
