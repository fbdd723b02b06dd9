import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import type { DispatchCase } from "../../../../src/core/dispatch/case.ts";
import { formulate } from "../../../../src/core/dispatch/formulate.ts";
import { type LpSolver, solveOnce } from "../../../../src/core/dispatch/program.ts";
import { readSizes } from "../../../../src/core/dispatch/read-plan.ts";
import { verify } from "../../../../src/core/dispatch/verify.ts";
import { planOfYear } from "../../../../src/core/study/robust/plan-of-year.ts";
import { robustProgram } from "../../../../src/core/study/robust/robust-program.ts";
import { loadHighs } from "../../../../src/solver/highs.ts";
import { interiorPoint } from "../../../../src/solver/interior-point/interior-point.ts";
import { expectClose } from "../../../support/close.ts";
import { anyCase, backup, collector, dispatchCase, field, network } from "../../../support/dispatch-cases.ts";

let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

const runs = { numRuns: Number(process.env.RUNS ?? 25) };

/** The least cost of one case and its sizes. */
function plain(problem: DispatchCase) {
  const formulation = formulate(problem, { keepSizeColumns: true });
  const answer = solveOnce(highs, formulation.program);
  expect(answer.status).toBe("optimal");
  return { cost: answer.objective, sizes: readSizes(formulation, answer.primal) };
}

interface Paths {
  readonly sun: number;
  readonly fuel: number;
  readonly demand: number;
}

/** The year as it may turn out. */
const turned = (year: DispatchCase, { sun, fuel, demand }: Paths): DispatchCase => ({
  ...year,
  networks: year.networks.map((item) => ({ ...item, fixed_kW: item.fixed_kW.map((heat) => demand * heat) })),
  fields: year.fields.map((item) => ({
    ...item,
    yield_kW_per_m2: item.yield_kW_per_m2.map((heat) => sun * heat),
  })),
  backups: year.backups.map((item) => ({
    ...item,
    heatPrice_per_kWh: item.heatPrice_per_kWh.map((price) => fuel * price),
  })),
});

const anyPaths = fc.record({
  sun: fc.double({ min: 0.5, max: 1.2, noNaN: true }),
  fuel: fc.double({ min: 0.4, max: 2, noNaN: true }),
  demand: fc.double({ min: 0.6, max: 1.3, noNaN: true }),
});

/**
 * A day of constant demand, 12 hours of sun at 0.5 kW/m²: a m² gives 6 kWh, and a demand of D kW takes
 * all of it up to 2·D m².
 */
const day = (demand_kW: number, fuel: number, area: number) =>
  dispatchCase(24, {
    networks: [network("n", new Float64Array(24).fill(demand_kW))],
    collectors: [collector(area)],
    fields: [field(new Float64Array(24).fill(0.5, 0, 12))],
    backups: [backup(fuel)],
  });

/** Σ p · what each year costs if known. */
const expectedIfKnown = ({ known }: ReturnType<typeof robustProgram>, p: readonly number[]) =>
  known.reduce((all, { cost }, y) => all + p[y]! * cost, 0);

describe("robustProgram(cases, probabilities), figures by hand", () => {
  // Fuel at 0.02 or 0.06, aperture at 0.20 a m². A m² saves 0.12 or 0.36, 0.24 expected: all 2000 m² that
  // the demand can take. Common: 400 + 0.04 · 12 000 = 880. Known: cheap fuel builds nothing and costs 480,
  // dear fuel costs 400 + 0.06 · 12 000 = 1120: 800 expected. Knowing is worth 80.
  it("chooses between two price paths and says what knowing is worth", () => {
    const years = [day(1000, 0.02, 0.2), day(1000, 0.06, 0.2)];
    const half = [0.5, 0.5];
    const found = robustProgram(years, half, { solver: highs });
    expectClose(found.common.plan.sizes.fields_m2[0]!, 2000, 1e-9);
    expectClose(found.common.cost, 880, 1e-9);
    expectClose(found.known[0]!.cost, 480, 1e-9);
    expectClose(found.known[0]!.plan.sizes.fields_m2[0]!, 0, 1e-9);
    expectClose(found.known[1]!.cost, 1120, 1e-9);
    expectClose(found.common.cost - expectedIfKnown(found, half), 80, 1e-9);
  });

  // Demand of 600 or 1000 kW with fuel at 0.04, aperture at 0.20: the first 1200 m² are used in both years
  // and save 0.24, the next 800 in one of them and save 0.12 expected. As with the newspapers of the textbook,
  // the common size stops where the chance of use falls below the cost. Common: 240 + (288 + 672)/2 = 720.
  // Known: 240 + 288 = 528 and 400 + 480 = 880, 704 expected. With the 2000 m² of the second year: 784.
  it("stops where the chance that one more unit is used falls below its cost", () => {
    const years = [day(600, 0.04, 0.2), day(1000, 0.04, 0.2)];
    const half = [0.5, 0.5];
    const { sizes: own } = plain(years[1]!);
    for (const solver of [highs, interiorPoint]) {
      const found = robustProgram(years, half, { solver, own });
      expectClose(found.common.plan.sizes.fields_m2[0]!, 1200, 1e-6);
      expectClose(found.common.cost, 720, 1e-7);
      expectClose(found.common.cost - expectedIfKnown(found, half), 16, 1e-5);
      expectClose(found.atOwn!.plan.sizes.fields_m2[0]!, 2000, 1e-9);
      expectClose(found.atOwn!.cost - found.common.cost, 64, 1e-5);
    }
  });

  it("weighs the years by their probabilities", () => {
    const years = [day(600, 0.04, 0.2), day(1000, 0.04, 0.2)];
    // The last 800 m² save 0.24 with probability p, so they pay from p = 0.2/0.24 = 5/6 on.
    const area = (p: number) =>
      robustProgram(years, [1 - p, p], { solver: highs }).common.plan.sizes.fields_m2[0]!;
    expectClose(area(0.83), 1200, 1e-9);
    expectClose(area(0.84), 2000, 1e-9);
  });
});

