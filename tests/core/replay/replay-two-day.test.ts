import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { type LpSolver, StoppedError } from "../../../src/core/dispatch/program.ts";
import { noRules } from "../../../src/core/replay/operating-rules.ts";
import { replaySimple } from "../../../src/core/replay/replay-simple.ts";
import { replayTwoDay } from "../../../src/core/replay/replay-two-day.ts";
import { targetsOf } from "../../../src/core/replay/targets-of.ts";
import { largest } from "../../../src/core/series.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import {
  anyCase,
  backup,
  collector,
  dispatchCase,
  existingSize,
  field,
  network,
  store,
} from "../../support/dispatch-cases.ts";
import { boundAt, boundPlan, faultsOf, hasNegativePrice, severalDays, someSizes } from "./support.ts";

let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

const factors = fc.array(fc.constantFrom(0, 0.3, 0.6, 1, 1.2), { minLength: 4, maxLength: 4 });
const part = fc.constantFrom(0, 0.2, 0.5, 1);
const days = (kinds: Parameters<typeof anyCase>[0]) =>
  fc
    .tuple(
      anyCase(kinds).filter(({ cycles }) => cycles.length === 1),
      factors,
    )
    .map(([problem, by]) => severalDays(problem, by));

describe("a controller that plans two days ahead", () => {
  it("closes every balance and keeps every limit and rule, whatever comes", () => {
    const given = fc.tuple(
      days({}),
      part,
      fc.constantFrom("persistence" as const, "perfect" as const),
      fc.boolean(),
    );
    fc.assert(
      fc.property(given, ([problem, size, forecast, isRuled]) => {
        const sizes = someSizes(problem, size);
        const free = noRules(problem);
        const third = (items: readonly unknown[]) => items.map(() => 0.3);
        const rules = isRuled
          ? {
              ...free,
              backupLeastShare: third(problem.backups),
              chillerLeastShare: third(problem.chillers),
              chillerStartUp_h: third(problem.chillers),
              waterLeastShare: third(problem.water),
              waterStartUp_h: third(problem.water),
            }
          : free;
        const replay = replayTwoDay(problem, sizes, rules, { solver: highs, forecast });
        expect(faultsOf(problem, rules, replay)).toEqual([]);
        expect(replay.unplannedDays).toBe(forecast === "perfect" ? 0 : 1);
      }),
      { numRuns: 30 },
    );
  });

  it("never costs less than perfect foresight of the whole year", () => {
    const given = fc.tuple(days({}), part, fc.constantFrom("persistence" as const, "perfect" as const));
    fc.assert(
      fc.property(given, ([problem, size, forecast]) => {
        const sizes = someSizes(problem, size);
        const { totals } = replayTwoDay(problem, sizes, noRules(problem), { solver: highs, forecast });
        const bound = boundAt(problem, sizes, highs);
        expect(totals.cost).toBeGreaterThanOrEqual(bound - 1e-7 * Math.abs(bound));
      }),
      { numRuns: 30 },
    );
  });

  /*
   * Derived by hand: with a perfect forecast and the year's own contents as the ends of its plans, each
   * plan can do what the year does from the next midnight on, so only the contents that the year begins
   * with and the replay does not have can be missing. Where a price is negative the program gains by
   * wasting, by charging and discharging at once, which no controller does: such cases are left out.
   */
  it("is as good as the year's own plan but for the contents that the year begins with, where it sees all and aims for the year's contents", () => {
    fc.assert(
      fc.property(
        days({ batch: false, boilers: false }).filter((problem) => !hasNegativePrice(problem)),
        part,
        (problem, size) => {
          const sizes = someSizes(problem, size);
          const { cost, plan } = boundPlan(problem, sizes, highs);
          const targets = targetsOf(problem, plan);
          const replay = replayTwoDay(problem, sizes, noRules(problem), {
            solver: highs,
            forecast: "perfect",
            targets,
          });
          const dearest = problem.backups.reduce((most, b) => Math.max(most, ...b.heatPrice_per_kWh), 0);
          const power = problem.electricityPrice_per_kWh.reduce(
            (most, price) => Math.max(most, Math.abs(price)),
            0,
          );
          const last = problem.blocks - 1;
          const began =
            problem.stores.reduce(
              (all, _, s) => all + targets.stores_kWh[s]![last]! * Math.max(dearest, power),
              0,
            ) +
            problem.water.reduce(
              (all, order, w) =>
                all +
                targets.tanks_m3[w]![last]! *
                  (largest(order.heat_kWh_per_m3) * dearest + order.electricity_kWh_per_m3 * power),
              0,
            );
          const lost = replay.totals.cost - replay.totals.unmetCost - cost;
          expect(lost).toBeLessThanOrEqual(2 * began + 1e-6 * Math.abs(cost));
        },
      ),
      { numRuns: 30 },
    );
  });

  it("keeps its heat for the dear hours, which a controller without prices does not", () => {
    // By day sun for a store of 4 h of demand; by night 4 cheap hours come before 4 dear ones.
    const blocks = 96;
    const clock = (t: number) => t % 24;
    const sun = Float64Array.from({ length: blocks }, (_, t) => (clock(t) < 8 ? 1 : 0));
    const price = Float64Array.from({ length: blocks }, (_, t) => (clock(t) >= 20 ? 0.2 : 0.05));
    const problem = dispatchCase(blocks, {
      networks: [
        network(
          "heat",
          Float64Array.from(sun, (value, t) => (value > 0 ? 100 : clock(t) >= 16 ? 100 : 0)),
        ),
      ],
      collectors: [collector(0)],
      fields: [field(sun, { existing_m2: 150 })],
      stores: [store(existingSize(400))],
      backups: [backup(0, { heatPrice_per_kWh: price })],
    });
    const sizes = someSizes(problem, 0);
    const simple = replaySimple(problem, sizes);
    const planned = replayTwoDay(problem, sizes, noRules(problem), {
      solver: highs,
      forecast: "persistence",
    });
    // Simple: 4 days × 400 kWh at 0.2. Planned: the first day as simple, then 3 × 400 kWh at 0.05.
    expect(simple.totals.cost).toBeCloseTo(320, 9);
    expect(planned.totals.cost).toBeCloseTo(80 + 60, 6);
  });

  it("stops where it is asked to", () => {
    const problem = dispatchCase(48, {
      networks: [network("heat", new Float64Array(48).fill(100))],
      backups: [backup(0.05)],
    });
    const stopping: LpSolver = {
      name: "stopping",
      open: (program) => {
        const session = highs.open(program);
        return {
          ...session,
          run: () => ({ ...session.run(), status: "stopped" }),
          close: () => session.close(),
        };
      },
    };
    expect(() =>
      replayTwoDay(problem, someSizes(problem, 0), noRules(problem), {
        solver: stopping,
        forecast: "perfect",
      }),
    ).toThrow(StoppedError);
  });
});
