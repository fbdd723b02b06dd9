import type { Template } from "../template.ts";
import type { BorderPattern } from "./border-pattern.ts";
import type { Elimination } from "./elimination.ts";
import { coefficientName, compile, loop, type Sweep, sum } from "./source.ts";
import type { Work } from "./work.ts";

type Carry = (work: Work, memory: Float64Array, from: number, to: number) => void;

/** Carried columns taken by one kernel: a function that is too long is never optimised. */
const together = 6;

/** F of the carried columns and L⁻¹·F, block by block, in groups of columns. */
export function carryKernels(
  template: Template,
  elimination: Elimination,
  pattern: BorderPattern,
): Sweep<Carry>[] {
  const kernels: Sweep<Carry>[] = [];
  for (let first = 0; first < template.carried.length; first += together) {
    const last = Math.min(first + together, template.carried.length);
    kernels.push(carryKernel(template, elimination, pattern, first, last));
  }
  return kernels;
}

function carryKernel(
  template: Template,
  elimination: Elimination,
  pattern: BorderPattern,
  first: number,
  last: number,
): Sweep<Carry> {
  const { columns: n, rows: m, carried, limit, own, back, long, direct } = template;
  const { backRows, hasL, hasV } = elimination;
  const lines: string[] = [];
  const handed: string[] = [];
  const sharedV: string[] = [];
  for (const next of backRows) {
    for (let i = 0; i < m; i += 1) {
      if (!hasV(i, next)) continue;
      sharedV.push(`const u${i}_${next} = LV[ol + ${elimination.placeOfV(i, next)}] * i${i};`);
    }
  }
  const products = new Map<string, string>();
  /** A name for a product of this block, kept for the next block if a row there looks back at the column. */
  const product = (name: string, expression: string, column: number) => {
    if (!products.has(name)) {
      products.set(name, expression);
      lines.push(`const ${name} = ${expression};`);
      if (back.some((entry) => entry.column === column)) handed.push(`p${name}`);
    }
    return name;
  };
  const keep: string[] = [];
  for (let c = first; c < last; c += 1) {
    const terms: string[][] = Array.from({ length: m }, () => []);
    const meet = (name: string, column: number) => {
      for (const entry of own) {
        if (entry.column === column) terms[entry.row].push(`${coefficientName(entry.value)} * ${name}`);
      }
      for (const entry of back) if (entry.column === column) terms[entry.row].push(`b${entry.at} * p${name}`);
      if (back.some((entry) => entry.column === column)) keep.push(`p${name} = ${name};`);
    };
    const item = carried[c];
    if (item.kind === "size") {
      limit.forEach(({ column, sign, terms: sizes }, l) => {
        for (const term of sizes) {
          if (term.size !== item.size) continue;
          const value = `${sign < 0 ? "-" : ""}Z[o + ${n + l}] / X[o + ${n + l}] * TH[oc + ${column}] * ${coefficientName(term.value)}`;
          meet(product(`q${l}_${item.size}`, value, column), column);
        }
      });
    } else if (item.kind === "long") {
      for (const entry of long) {
        if (entry.row !== item.row) continue;
        const value = `TH[oc + ${entry.column}] * ${coefficientName(entry.value)}`;
        meet(product(`y${entry.row}_${entry.column}`, value, entry.column), entry.column);
      }
    }
    for (const entry of direct) if (entry.carried === c) terms[entry.row].push(`r${entry.at}`);
    for (let i = 0; i < m; i += 1) {
      if (!pattern.has(i, c)) continue;
      const earlier = backRows.includes(i) ? ` - c${i}_${c}` : "";
      const less = Array.from({ length: i }, (_, p) => p)
        .filter((p) => hasL(i, p) && pattern.has(p, c))
        .map((p) => ` - l${i}_${p} * g${p}_${c}`)
        .join("");
      lines.push(
        `const g${i}_${c} = ${sum(terms[i])}${earlier}${less}; G[og + ${pattern.place(i, c)}] = g${i}_${c};`,
      );
    }
    for (const next of backRows) {
      handed.push(`c${next}_${c}`);
      const tie = Array.from({ length: m }, (_, i) => i)
        .filter((i) => hasV(i, next) && pattern.has(i, c))
        .map((i) => `u${i}_${next} * g${i}_${c}`);
      keep.push(`c${next}_${c} = ${sum(tie)};`);
    }
  }
  const factor: string[] = [];
  for (let i = 0; i < m; i += 1) {
    factor.push(`const i${i} = DI[om + ${i}];`);
    for (let p = 0; p < i; p += 1) {
      if (hasL(i, p)) factor.push(`const l${i}_${p} = LV[ol + ${elimination.placeOfL(i, p)}];`);
    }
  }
  const run = compile<Carry>(
    ["M", "from", "to"],
    loop({
      template,
      arrays: ["X", "Z", "TH", "DI", "LV", "G"],
      handed,
      each: [
        `const ol = t * ${elimination.stored}, og = t * ${pattern.stored};`,
        ...factor,
        ...sharedV,
        ...lines,
        ...keep,
      ],
    }),
  );
  return { run, memory: new Float64Array(handed.length) };
}
