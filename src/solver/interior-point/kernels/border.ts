import type { Template } from "../template.ts";
import { compile } from "./source.ts";
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

/** Columns taken at once, by twos for squares: a function that is too long is never optimised. */
const together = 6;

export function borderKernels({ rows, carried }: Template): BorderKernels {
  const width = carried.length;
  const groups: number[][] = [];
  for (let first = 0; first < width; first += together) {
    groups.push(Array.from({ length: Math.min(together, width - first) }, (_, i) => first + i));
  }
  const squares = groups.flatMap((a, i) =>
    groups.slice(0, i + 1).map((b) => squareKernel(rows, width, a, b)),
  );
  const projections = groups.map((group) => projectKernel(rows, width, group));
  const combinations = groups.map((group) => combineKernel(rows, width, group));
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

function squareKernel(rows: number, width: number, a: readonly number[], b: readonly number[]): Squares {
  const pairs = a.flatMap((i) => b.filter((j) => j <= i).map((j) => [i, j] as const));
  const columns = [...new Set([...a, ...b])];
  return compile<Squares>(
    ["from", "to", "matrix"],
    [
      "const G = d.G, DI = d.DI;",
      ...pairs.map(([i, j]) => `let s${i}_${j} = 0;`),
      "for (let t = from; t < to; t += 1) {",
      `const o = t * ${rows * width}, om = t * ${rows};`,
      ...each(rows, (r) => `const i${r} = DI[om + ${r}];`),
      ...columns.flatMap((c) => each(rows, (r) => `const g${r}_${c} = G[o + ${r * width + c}];`)),
      ...b.flatMap((c) => each(rows, (r) => `const h${r}_${c} = g${r}_${c} * i${r};`)),
      ...pairs.map(([i, j]) => `s${i}_${j} += ${each(rows, (r) => `g${r}_${i} * h${r}_${j}`).join(" + ")};`),
      "}",
      ...pairs.map(([i, j]) => `matrix[${i * width + j}] -= s${i}_${j};`),
    ].join("\n"),
  );
}

function projectKernel(rows: number, width: number, columns: readonly number[]): Range {
  return compile<Range>(
    ["from", "to"],
    [
      "const G = d.G, DI = d.DI, DY = d.DY, AW = d.AW;",
      ...columns.map((c) => `let s${c} = 0;`),
      "for (let t = from; t < to; t += 1) {",
      `const o = t * ${rows * width}, om = t * ${rows};`,
      ...each(rows, (r) => `const u${r} = DI[om + ${r}] * DY[om + ${r}];`),
      ...columns.map((c) => `s${c} += ${each(rows, (r) => `G[o + ${r * width + c}] * u${r}`).join(" + ")};`),
      "}",
      ...columns.map((c) => `AW[${c}] -= s${c};`),
    ].join("\n"),
  );
}

function combineKernel(rows: number, width: number, columns: readonly number[]): Range {
  return compile<Range>(
    ["from", "to"],
    [
      "const G = d.G, DY = d.DY, DW = d.DW;",
      ...columns.map((c) => `const w${c} = DW[${c}];`),
      "for (let t = from; t < to; t += 1) {",
      `const o = t * ${rows * width}, om = t * ${rows};`,
      ...each(
        rows,
        (r) => `DY[om + ${r}] -= ${columns.map((c) => `G[o + ${r * width + c}] * w${c}`).join(" + ")};`,
      ),
      "}",
    ].join("\n"),
  );
}
