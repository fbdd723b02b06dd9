import { existsSync, statSync } from "node:fs";
import { join, posix } from "node:path";
import { describe, expect, it } from "vitest";
import { generatedPages } from "../src/docs/generated-pages.ts";
import { filesBelow, projectRoot, readText } from "./support/source-files.ts";

const pages = ["README.md", "DEVELOPERS.md"]
  .filter((path) => existsSync(join(projectRoot, path)))
  .concat(filesBelow("docs", ".md"), filesBelow("fixtures", ".md"));

/** Text without fenced, indented or inline code, in which brackets and hashes are no Markdown. */
function prose(path: string): string {
  return readText(path)
    .replace(/^```[\s\S]*?^```/gm, "")
    .replace(/^ {4}.*$/gm, "")
    .replace(/`[^`\n]*`/g, "");
}

/** Anchors that a Markdown page offers: its headings in lower case, blanks as hyphens, other signs left out. */
function anchorsOf(path: string): Set<string> {
  const anchors = new Set<string>();
  const text = readText(path).replace(/^```[\s\S]*?^```/gm, "");
  for (const [, heading] of text.matchAll(/^#{1,6} +(.+?) *$/gm)) {
    const plain = heading!
      .replace(/\[([^\]]*)\]\([^)]*\)/g, "$1")
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, "")
      .replace(/\s/g, "-");
    let anchor = plain;
    for (let n = 1; anchors.has(anchor); n += 1) anchor = `${plain}-${n}`;
    anchors.add(anchor);
  }
  return anchors;
}

const links = pages.flatMap((path) =>
  [...prose(path).matchAll(/\[[^\]]*\]\(([^)\s]+)(?:\s+"[^"]*")?\)/g)].map(([, target]) => ({
    path,
    target: target!,
  })),
);

describe("links in the documentation", () => {
  it("are there", () => {
    expect(pages.length).toBeGreaterThan(10);
    expect(links.length).toBeGreaterThan(20);
  });

  it("lead to files of the project", () => {
    const broken = links.filter(({ path, target }) => {
      const file = target.split("#")[0]!;
      if (/^[a-z]+:/.test(target) || file === "") return false;
      return !existsSync(join(projectRoot, posix.join(posix.dirname(path), file)));
    });
    expect(broken).toEqual([]);
  });

  it("lead to headings that exist", () => {
    const broken = links.filter(({ path, target }) => {
      const [file, anchor] = target.split("#");
      if (/^[a-z]+:/.test(target) || anchor === undefined) return false;
      const page = file === "" ? path : posix.join(posix.dirname(path), file!);
      if (!page.endsWith(".md") || !existsSync(join(projectRoot, page))) return false;
      return !anchorsOf(page).has(anchor);
    });
    expect(broken).toEqual([]);
  });

  it("reach every page of docs from docs/README.md", () => {
    const seen = new Set<string>(["docs/README.md"]);
    for (const page of seen) {
      for (const { path, target } of links) {
        const file = target.split("#")[0]!;
        if (path === page && file.endsWith(".md") && !/^[a-z]+:/.test(file)) {
          seen.add(posix.join(posix.dirname(path), file));
        }
      }
    }
    expect(filesBelow("docs", ".md").filter((path) => !seen.has(path))).toEqual([]);
  });
});

describe("files that the documentation names", () => {
  it("exist where a path into src, tests, docs, views or fixtures stands in code marks", () => {
    const missing = pages.flatMap((path) =>
      [...readText(path).matchAll(/`((?:src|tests|docs|views|fixtures)\/[\w./-]*)`/g)]
        .map(([, named]) => named!)
        .filter((named) => !existsSync(join(projectRoot, named)))
        .map((named) => `${path} names ${named}`),
    );
    expect(missing).toEqual([]);
  });

  it("exist where a docstring of the source points to a page of docs", () => {
    const missing = filesBelow("src", ".ts").flatMap((path) =>
      [...readText(path).matchAll(/\bdocs\/[\w./-]+\.md\b/g)]
        .map(([named]) => named)
        .filter((named) => !existsSync(join(projectRoot, named)))
        .map((named) => `${path} names ${named}`),
    );
    expect(missing).toEqual([]);
  });
});

describe("generated pages", () => {
  for (const { path, text } of generatedPages()) {
    it(`hold ${path} as \`npm run docs\` writes it`, () => {
      expect(existsSync(join(projectRoot, path)) && readText(path) === text, `${path} is not fresh`).toBe(
        true,
      );
    });
  }
});

describe("what the top folder holds", () => {
  it("is what the project's layout names", () => {
    const tracked = new Set([
      "README.md",
      "DEVELOPERS.md",
      "LICENSE",
      "package.json",
      "package-lock.json",
      "tsconfig.json",
    ]);
    const folders = ["src", "views", "fixtures", "tests", "docs"];
    for (const folder of folders) expect(statSync(join(projectRoot, folder)).isDirectory()).toBe(true);
    for (const file of tracked) expect(existsSync(join(projectRoot, file)), file).toBe(true);
  });
});
