import type { Template } from "../template.ts";
import type { Elimination } from "./elimination.ts";
import { columnResidual, costName, limitResidual, rowResidual } from "./expressions.ts";
import { coefficientName, compile, loop, maskName, type Sweep, sum } from "./source.ts";
import type { Work } from "./work.ts";

/**
 * Moves the point along DX, DY and DZ, and measures the residuals there, backwards. AW gains, for each
 * carried column, what rows and limits say of it: Σ r·ω + Σ D·y for sizes and links, Σ G·x for long
 * rows. OUT: 0 and 1 the largest primal and dual residual, 2 primal objective, 3 dual objective,
 * 4 the sum of all products x·z. `first` is the segment's first block.
 */
type Residuals = (
  work: Work,
  memory: Float64Array,
  from: number,
  to: number,
  first: number,
  primal: number,
  dual: number,
) => void;

/** @param relative residuals count relative to the largest product in their row or column, if above 1 */
export function residualKernel(
  template: Template,
  elimination: Elimination,
  relative: boolean,
): Sweep<Residuals> {
  const { columns: n, rows: m, limits: q, limit, back, long, carried, direct, cost } = template;
  const { backRows } = elimination;
  const lines: string[] = [];
  // An absent column is kept at 1, which must not enter a row.
  for (let p = 0; p < n + q; p += 1) {
    const absent = p < n ? `${maskName(template, p)} * ` : "";
    lines.push(
      `const X${p} = X[o + ${p}] + primal * DX[o + ${p}], z${p} = Z[o + ${p}] + dual * DZ[o + ${p}]; X[o + ${p}] = X${p}; Z[o + ${p}] = z${p};`,
      `const x${p} = ${absent}X${p}; products += X${p} * z${p};`,
    );
  }
  for (let i = 0; i < m; i += 1)
    lines.push(`const a${i} = Y[om + ${i}] + dual * DY[om + ${i}]; Y[om + ${i}] = a${i};`);
  // The block before moves later, so its columns are moved here for once.
  for (const column of new Set(back.map((entry) => entry.column)))
    lines.push(
      `const px${column} = t > first ? X[o - ${n + q} + ${column}] + primal * DX[o - ${n + q} + ${column}] : 0;`,
    );
  const measure = (value: string, products: readonly string[], most: string) => {
    const size = relative
      ? `Math.abs(${value}) / Math.max(1, ${products.map((product) => `Math.abs(${product})`).join(", ")})`
      : `Math.abs(${value})`;
    lines.push(`${most} = Math.max(${most}, ${size});`);
  };
  for (let i = 0; i < m; i += 1) {
    const { value, products } = rowResidual(template, i);
    lines.push(`const rp${i} = ${value}; dualObjective += B[om + ${i}] * a${i};`);
    measure(`rp${i}`, products, "mostPrimal");
  }
  limit.forEach(({ rhs }, l) => {
    const { value, products } = limitResidual(template, l);
    lines.push(`const rl${l} = ${value}; dualObjective -= ${coefficientName(rhs)} * z${n + l};`);
    measure(`rl${l}`, products, "mostPrimal");
  });
  for (let j = 0; j < n; j += 1) {
    const { value, products } = columnResidual(template, j);
    lines.push(`const rd${j} = ${value};`);
    if (cost[j] >= 0) lines.push(`objective += ${costName(template, j)} * x${j};`);
    measure(`rd${j}`, products, "mostDual");
  }
  const sums: { readonly carried: number; readonly terms: string[] }[] = [];
  carried.forEach((item, c) => {
    const terms: string[] = direct.flatMap((entry) =>
      entry.carried === c ? [`r${entry.at} * a${entry.row}`] : [],
    );
    if (item.kind === "size") {
      limit.forEach(({ terms: sizes }, l) => {
        for (const term of sizes) {
          if (term.size === item.size) terms.push(`${coefficientName(term.value)} * z${n + l}`);
        }
      });
    } else if (item.kind === "long") {
      for (const entry of long) {
        if (entry.row === item.row) terms.push(`${coefficientName(entry.value)} * x${entry.column}`);
      }
    }
    if (terms.length > 0) sums.push({ carried: c, terms });
  });
  sums.forEach(({ terms }, s) => {
    lines.push(`s${s} += ${sum(terms)};`);
  });
  for (const next of backRows) lines.push(`y${next} = a${next};`);
  const handed = backRows.map((next) => `y${next}`);
  const run = compile<Residuals>(
    ["M", "from", "to", "first", "primal", "dual"],
    loop({
      template,
      arrays: ["X", "Z", "DX", "DZ", "Y", "DY", "C", "B", "W", "AW", "OUT"],
      handed,
      before: [
        ...carried.map((_, c) => `const W${c} = W[${c}];`),
        ...sums.map((_, s) => `let s${s} = 0;`),
        "let mostPrimal = OUT[0], mostDual = OUT[1], objective = OUT[2], dualObjective = OUT[3], products = OUT[4];",
      ],
      each: ["const ok = t * S.cost;", ...lines],
      after: [
        ...sums.map((item, s) => `AW[${item.carried}] += s${s};`),
        "OUT[0] = mostPrimal; OUT[1] = mostDual; OUT[2] = objective; OUT[3] = dualObjective; OUT[4] = products;",
      ],
      backwards: true,
    }),
  );
  return { run, memory: new Float64Array(handed.length) };
}
