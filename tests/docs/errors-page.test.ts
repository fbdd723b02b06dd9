import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { describe, expect, it } from "vitest";
import { errorCodes } from "../../src/core/errors.ts";
import { errorsPage, problemCatalogues } from "../../src/docs/errors-page.ts";
import { filesBelow, projectRoot, readText } from "../support/source-files.ts";

const sources = filesBelow("src", ".ts").map((path) => ({ path, text: readText(path) }));
const listed = new Set([
  ...problemCatalogues.flatMap(({ problems }) => Object.keys(problems)),
  ...Object.keys(errorCodes),
]);

/** Codes of Node itself that the source compares with. */
const ofNode = /^ERR_/;

/** Codes stand in strings; the pattern also finds those in docstrings. */
const codeLiteral = /["'`]([A-Z][A-Z0-9]*(?:_[A-Z0-9]+)+)["'`]/g;
/** A line of a catalogue: `CODE: "meaning"`, or the code alone where the meaning goes on the next line. */
const catalogueLine = /^ {2}([A-Z][A-Z0-9]*(?:_[A-Z0-9]+)+):/gm;

describe("errorsPage()", () => {
  it("lists every code that the source uses", () => {
    const used = sources.flatMap(({ path, text }) =>
      [...text.matchAll(codeLiteral)].map(([, code]) => ({ path, code: code! })),
    );
    expect(used.length).toBeGreaterThan(50);
    expect(used.filter(({ code }) => !listed.has(code) && !ofNode.test(code))).toEqual([]);
  });

  it("lists no code that the source does not use", () => {
    const unused = [...listed].filter((code) => {
      const mention = new RegExp(`\\b${code}\\b`, "g");
      const declared = new RegExp(`^ {2}${code}:`, "gm");
      const count = (pattern: RegExp) =>
        sources.reduce((all, { text }) => all + (text.match(pattern)?.length ?? 0), 0);
      return count(mention) <= count(declared);
    });
    expect(unused).toEqual([]);
  });

  it("knows every catalogue in the source", async () => {
    const known = new Set<unknown>(problemCatalogues.map(({ problems }) => problems));
    const missing: string[] = [];
    let seen = 0;
    for (const { path, text } of sources) {
      for (const [, name] of text.matchAll(/export const (\w+(?:Problems|RemarkCodes|Questions)) = \{/g)) {
        seen += 1;
        const module = (await import(
          /* @vite-ignore */ pathToFileURL(join(projectRoot, path)).href
        )) as Record<string, unknown>;
        if (!known.has(module[name!])) missing.push(`${name} in ${path}`);
      }
    }
    expect(missing).toEqual([]);
    expect(seen).toBe(problemCatalogues.length);
  });

  it("has no code in two catalogues", () => {
    const declared = sources
      .filter(({ text }) => /(Problems|Codes|Questions) = \{/.test(text))
      .flatMap(({ text }) => [...text.matchAll(catalogueLine)].map(([, code]) => code));
    expect(declared.filter((code, i) => declared.indexOf(code) !== i)).toEqual([]);
  });

  it("gives every code a sentence", () => {
    const rows = [...errorsPage().matchAll(/^\| `([A-Z0-9_]+)` \| (.+) \|$/gm)];
    expect(rows.map(([, code]) => code)).toEqual([...listed]);
    for (const [, , meaning] of rows) expect(meaning).toMatch(/^[A-Z0-9].{10,}\.$/);
  });
});
