import type { Template } from "../template.ts";
import type { BorderPattern } from "./border-pattern.ts";
import { compile, sum } from "./source.ts";
import type { Work } from "./work.ts";

/** What the border needs of G = L⁻¹·F over a range of blocks. */
export interface BorderKernels {
  /** matrix ← matrix − Gᵀ·D⁻¹·G, lower triangle, width × width. */
  addSquares(work: Work, from: number, to: number, matrix: Float64Array): void;
  /** AW ← AW − Gᵀ·D⁻¹·DY. */
  project(work: Work, from: number, to: number): void;
  /** DY ← DY − G·DW. */
  combine(work: Work, from: number, to: number): void;
}

type Range = (work: Work, from: number, to: number) => void;
type Squares = (work: Work, from: number, to: number, matrix: Float64Array) => void;

/** Columns taken at once: a function that is too long is never optimised. */
const together = 6;
export function borderKernels({ rows, carried }: Template, pattern: BorderPattern): BorderKernels {
  const width = carried.length;
  const groups: number[][] = [];
  for (let first = 0; first < width; first += together) {
    groups.push(Array.from({ length: Math.min(together, width - first) }, (_, i) => first + i));
  }
  const squares = groups.flatMap((a, i) =>
    groups.slice(0, i + 1).map((b) => squareKernel(rows, width, pattern, a, b)),
  );
  const projections = groups.map((group) => projectKernel(rows, pattern, group));
  const combinations = groups.map((group) => combineKernel(rows, pattern, group));
  return {
    addSquares: (work, from, to, matrix) => {
      for (const kernel of squares) kernel(work, from, to, matrix);
    },
    project: (work, from, to) => {
      for (const kernel of projections) kernel(work, from, to);
    },
    combine: (work, from, to) => {
      for (const kernel of combinations) kernel(work, from, to);
    },
  };
}

const each = (rows: number, text: (i: number) => string) => Array.from({ length: rows }, (_, i) => text(i));

function squareKernel(
  rows: number,
  width: number,
  { has, place, stored }: BorderPattern,
  a: readonly number[],
  b: readonly number[],
): Squares {
  const pairs = a.flatMap((i) => b.filter((j) => j <= i).map((j) => [i, j] as const));
  const columns = [...new Set([...a, ...b])];
  const row = (r: number) => {
    const terms = pairs.filter(([i, j]) => has(r, i) && has(r, j));
    if (terms.length === 0) return "";
    const uses = (c: number) => terms.some(([i, j]) => i === c || j === c);
    return [
      `{ const i = DI[om + ${r}];`,
      ...columns.filter(uses).map((c) => `const g${c} = G[o + ${place(r, c)}];`),
      ...b.filter((c) => terms.some(([, j]) => j === c)).map((c) => `const h${c} = g${c} * i;`),
      ...terms.map(([i, j]) => `s${i}_${j} += g${i} * h${j};`),
      "}",
    ].join(" ");
  };
  return compile<Squares>(
    ["from", "to", "matrix"],
    [
      "const G = d.G, DI = d.DI;",
      ...pairs.map(([i, j]) => `let s${i}_${j} = 0;`),
      "for (let t = from; t < to; t += 1) {",
      `const o = t * ${stored}, om = t * ${rows};`,
      ...each(rows, row),
      "}",
      ...pairs.map(([i, j]) => `matrix[${i * width + j}] -= s${i}_${j};`),
    ].join("\n"),
  );
}

function projectKernel(
  rows: number,
  { has, place, stored }: BorderPattern,
  columns: readonly number[],
): Range {
  const rowsOf = (c: number) => Array.from({ length: rows }, (_, r) => r).filter((r) => has(r, c));
  return compile<Range>(
    ["from", "to"],
    [
      "const G = d.G, DI = d.DI, DY = d.DY, AW = d.AW;",
      ...columns.map((c) => `let s${c} = 0;`),
      "for (let t = from; t < to; t += 1) {",
      `const o = t * ${stored}, om = t * ${rows};`,
      ...each(rows, (r) => `const u${r} = DI[om + ${r}] * DY[om + ${r}];`),
      ...columns.map((c) => `s${c} += ${sum(rowsOf(c).map((r) => `G[o + ${place(r, c)}] * u${r}`))};`),
      "}",
      ...columns.map((c) => `AW[${c}] -= s${c};`),
    ].join("\n"),
  );
}

function combineKernel(
  rows: number,
  { has, place, stored }: BorderPattern,
  columns: readonly number[],
): Range {
  const row = (r: number) => {
    const terms = columns.filter((c) => has(r, c)).map((c) => `G[o + ${place(r, c)}] * w${c}`);
    return terms.length === 0 ? "" : `DY[om + ${r}] -= ${terms.join(" + ")};`;
  };
  return compile<Range>(
    ["from", "to"],
    [
      "const G = d.G, DY = d.DY, DW = d.DW;",
      ...columns.map((c) => `const w${c} = DW[${c}];`),
      "for (let t = from; t < to; t += 1) {",
      `const o = t * ${stored}, om = t * ${rows};`,
      ...each(rows, row),
      "}",
    ].join("\n"),
  );
}