describe("robustProgram(cases, probabilities)", () => {
  it("never finds that knowing costs, or that other sizes do better", () => {
    let worthKnowing = 0;
    let worthCommon = 0;
    fc.assert(
      fc.property(
        anyCase(),
        anyPaths,
        anyPaths,
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        (year, a, b, p) => {
          const years = [turned(year, a), turned(year, b)];
          const shares = [p, 1 - p];
          const found = robustProgram(years, shares, { solver: highs, own: plain(year).sizes });
          const scale = 1 + Math.abs(found.common.cost);
          const knowing = found.common.cost - expectedIfKnown(found, shares);
          const common = found.atOwn!.cost - found.common.cost;
          expect(knowing).toBeGreaterThanOrEqual(-1e-7 * scale);
          expect(common).toBeGreaterThanOrEqual(-1e-7 * scale);
          if (knowing > 1e-4 * scale) worthKnowing += 1;
          if (common > 1e-4 * scale) worthCommon += 1;
          const { primalResidual, relativeGap } = verify(
            found.common.formulation.program,
            found.common.primal,
            found.common.answer.rowDual,
          );
          expect(primalResidual).toBeLessThanOrEqual(1e-5);
          expect(relativeGap).toBeLessThanOrEqual(1e-7);
        },
      ),
      runs,
    );
    // Without cases in which they are above 0 the bounds would prove little.
    expect(worthKnowing).toBeGreaterThan(0);
    expect(worthCommon).toBeGreaterThan(0);
  });

  it("of one certain year is the plain program, and so are several equal ones", () => {
    fc.assert(
      fc.property(anyCase(), fc.constantFrom([1], [0.3, 0.7], [0.2, 0.2, 0.6]), (year, shares) => {
        const { cost } = plain(year);
        const found = robustProgram(
          shares.map(() => year),
          shares,
          { solver: highs },
        );
        const scale = 1 + Math.abs(cost);
        expect(Math.abs(found.common.cost - cost)).toBeLessThanOrEqual(1e-7 * scale);
        expect(Math.abs(found.common.cost - expectedIfKnown(found, shares))).toBeLessThanOrEqual(
          1e-7 * scale,
        );
      }),
      runs,
    );
  });

  it("does not mind the order of the years", () => {
    fc.assert(
      fc.property(anyCase(), anyPaths, anyPaths, (year, a, b) => {
        const [first, second] = [turned(year, a), turned(year, b)];
        const one = robustProgram([year, first, second], [0.5, 0.3, 0.2], { solver: highs });
        const other = robustProgram([second, year, first], [0.2, 0.5, 0.3], { solver: highs });
        const scale = 1 + Math.abs(one.common.cost);
        expect(Math.abs(one.common.cost - other.common.cost)).toBeLessThanOrEqual(1e-7 * scale);
        expect(Math.abs(one.known[1]!.cost - other.known[2]!.cost)).toBeLessThanOrEqual(1e-7 * scale);
      }),
      runs,
    );
  });

  it("gives each year hours of its own that close, and costs that add up to the whole", () => {
    fc.assert(
      fc.property(anyCase(), anyPaths, (year, a) => {
        const years = [year, turned(year, a)];
        const { common } = robustProgram(years, [0.4, 0.6], { solver: highs });
        const plans = years.map((_, y) => planOfYear(common.formulation, years, y, common.primal));
        plans.forEach((plan, y) => {
          plan.hours.networks.forEach((n, k) => {
            for (let t = 0; t < years[y]!.blocks; t += 1) {
              const supply =
                n.solar_kW[t]! + n.backup_kW[t]! + n.discharge_kW[t]! + n.stepIn_kW[t]! + n.unmet_kW[t]!;
              const use = n.demand_kW[t]! + n.charge_kW[t]! + n.stepOut_kW[t]!;
              expect(Math.abs(supply - use)).toBeLessThanOrEqual(1e-6 * (1 + Math.abs(use)));
              expect(n.demand_kW[t]).toBeGreaterThanOrEqual(years[y]!.networks[k]!.fixed_kW[t]! - 1e-6);
            }
          });
          expect(plan.hours.batches.map(({ unmet_kWh }) => unmet_kWh.length)).toEqual(
            years[y]!.batches.map(({ windows }) => windows.length),
          );
        });
        const backup_kWh = plans.map((plan) => plan.backup_kWh.reduce((all, heat) => all + heat, 0));
        const whole = common.plan.backup_kWh.reduce((all, heat) => all + heat, 0);
        expect(Math.abs(0.4 * backup_kWh[0]! + 0.6 * backup_kWh[1]! - whole)).toBeLessThanOrEqual(
          1e-9 * (1 + whole),
        );
        const stretched = 0.4 * plans[0]!.stretch.fraction_kWh + 0.6 * plans[1]!.stretch.fraction_kWh;
        expect(Math.abs(stretched - common.plan.stretch.fraction_kWh)).toBeLessThanOrEqual(
          1e-9 * (1 + stretched),
        );
      }),
      runs,
    );
  });
});
