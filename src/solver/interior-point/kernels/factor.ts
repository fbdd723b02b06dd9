import type { Template } from "../template.ts";
import type { Elimination } from "./elimination.ts";
import { coefficientName, compile, loop, maskName, type Sweep, sum } from "./source.ts";
import type { Work } from "./work.ts";

/**
 * Where a sum over all blocks goes in the border's matrix: carried columns a ≥ b. Sizes enter with a
 * minus sign (their corner is −K), long rows with plus.
 */
export interface BorderSum {
  readonly a: number;
  readonly b: number;
}

/** @returns −1, or the block whose pivot is not positive */
type Factor = (
  work: Work,
  memory: Float64Array,
  from: number,
  to: number,
  rho: number,
  delta: number,
) => number;

export interface FactorKernel extends Sweep<Factor> {
  /** One sum in `work.AC` for each. */
  readonly sums: readonly BorderSum[];
}

/**
 * θ of each column, N = A·θ·Aᵀ + δ of each block with what the block before leaves, its factor
 * L·D·Lᵀ, and V = L⁻¹·C. Sizes' corner is summed as e·H·θ·r·rᵀ, which is what e − e²θ amounts to
 * without its cancellation.
 */
export function factorKernel(template: Template, elimination: Elimination): FactorKernel {
  const { columns: n, rows: m, limit, own, back } = template;
  const { backRows, hasN, hasL, hasC, hasV, hasT } = elimination;
  const lines: string[] = [];
  const limitsOf = Array.from({ length: n }, (_, j) =>
    limit.flatMap(({ column }, l) => (column === j ? [l] : [])),
  );
  limit.forEach((_, l) => {
    lines.push(`const e${l} = Z[o + ${n + l}] / X[o + ${n + l}];`);
  });
  for (let j = 0; j < n; j += 1) {
    lines.push(
      `const x${j} = X[o + ${j}], h${j} = Z[o + ${j}] / x${j} + (x${j} > 10 ? 10 * rho / x${j} : rho);`,
      `const th${j} = ${maskName(template, j)} / (${sum([`h${j}`, ...limitsOf[j].map((l) => `e${l}`)])}); TH[oc + ${j}] = th${j};`,
    );
  }
  const sums = borderSums(template, limitsOf, lines);

  // N by columns, lower triangle.
  const ownOf = (column: number) => own.filter((entry) => entry.column === column);
  for (let k = 0; k < m; k += 1) {
    for (let i = k; i < m; i += 1) {
      if (!hasN(i, k)) continue;
      const terms: string[] = [];
      for (let j = 0; j < n; j += 1) {
        const a = ownOf(j).find(({ row }) => row === i);
        const b = ownOf(j).find(({ row }) => row === k);
        if (a === undefined || b === undefined) continue;
        terms.push(`${coefficientName(a.value)} * ${coefficientName(b.value)} * th${j}`);
      }
      for (const a of back) {
        for (const b of back) {
          if (a.row === i && b.row === k && a.column === b.column)
            terms.push(`b${a.at} * b${b.at} * pth${a.column}`);
        }
      }
      if (i === k) terms.push(`delta / Math.max(1, 0.1 * Math.abs(Y[om + ${i}]))`);
      const earlier = hasT(i, k) ? ` - c${i}_${k}` : "";
      lines.push(`let m${i}_${k} = ${sum(terms)}${earlier};`);
    }
  }
  // A filled entry starts at zero.
  for (let k = 0; k < m; k += 1) {
    for (let i = k + 1; i < m; i += 1) if (hasL(i, k) && !hasN(i, k)) lines.push(`let m${i}_${k} = 0;`);
  }
  for (let k = 0; k < m; k += 1) {
    const before = Array.from({ length: k }, (_, p) => p).filter((p) => hasL(k, p));
    const less = before.map((p) => ` - m${k}_${p} * l${k}_${p}`).join("");
    lines.push(
      `const d${k} = Math.max(m${k}_${k}${less}, 1e-14 * m${k}_${k});`,
      `if (!(d${k} > 0)) return t;`,
      `const i${k} = 1 / d${k}; DI[om + ${k}] = i${k};`,
    );
    for (let i = k + 1; i < m; i += 1) {
      if (!hasL(i, k)) continue;
      const both = before.filter((p) => hasL(i, p));
      if (both.length > 0)
        lines.push(`m${i}_${k} -= ${both.map((p) => `m${i}_${p} * l${k}_${p}`).join(" + ")};`);
      lines.push(
        `const l${i}_${k} = m${i}_${k} * i${k}; LV[ol + ${elimination.placeOfL(i, k)}] = l${i}_${k};`,
      );
    }
  }
  for (const next of backRows) {
    for (let i = 0; i < m; i += 1) {
      if (!hasV(i, next)) continue;
      const terms: string[] = [];
      if (hasC(i, next)) {
        for (const entry of back) {
          if (entry.row !== next) continue;
          const a = own.find((item) => item.row === i && item.column === entry.column);
          if (a !== undefined) terms.push(`${coefficientName(a.value)} * th${entry.column} * n${entry.at}`);
        }
      }
      const less = Array.from({ length: i }, (_, p) => p)
        .filter((p) => hasL(i, p) && hasV(p, next))
        .map((p) => ` - l${i}_${p} * u${p}_${next}`)
        .join("");
      lines.push(
        `const u${i}_${next} = ${sum(terms)}${less}; LV[ol + ${elimination.placeOfV(i, next)}] = u${i}_${next};`,
      );
    }
  }
  const handed: string[] = [];
  for (const a of backRows) {
    for (const b of backRows) {
      if (b > a || !hasT(a, b)) continue;
      handed.push(`c${a}_${b}`);
      const terms = Array.from({ length: m }, (_, i) => i)
        .filter((i) => hasV(i, a) && hasV(i, b))
        .map((i) => `u${i}_${a} * u${i}_${b} * i${i}`);
      lines.push(`c${a}_${b} = ${sum(terms)};`);
    }
  }
  for (const column of new Set(back.map((entry) => entry.column))) {
    handed.push(`pth${column}`);
    lines.push(`pth${column} = th${column};`);
  }
  const run = compile<Factor>(
    ["M", "from", "to", "rho", "delta"],
    loop({
      template,
      arrays: ["X", "Z", "Y", "TH", "DI", "LV", "AC"],
      handed,
      before: sums.map((_, s) => `let s${s} = 0;`),
      each: [`const ol = t * ${elimination.stored};`, ...lines],
      after: [...sums.map((_, s) => `AC[${s}] += s${s};`), "return -1;"],
    }),
  );
  return { run, memory: new Float64Array(handed.length), sums };
}

