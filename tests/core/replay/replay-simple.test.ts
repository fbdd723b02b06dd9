import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import type { DispatchCase } from "../../../src/core/dispatch/case.ts";
import type { LpSolver } from "../../../src/core/dispatch/program.ts";
import { noRules, type OperatingRules } from "../../../src/core/replay/operating-rules.ts";
import { prepareReplay } from "../../../src/core/replay/prepare-replay.ts";
import { replaySimple } from "../../../src/core/replay/replay-simple.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { expectClose } from "../../support/close.ts";
import { anyCase } from "../../support/dispatch-cases.ts";
import { boundAt, faultsOf, someSizes } from "./support.ts";

let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

const share = fc.integer({ min: 0, max: 10 }).map((n) => n / 10);

/** Random rules for a case. */
const rulesFor = (problem: DispatchCase): fc.Arbitrary<OperatingRules> => {
  const each = (items: readonly unknown[], most: number) =>
    fc.array(fc.constantFrom(0, 0.3 * most, 0.5 * most), {
      minLength: items.length,
      maxLength: items.length,
    });
  return fc
    .record({
      backupLeastShare: each(problem.backups, 1),
      chillerLeastShare: each(problem.chillers, 1),
      chillerStartUp_h: each(problem.chillers, 1),
      waterLeastShare: each(problem.water, 1),
      waterStartUp_h: each(problem.water, 1),
      storeLeastPower_kW: each(problem.stores, 200),
      storeDeadBand: each(problem.stores, 0.8),
    })
    .map((rules) => ({ ...noRules(problem), ...rules }));
};

const withSizes = anyCase().chain((problem) => share.map((part) => ({ problem, part })));

describe("a plant run without foresight", () => {
  it("closes every balance and keeps every limit in every hour", () => {
    fc.assert(
      fc.property(withSizes, ({ problem, part }) => {
        const rules = noRules(problem);
        const plan = replaySimple(problem, someSizes(problem, part), rules);
        expect(faultsOf(problem, rules, plan)).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it("keeps least loads, start-up and dead bands besides", () => {
    const given = withSizes.chain(({ problem, part }) =>
      rulesFor(problem).map((rules) => ({ problem, part, rules })),
    );
    fc.assert(
      fc.property(given, ({ problem, part, rules }) => {
        const plan = replaySimple(problem, someSizes(problem, part), rules);
        expect(faultsOf(problem, rules, plan)).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it("never costs less than perfect foresight at the same sizes", () => {
    const given = withSizes.chain(({ problem, part }) =>
      rulesFor(problem).map((rules) => ({ problem, part, rules })),
    );
    fc.assert(
      fc.property(given, fc.boolean(), ({ problem, part, rules }, isRuled) => {
        const sizes = someSizes(problem, part);
        const { totals } = replaySimple(problem, sizes, isRuled ? rules : undefined);
        const bound = boundAt(problem, sizes, highs);
        expect(totals.cost).toBeGreaterThanOrEqual(bound - 1e-7 * Math.abs(bound));
      }),
      { numRuns: 100 },
    );
  });

  it("gives the same sums with and without its hours, and whatever ran before", () => {
    fc.assert(
      fc.property(withSizes, share, ({ problem, part }, other) => {
        const prepared = prepareReplay(problem);
        const sizes = someSizes(problem, part);
        const first = prepared.run(sizes);
        prepared.run(someSizes(problem, other));
        expect(prepared.plan(sizes).totals).toEqual(first);
      }),
      { numRuns: 50 },
    );
  });

  it("adds up its hours to its sums", () => {
    fc.assert(
      fc.property(withSizes, ({ problem, part }) => {
        const { hours, totals, backup_kW } = replaySimple(problem, someSizes(problem, part));
        const each = (series: Float64Array) =>
          series.reduce((all, value, t) => all + value * problem.weight[t]! * problem.step_h, 0);
        const all = (name: "demand_kW" | "backup_kW" | "spill_kW" | "unmet_kW") =>
          hours.networks.reduce((sum, network) => sum + each(network[name]), 0);
        expectClose(all("demand_kW"), totals.demand_kWh, 1e-9);
        expectClose(all("backup_kW"), totals.backup_kWh, 1e-9);
        expectClose(all("spill_kW"), totals.spilled_kWh, 1e-9);
        expectClose(all("unmet_kW"), totals.unmetHeat_kWh, 1e-9);
        expectClose(each(hours.electricity_kW), totals.electricity_kWh, 1e-9);
        backup_kW.forEach((series, b) => {
          expectClose(each(series), totals.backupFired_kWh[b]!, 1e-9);
        });
      }),
      { numRuns: 100 },
    );
  });
});
