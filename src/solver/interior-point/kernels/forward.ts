import type { Template } from "../template.ts";
import type { Elimination } from "./elimination.ts";
import { coefficientName, compile, loop, maskName, sum } from "./source.ts";
import type { Work } from "./work.ts";

/**
 * Right-hand sides of a direction, eliminated forwards: f into DX of the columns, what products lack
 * over x into KP, the half-solved rows into DY; AW gains the sums of the carried columns.
 *
 * @param second 1 where the second-order part of the predictor, in DX and KP, counts against the products, else 0
 */
export type ForwardKernel = (work: Work, from: number, to: number, target: number, second: number) => void;

export function forwardKernel(template: Template, elimination: Elimination): ForwardKernel {
  const { columns: n, rows: m, limit, own, back, long, carried } = template;
  const { backRows, hasL, hasV } = elimination;
  const lines: string[] = [];
  // The predictor's change of a multiplier follows from its KP and DX.
  const wanted = (p: number) =>
    `${maskName(template, p)} * (target - X[o + ${p}] * Z[o + ${p}] - second * DX[o + ${p}] * (KP[o + ${p}] - Z[o + ${p}] * DX[o + ${p}] / X[o + ${p}])) / X[o + ${p}]`;
  limit.forEach((_, l) => {
    lines.push(
      `const z${l} = ${wanted(n + l)}; KP[o + ${n + l}] = z${l};`,
      `const e${l} = Z[o + ${n + l}] / X[o + ${n + l}], p${l} = z${l} - e${l} * RL[oq + ${l}];`,
    );
  });
  for (let j = 0; j < n; j += 1) {
    const limits = limit.flatMap(({ column, sign }, l) =>
      column === j ? [`${sign < 0 ? "+" : "-"} p${l}`] : [],
    );
    lines.push(
      `const q${j} = ${wanted(j)}; KP[o + ${j}] = q${j};`,
      `const f${j} = q${j} - RD[oc + ${j}] ${limits.join(" ")}; DX[o + ${j}] = f${j};`,
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
        hasL(i, p) ? [` - LV[ol + ${elimination.placeOfL(i, p)}] * a${p}`] : [],
      ),
    ];
    lines.push(`const a${i} = RP[om + ${i}]${less.join("")}; DY[om + ${i}] = a${i};`);
  }
  for (let i = 0; i < m; i += 1) lines.push(`const ad${i} = a${i} * DI[om + ${i}];`);
  for (const next of backRows) {
    const tie = Array.from({ length: m }, (_, i) => i).flatMap((i) =>
      hasV(i, next) ? [`LV[ol + ${elimination.placeOfV(i, next)}] * ad${i}`] : [],
    );
    lines.push(`c${next} = ${sum(tie)};`);
  }
  const columns = [...new Set(back.map((entry) => entry.column))];
  for (const column of columns) lines.push(`ptf${column} = tf${column};`);
  return compile<ForwardKernel>(
    ["from", "to", "target", "second"],
    loop({
      template,
      arrays: ["X", "Z", "DX", "KP", "DY", "TH", "RD", "RP", "RL", "DI", "LV", "AW"],
      before: [
        ...sums.map((_, s) => `let s${s} = 0;`),
        ...backRows.map((next) => `let c${next} = 0;`),
        ...columns.map((column) => `let ptf${column} = 0;`),
      ],
      each: [`const ol = t * ${elimination.stored};`, ...lines],
      after: sums.map((item, s) => `AW[${item.carried}] += s${s};`),
    }),
  );
}
