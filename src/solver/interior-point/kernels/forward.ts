import type { Template } from "../template.ts";
import type { Elimination } from "./elimination.ts";
import { columnResidual, limitResidual, rowResidual } from "./expressions.ts";
import { coefficientName, compile, loop, maskName, type Sweep, sum } from "./source.ts";
import type { Work } from "./work.ts";

/**
 * Right-hand sides of a direction, eliminated forwards: f into DX of the columns, what products lack
 * over x into DZ, the half-solved rows into DY; AW gains the sums of the carried columns. Residuals are
 * found again rather than kept: they cost less than the memory.
 *
 * @param second 1 where the second-order part of the predictor, in DX and DZ, counts against the products, else 0
 */
type Forward = (
  work: Work,
  memory: Float64Array,
  from: number,
  to: number,
  target: number,
  second: number,
) => void;

export function forwardKernel(template: Template, elimination: Elimination): Sweep<Forward> {
  const { columns: n, rows: m, limits: q, limit, own, back, long, carried } = template;
  const { backRows, hasL, hasV } = elimination;
  const lines: string[] = [];
  const backColumns = [...new Set(back.map((entry) => entry.column))];
  for (let p = 0; p < n + q; p += 1) {
    const absent = p < n ? `${maskName(template, p)} * ` : "";
    lines.push(
      `const X${p} = X[o + ${p}], i${p} = 1 / X${p}, x${p} = ${absent}X${p}, z${p} = Z[o + ${p}];`,
      `const q${p} = ${maskName(template, p)} * ((target - second * DX[o + ${p}] * DZ[o + ${p}]) * i${p} - z${p}); DZ[o + ${p}] = q${p};`,
    );
  }
  for (let i = 0; i < m; i += 1) lines.push(`const a${i} = Y[om + ${i}];`);
  for (const row of backRows) lines.push(`const y${row} = Y[om + ${m + row}];`);
  limit.forEach((_, l) => {
    lines.push(
      `const e${l} = z${n + l} * i${n + l}, p${l} = q${n + l} - e${l} * ${limitResidual(template, l).value};`,
    );
  });
  for (let j = 0; j < n; j += 1) {
    const limits = limit.flatMap(({ column, sign }, l) =>
      column === j ? [`${sign < 0 ? "+" : "-"} p${l}`] : [],
    );
    lines.push(
      `const f${j} = q${j} - ${columnResidual(template, j).value} ${limits.join(" ")}; DX[o + ${j}] = f${j};`,
      `const tf${j} = TH[oc + ${j}] * f${j};`,
    );
  }
  const sums: { readonly carried: number; readonly terms: string[] }[] = [];
  carried.forEach((item, c) => {
    const terms: string[] = [];
    if (item.kind === "size") {
      limit.forEach(({ column, sign, terms: sizes }, l) => {
        for (const term of sizes) {
          if (term.size !== item.size) continue;
          terms.push(`-${coefficientName(term.value)} * (p${l} ${sign < 0 ? "-" : "+"} e${l} * tf${column})`);
        }
      });
    } else if (item.kind === "long") {
      for (const entry of long) {
        if (entry.row === item.row) terms.push(`-${coefficientName(entry.value)} * tf${entry.column}`);
      }
    }
    if (terms.length > 0) sums.push({ carried: c, terms });
  });
  sums.forEach(({ terms }, s) => {
    lines.push(`s${s} += ${sum(terms)};`);
  });
  for (let i = 0; i < m; i += 1) {
    const less = [
      ...own.flatMap((entry) =>
        entry.row === i ? [` - ${coefficientName(entry.value)} * tf${entry.column}`] : [],
      ),
      ...back.flatMap((entry) => (entry.row === i ? [` - b${entry.at} * ptf${entry.column}`] : [])),
      ...(backRows.includes(i) ? [` - c${i}`] : []),
      ...Array.from({ length: i }, (_, p) => p).flatMap((p) =>
        hasL(i, p) ? [` - LV[ol + ${elimination.placeOfL(i, p)}] * h${p}`] : [],
      ),
    ];
    lines.push(`const h${i} = ${rowResidual(template, i).value}${less.join("")}; DY[om + ${i}] = h${i};`);
  }
  for (let i = 0; i < m; i += 1) lines.push(`const hd${i} = h${i} * DI[om + ${i}];`);
  for (const next of backRows) {
    const tie = Array.from({ length: m }, (_, i) => i).flatMap((i) =>
      hasV(i, next) ? [`LV[ol + ${elimination.placeOfV(i, next)}] * hd${i}`] : [],
    );
    lines.push(`c${next} = ${sum(tie)};`);
  }
  for (const column of backColumns) lines.push(`ptf${column} = tf${column}; px${column} = x${column};`);
  const handed = [
    ...backRows.map((next) => `c${next}`),
    ...backColumns.flatMap((column) => [`ptf${column}`, `px${column}`]),
  ];
  const run = compile<Forward>(
    ["M", "from", "to", "target", "second"],
    loop({
      template,
      arrays: ["X", "Z", "DX", "DZ", "Y", "DY", "TH", "B", "C", "DI", "LV", "W", "AW"],
      handed,
      before: [...sums.map((_, s) => `let s${s} = 0;`), ...carried.map((_, c) => `const W${c} = W[${c}];`)],
      each: [`const ol = t * ${elimination.stored}, ok = t * S.cost;`, ...lines],
      after: sums.map((item, s) => `AW[${item.carried}] += s${s};`),
    }),
  );
  return { run, memory: new Float64Array(handed.length) };
}