/** Sums of the border: sizes × sizes, long rows × long rows, sizes × long rows. */
function borderSums(template: Template, limitsOf: readonly number[][], lines: string[]): BorderSum[] {
  const sums: (BorderSum & { readonly terms: string[] })[] = [];
  const place = (a: number, b: number) => {
    const [high, low] = a >= b ? [a, b] : [b, a];
    let found = sums.find((item) => item.a === high && item.b === low);
    if (found === undefined) {
      found = { a: high, b: low, terms: [] };
      sums.push(found);
    }
    return found.terms;
  };
  const ofSize = (size: number) =>
    template.carried.findIndex((item) => item.kind === "size" && item.size === size);
  const ofLong = (row: number) =>
    template.carried.findIndex((item) => item.kind === "long" && item.row === row);
  template.limit.forEach(({ column, sign, terms }, l) => {
    if (terms.length === 0) return;
    const others = limitsOf[column].filter((other) => other !== l);
    lines.push(
      `const g${l} = e${l} * th${column} * (${sum([`h${column}`, ...others.map((other) => `e${other}`)])});`,
    );
    terms.forEach((a, i) => {
      for (const b of terms.slice(0, i + 1)) {
        place(ofSize(a.size), ofSize(b.size)).push(
          `g${l} * ${coefficientName(a.value)} * ${coefficientName(b.value)}`,
        );
      }
    });
    // Two limits on one column: −e₁e₂θ·(r₁r₂ᵀ + r₂r₁ᵀ), once for each ordered pair.
    for (const other of others) {
      for (const a of terms) {
        for (const b of template.limit[other].terms) {
          if (ofSize(a.size) < ofSize(b.size) || (a.size === b.size && other > l)) continue;
          const factor = a.size === b.size ? "2 * " : "";
          place(ofSize(a.size), ofSize(b.size)).push(
            `${sign * template.limit[other].sign < 0 ? "" : "-"}${factor}e${l} * e${other} * th${column} * ${coefficientName(a.value)} * ${coefficientName(b.value)}`,
          );
        }
      }
    }
    for (const entry of template.long) {
      if (entry.column !== column) continue;
      for (const term of terms) {
        place(ofSize(term.size), ofLong(entry.row)).push(
          `${sign < 0 ? "-" : ""}e${l} * th${column} * ${coefficientName(term.value)} * ${coefficientName(entry.value)}`,
        );
      }
    }
  });
  template.long.forEach((a, i) => {
    for (const b of template.long.slice(0, i + 1)) {
      if (a.column !== b.column) continue;
      const value = `th${a.column} * ${coefficientName(a.value)} * ${coefficientName(b.value)}`;
      place(ofLong(a.row), ofLong(b.row)).push(value);
    }
  });
  sums.forEach(({ terms }, s) => {
    lines.push(`s${s} += ${sum(terms)};`);
  });
  return sums.map(({ a, b }) => ({ a, b }));
}
