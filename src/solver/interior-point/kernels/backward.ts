import type { Template } from "../template.ts";
import type { Elimination } from "./elimination.ts";
import { carriedPlace, limitResidual } from "./expressions.ts";
import { coefficientName, compile, loop, maskName, type Sweep, sum } from "./source.ts";
import type { Work } from "./work.ts";

/**
 * The direction, substituted backwards from the half-solved rows in DY (less G·DW already) and from
 * DW: DY, DX and, from what products lack in DZ, DZ = DZ − z/x·DX. OUT: 0 largest −dx/x, 1 largest −dz/z, 2 to 5 the sums x·z, x·dz, z·dx, dx·dz.
 */
type Backward = (work: Work, memory: Float64Array, from: number, to: number) => void;

export function backwardKernel(template: Template, elimination: Elimination): Sweep<Backward> {
  const { columns: n, rows: m, limit, own, back, long, carried } = template;
  const { backRows, hasL, hasV } = elimination;
  const lines: string[] = [];
  for (let i = m - 1; i >= 0; i -= 1) {
    const ties = backRows.flatMap((next) =>
      hasV(i, next) ? [` - LV[ol + ${elimination.placeOfV(i, next)}] * y${next}`] : [],
    );
    const less: string[] = [];
    for (let p = i + 1; p < m; p += 1) {
      if (hasL(p, i)) less.push(` - LV[ol + ${elimination.placeOfL(p, i)}] * a${p}`);
    }
    lines.push(
      `const a${i} = (DY[om + ${i}]${ties.join("")}) * DI[om + ${i}]${less.join("")}; DY[om + ${i}] = a${i};`,
    );
  }
  for (let p = 0; p < n + limit.length; p += 1) {
    const absent = p < n ? `${maskName(template, p)} * ` : "";
    lines.push(`const X${p} = X[o + ${p}], x${p} = ${absent}X${p}, z${p} = Z[o + ${p}];`);
  }
  limit.forEach(({ terms }, l) => {
    const value = terms.map(
      (term) => `${coefficientName(term.value)} * D${carriedPlace(template, "size", term.size)}`,
    );
    lines.push(`const s${l} = ${sum(value)};`);
  });
  for (let j = 0; j < n; j += 1) {
    const terms = [
      `DX[o + ${j}]`,
      ...own.flatMap((entry) =>
        entry.column === j ? [`${coefficientName(entry.value)} * a${entry.row}`] : [],
      ),
      ...back.flatMap((entry) => (entry.column === j ? [`n${entry.at} * y${entry.row}`] : [])),
      ...long.flatMap((entry) =>
        entry.column === j
          ? [`${coefficientName(entry.value)} * D${carriedPlace(template, "long", entry.row)}`]
          : [],
      ),
      ...limit.flatMap(({ column, sign, terms: sizes }, l) =>
        column === j && sizes.length > 0 ? [`${sign < 0 ? "-" : ""}z${n + l} / X${n + l} * s${l}`] : [],
      ),
    ];
    lines.push(`const d${j} = TH[oc + ${j}] * (${sum(terms)});`);
  }
  limit.forEach(({ column, sign, terms }, l) => {
    const size = terms.length > 0 ? ` + s${l}` : "";
    lines.push(
      `const d${n + l} = ${maskName(template, n + l)} * (${limitResidual(template, l).value} ${sign < 0 ? "+" : "-"} d${column}${size});`,
    );
  });
  for (let p = 0; p < n + limit.length; p += 1) {
    lines.push(
      `const q${p} = d${p} / X${p}, dz${p} = DZ[o + ${p}] - z${p} * q${p};`,
      `DX[o + ${p}] = d${p}; DZ[o + ${p}] = dz${p}; reachX = Math.max(reachX, -q${p});`,
      // Dividing where it is needed alone: few multipliers reach further than those before.
      `if (-dz${p} > reachZ * z${p}) reachZ = -dz${p} / (z${p} + 1e-300);`,
      `xz += X${p} * z${p}; xdz += X${p} * dz${p}; zdx += z${p} * d${p}; dxdz += d${p} * dz${p};`,
    );
  }
  for (const next of backRows) lines.push(`y${next} = a${next};`);
  const handed = backRows.map((next) => `y${next}`);
  const run = compile<Backward>(
    ["M", "from", "to"],
    loop({
      template,
      arrays: ["X", "Z", "DX", "DZ", "DY", "TH", "DI", "LV", "W", "DW", "OUT"],
      handed,
      before: [
        ...carried.map((_, c) => `const D${c} = DW[${c}], W${c} = W[${c}];`),
        "let reachX = OUT[0], reachZ = OUT[1], xz = OUT[2], xdz = OUT[3], zdx = OUT[4], dxdz = OUT[5];",
      ],
      each: [`const ol = t * ${elimination.stored};`, ...lines],
      after: ["OUT[0] = reachX; OUT[1] = reachZ; OUT[2] = xz; OUT[3] = xdz; OUT[4] = zdx; OUT[5] = dxdz;"],
      backwards: true,
    }),
  );
  return { run, memory: new Float64Array(handed.length) };
}
