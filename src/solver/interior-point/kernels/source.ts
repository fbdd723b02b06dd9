import type { Coefficient, Template } from "../template.ts";

/**
 * One block's arithmetic is written out as straight lines of JavaScript for the template at hand:
 * loops over a handful of entries cost several times the arithmetic itself. A kernel is a function of
 * the work arrays and a range of blocks; its text depends on the template's shape alone, so that equal
 * shapes share one compiled function for the life of the process.
 */
const compiled = new Map<string, unknown>();
/** Some ten shapes of kernels; beyond that the oldest are dropped. */
const mostKept = 400;

/**
 * A kernel that goes through a segment in several calls, near blocks by near blocks. What it hands from
 * one block to the next stays in `memory` between the calls, which is zero before the first.
 */
export interface Sweep<Run> {
  readonly run: Run;
  readonly memory: Float64Array;
}

/** Compiles a function body once. `parameters` are its names; `d` holds the work arrays. */
export function compile<F>(parameters: readonly string[], body: string): F {
  const key = `${parameters.join()}\n${body}`;
  let kernel = compiled.get(key);
  if (kernel === undefined) {
    // The text is made of template indices alone: nothing that a user wrote enters it.
    kernel = new Function("d", ...parameters, body);
    compiled.set(key, kernel);
    if (compiled.size > mostKept) compiled.delete(compiled.keys().next().value as string);
  }
  return kernel as F;
}

/** Places of constants and of values by block: k3 and v3. */
export const coefficientName = ({ varies, at }: Coefficient) => `${varies ? "v" : "k"}${at}`;

/** Name of a pair's mask; `live` where the pair is in every block. */
export const maskName = (template: Template, pair: number) =>
  template.mask[pair] < 0 ? "live" : `w${template.mask[pair]}`;

/** Joins terms with plus; 0 if there are none. */
export const sum = (terms: readonly string[]) => (terms.length === 0 ? "0" : terms.join(" + "));

/** Names of one kind that a text uses, with their numbers. */
export function used(text: string, letter: string): number[] {
  const found = new Set<number>();
  for (const match of text.matchAll(new RegExp(`\\b${letter}(\\d+)\\b`, "g"))) found.add(Number(match[1]));
  return [...found].sort((a, b) => a - b);
}

interface Loop {
  readonly template: Template;
  readonly arrays: readonly string[];
  /** Variables that one block leaves to the next, kept in M. */
  readonly handed?: readonly string[];
  /** Statements before and after the loop. */
  readonly before?: readonly string[];
  readonly each: readonly string[];
  readonly after?: readonly string[];
  readonly backwards?: boolean;
}

/**
 * A loop over blocks `from` ≤ t < `to` that declares what its body uses: constants k, values by block
 * v, masks w, entries of the block before b and of the next one n, direct entries r.
 */
export function loop({
  template,
  arrays,
  handed = [],
  before = [],
  each,
  after = [],
  backwards = false,
}: Loop): string {
  const body = each.join("\n");
  const text = `${before.join("\n")}\n${body}\n${after.join("\n")}`;
  const declare = (letter: string, from: string) =>
    used(body, letter).map((i) => `const ${letter}${i} = ${from.replace("#", String(i))};`);
  const head = backwards
    ? "for (let t = to - 1; t >= from; t -= 1) {"
    : "for (let t = from; t < to; t += 1) {";
  const { columns, rows, limits } = template;
  return [
    ...arrays.map((name) => `const ${name} = d.${name};`),
    "const K = d.K, V = d.V, MK = d.MK, LIVE = d.LIVE, BK = d.BK, DR = d.DR, S = d.strides;",
    "const nv = S.varying, nm = S.mask, nb = S.back, nd = S.direct;",
    ...used(text, "k").map((i) => `const k${i} = K[${i}];`),
    ...handed.map((name, i) => `let ${name} = M[${i}];`),
    ...before,
    head,
    `const o = t * ${columns + limits}, oc = t * ${columns}, om = t * ${rows}, oq = t * ${limits};`,
    "const live = LIVE[t];",
    ...declare("v", "V[t * nv + #]"),
    ...declare("w", "MK[t * nm + #]"),
    ...declare("b", "BK[t * nb + #]"),
    ...declare("n", "BK[(t + 1) * nb + #]"),
    ...declare("r", "DR[t * nd + #]"),
    body,
    "}",
    ...handed.map((name, i) => `M[${i}] = ${name};`),
    ...after,
  ].join("\n");
}
