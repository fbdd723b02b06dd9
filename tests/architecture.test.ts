import { posix } from "node:path";
import { describe, expect, it } from "vitest";
import { filesBelow, readText } from "./support/source-files.ts";

interface Source {
  readonly path: string;
  readonly text: string;
  /** What it imports: paths from the checkout for its own files, package names otherwise. */
  readonly imports: readonly string[];
}

const importLine =
  /^\s*(?:import|export)\b[^;"']*?\bfrom\s*["']([^"']+)["']|^\s*import\s*["']([^"']+)["']|\bimport\(\s*["']([^"']+)["']/gm;

const sources: Source[] = filesBelow("src", ".ts").map((path) => {
  const text = readText(path);
  const imports = [...text.matchAll(importLine)].map(([, from, bare, dynamic]) => {
    const target = (from ?? bare ?? dynamic)!;
    return target.startsWith(".") ? posix.join(posix.dirname(path), target) : target;
  });
  return { path, text, imports };
});

/** The summary is a page made of charts and words, so it lies above the rest of the application. */
const layerOf = (path: string) =>
  /^src\/app\/(?:render-summary\.ts$|summary\/)/.test(path) ? "summary" : path.split("/")[1]!;
const isOwn = (target: string) => target.startsWith("src/");
const packageOf = (target: string) =>
  target
    .split("/")
    .slice(0, target.startsWith("@") ? 2 : 1)
    .join("/");

/**
 * What a layer may import: of our own layers and of packages. A layer that is not listed may not
 * exist; `docs` and `bench` are tools on top of everything. Node's modules are named one by one.
 */
const layers: Record<
  string,
  { readonly own: readonly string[]; readonly packages: readonly string[] | "any" }
> = {
  core: { own: ["core"], packages: ["typebox", "luxon", "financial"] },
  formats: { own: ["core", "formats"], packages: ["csv-parse", "ajv", "node:zlib", "@e965/xlsx", "fflate"] },
  app: { own: ["core", "formats", "app"], packages: [] },
  summary: {
    own: ["core", "formats", "app", "present", "charts", "summary"],
    packages: ["ejs", "node:url"],
  },
  solver: { own: ["core", "solver"], packages: ["highs", "javascript-lp-solver"] },
  charts: { own: ["core", "charts"], packages: ["d3-scale", "d3-shape", "node:zlib"] },
  present: { own: ["core", "app", "present"], packages: [] },
  store: {
    own: ["core", "formats", "app", "store"],
    packages: ["write-file-atomic", "node:fs", "node:path", "node:crypto", "node:os", "node:url"],
  },
  web: {
    own: ["core", "formats", "app", "summary", "present", "charts", "store", "solver", "web"],
    packages: "any",
  },
  cli: {
    own: ["core", "formats", "app", "summary", "present", "charts", "store", "solver", "web", "cli", "bench"],
    packages: "any",
  },
  bench: {
    own: ["core", "formats", "app", "store", "solver", "charts", "present", "web", "bench"],
    packages: "any",
  },
  docs: {
    own: ["core", "formats", "app", "store", "web", "docs"],
    packages: ["typebox", "node:fs", "node:path", "node:url"],
  },
};

const faults = (rule: (source: Source, target: string) => boolean) =>
  sources.flatMap((source) =>
    source.imports
      .filter((target) => rule(source, target))
      .map((target) => `${source.path} imports ${target}`),
  );

describe("the layers of src", () => {
  it("are read from import lines", () => {
    expect(sources.length).toBeGreaterThan(100);
    expect(sources.flatMap(({ imports }) => imports).length).toBeGreaterThan(300);
  });

  it("are all known", () => {
    expect(
      [...new Set(sources.map(({ path }) => layerOf(path)))].filter((layer) => !(layer in layers)),
    ).toEqual([]);
  });

  it("import only the layers below them", () => {
    expect(
      faults(({ path }, target) => isOwn(target) && !layers[layerOf(path)]!.own.includes(layerOf(target))),
    ).toEqual([]);
  });

  it("import only the packages that they are made of", () => {
    expect(
      faults(({ path }, target) => {
        const { packages } = layers[layerOf(path)]!;
        return !isOwn(target) && packages !== "any" && !packages.includes(packageOf(target));
      }),
    ).toEqual([]);
  });

  it("import a solver package in src/solver alone", () => {
    const solvers = ["highs", "javascript-lp-solver"];
    expect(
      faults(({ path }, target) => solvers.includes(packageOf(target)) && layerOf(path) !== "solver"),
    ).toEqual([]);
  });

  it("touch files in the store, the web, the command line and the tools alone", () => {
    const mayTouch = ["store", "web", "cli", "bench", "docs"];
    expect(
      faults(({ path }, target) => /^(node:)?fs(\/|$)/.test(target) && !mayTouch.includes(layerOf(path))),
    ).toEqual([]);
  });

  it("import no development package", () => {
    const { devDependencies } = JSON.parse(readText("package.json")) as {
      devDependencies: Record<string, string>;
    };
    expect(
      faults(
        ({ path }, target) =>
          !isOwn(target) && packageOf(target) in devDependencies && !path.startsWith("src/bench/"),
      ),
    ).toEqual([]);
  });

  it("name their own files with an ending, and files that exist", () => {
    const known = new Set(sources.map(({ path }) => path));
    expect(faults((_, target) => isOwn(target) && target.endsWith(".ts") && !known.has(target))).toEqual([]);
    expect(faults((_, target) => isOwn(target) && !/\.(ts|mjs|json)$/.test(target))).toEqual([]);
  });

  it("have no cycle of imports that remain when types are gone", () => {
    const next = new Map(
      sources.map(({ path, text }) => {
        const values = text.replace(/^\s*(?:import|export)\s+type\b[^;]*;/gm, "");
        const targets = [...values.matchAll(importLine)]
          .map(([, from, bare]) => from ?? bare)
          .filter((target) => target?.startsWith("."))
          .map((target) => posix.join(posix.dirname(path), target!));
        return [path, targets] as const;
      }),
    );
    expect(firstCycle(next)).toEqual([]);
  });
});

describe("files of src", () => {
  it("have at most 400 lines", () => {
    const long = sources.map(({ path, text }) => ({ path, lines: text.split("\n").length - 1 }));
    expect(long.filter(({ lines }) => lines > 400)).toEqual([]);
  });

  it("write to the console in the command line and the bench alone", () => {
    const mayWrite = ["cli", "bench"];
    expect(
      sources
        .filter(({ path, text }) => /\bconsole\./.test(text) && !mayWrite.includes(layerOf(path)))
        .map(({ path }) => path),
    ).toEqual([]);
  });

  it("keep clock and chance out of the core", () => {
    const impure =
      /\bMath\.random\(|\bDate\.now\(|\bnew Date\(\)|\bperformance\.now\(|DateTime\.(now|local)\(\)|\bprocess\./;
    expect(
      sources
        .filter(({ path, text }) => layerOf(path) === "core" && impure.test(text))
        .map(({ path }) => path),
    ).toEqual([]);
  });

  it("leave nothing to be done later", () => {
    expect(sources.filter(({ text }) => /\b(TODO|FIXME|XXX)\b/.test(text)).map(({ path }) => path)).toEqual(
      [],
    );
  });
});

/** The files of one cycle in order, or none. */
function firstCycle(next: ReadonlyMap<string, readonly string[]>): string[] {
  const done = new Set<string>();
  const visit = (path: string, trail: readonly string[]): string[] => {
    const at = trail.indexOf(path);
    if (at >= 0) return [...trail.slice(at), path];
    if (done.has(path)) return [];
    for (const target of next.get(path) ?? []) {
      const cycle = visit(target, [...trail, path]);
      if (cycle.length > 0) return cycle;
    }
    done.add(path);
    return [];
  };
  for (const path of next.keys()) {
    const cycle = visit(path, []);
    if (cycle.length > 0) return cycle;
  }
  return [];
}
