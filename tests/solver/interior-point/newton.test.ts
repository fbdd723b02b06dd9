import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { scaleStaircase } from "../../../src/solver/interior-point/scale.ts";
import { type Staircase, staircase } from "../../../src/solver/interior-point/staircase.ts";
import { startAt } from "../../../src/solver/interior-point/starting-point.ts";
import { System } from "../../../src/solver/interior-point/system.ts";
import { anyCase } from "../../support/dispatch-cases.ts";

/**
 * The kernels' text is generated, so it is held against plain loops: a full Newton step from any point
 * must leave of every residual what the proximal terms leave, and bring every product to its target.
 */

/** Largest residuals of rows and columns in blocks, by loops over the template's entries. */
function residuals({ stairs, work, border }: System, segment: { from: number; to: number }) {
  const { template, strides } = stairs;
  const { columns: n, rows: m, limits: q } = template;
  const value = (at: { varies: boolean; at: number }, t: number) =>
    at.varies ? stairs.varying[t * strides.varying + at.at]! : stairs.constants[at.at]!;
  const there = (p: number, t: number) =>
    stairs.live[t] === 1 &&
    (template.mask[p]! < 0 || stairs.mask[t * strides.mask + template.mask[p]!] === 1);
  const carried = (c: number) => {
    const item = template.carried[c]!;
    if (item.kind === "size") return border.sizes.v[item.size]!;
    return item.kind === "link" ? border.link[item.link]! : border.eta[item.row]!;
  };
  let primal = 0;
  let dual = 0;
  for (let t = segment.from; t < segment.to; t += 1) {
    const x = (j: number, at = t) => (there(j, at) ? work.X[at * (n + q) + j]! : 0);
    const row = Float64Array.from({ length: m }, (_, i) => stairs.rhs[t * m + i]!);
    const column = Float64Array.from({ length: n }, (_, j) =>
      template.cost[j]! < 0 ? 0 : stairs.cost[t * strides.cost + template.cost[j]!]!,
    );
    for (const entry of template.own) {
      row[entry.row]! -= value(entry.value, t) * x(entry.column);
      column[entry.column]! -= value(entry.value, t) * work.Y[t * m + entry.row]!;
    }
    for (const entry of template.back) {
      if (t > segment.from)
        row[entry.row]! -= stairs.back[t * strides.back + entry.at]! * x(entry.column, t - 1);
      column[entry.column]! -=
        stairs.back[(t + 1) * strides.back + entry.at]! * work.Y[(t + 1) * m + entry.row]!;
    }
    for (const entry of template.direct)
      row[entry.row]! -= stairs.direct[t * strides.direct + entry.at]! * carried(entry.carried);
    for (const entry of template.long)
      column[entry.column]! -= value(entry.value, t) * border.eta[entry.row]!;
    for (const [l, item] of template.limit.entries()) {
      if (!there(n + l, t)) continue;
      column[item.column]! += item.sign * work.Z[t * (n + q) + n + l]!;
      let room = value(item.rhs, t) - item.sign * x(item.column) - work.X[t * (n + q) + n + l]!;
      for (const term of item.terms) room += value(term.value, t) * border.sizes.v[term.size]!;
      primal = Math.max(primal, Math.abs(room));
    }
    for (const residual of row) primal = Math.max(primal, Math.abs(residual));
    for (let j = 0; j < n; j += 1)
      if (there(j, t)) dual = Math.max(dual, Math.abs(column[j]! - work.Z[t * (n + q) + j]!));
  }
  return { primal, dual };
}

function systemOf(problem: Parameters<typeof formulate>[0]): System | null {
  const stairs = staircase(formulate(problem).program);
  if (typeof stairs === "string") throw new Error(stairs);
  // One segment, so that the links of the test's loops are those of all blocks.
  if (stairs.segments.length !== 1) return null;
  scaleStaircase(stairs as Staircase);
  const system = new System(stairs);
  startAt(system);
  return system;
}

const cases = anyCase();

describe("a step of the method", () => {
  it("measures residuals as plain loops do", () => {
    fc.assert(
      fc.property(cases, (problem) => {
        const system = systemOf(problem);
        if (system === null) return;
        const told = system.advance(0, 0, false);
        const found = residuals(system, system.stairs.segments[0]!);
        // Long rows and sizes are in what is told alone.
        expect(told.primalInfeasibility).toBeGreaterThanOrEqual(found.primal * (1 - 1e-9));
        expect(told.dualInfeasibility).toBeGreaterThanOrEqual(found.dual * (1 - 1e-9) - 1e-12);
      }),
      { numRuns: 15 },
    );
  });

  it("solves Newton's equations: a whole step leaves nothing but the proximal terms", () => {
    fc.assert(
      fc.property(cases, (problem) => {
        const system = systemOf(problem);
        if (system === null) return;
        const before = system.advance(0, 0, false);
        const rho = 1e-10;
        const delta = 1e-10;
        if (!system.factor({ primal: rho, dual: delta })) return;
        system.direction(before.mu, false);
        const size = system.work.DY.reduce((most, value) => Math.max(most, Math.abs(value)), 1);
        system.advance(1, 1, false);
        const after = residuals(system, system.stairs.segments[0]!);
        const rounding = 1e-9 * (1 + before.primalInfeasibility + before.dualInfeasibility) * size;
        expect(after.primal).toBeLessThan(rounding);
        expect(after.dual).toBeLessThan(rounding);
      }),
      { numRuns: 25 },
    );
  });

  it("brings each product to its target where the second-order part is left out", () => {
    fc.assert(
      fc.property(cases, fc.double({ min: 0.1, max: 2, noNaN: true }), (problem, share) => {
        const system = systemOf(problem);
        if (system === null) return;
        const { mu } = system.advance(0, 0, false);
        if (!system.factor({ primal: 1e-9, dual: 1e-6 })) return;
        const target = share * mu;
        system.direction(target, false);
        const { X, Z, DX, DZ } = system.work;
        for (let p = 0; p < X.length; p += 1) {
          if (Z[p] === 0) continue;
          const dz = DZ[p]!;
          const product = X[p]! * Z[p]! + X[p]! * dz + Z[p]! * DX[p]!;
          expect(Math.abs(product - target)).toBeLessThan(1e-9 * (1 + Math.abs(X[p]! * dz)));
        }
      }),
      { numRuns: 10 },
    );
  });
});
