import { beforeAll, describe, expect, it } from "vitest";
import type { DispatchCase } from "../../../src/core/dispatch/case.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { type LpSolver, solveOnce } from "../../../src/core/dispatch/program.ts";
import { typicalDays } from "../../../src/core/dispatch/typical-days.ts";
import { hoursPerYear } from "../../../src/core/series.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import {
  backup,
  collector,
  dispatchCase,
  field,
  freeSize,
  network,
  store,
} from "../../support/dispatch-cases.ts";

let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

/** A year hour by hour, from the day of the year and the hour of the day. */
const year = (value: (day: number, hour: number) => number) =>
  Float64Array.from({ length: hoursPerYear }, (_, t) => value(Math.floor(t / 24), t % 24));

const sunAt = (hour: number) => Math.max(0, 0.6 * Math.sin((Math.PI * (hour - 5.5)) / 12));
/** A winter with less sun and more demand, workdays and Sundays, and a wild day in autumn. */
const changing = dispatchCase(hoursPerYear, {
  networks: [
    network(
      "heat",
      year((day, hour) =>
        day === 300 ? 900 : (day % 7 === 6 ? 150 : 500) * (hour >= 6 && hour < 20 ? 1 : 0.4),
      ),
    ),
  ],
  collectors: [collector(60)],
  fields: [
    field(
      year((day, hour) =>
        day === 300 ? 0 : sunAt(hour) * (0.8 - 0.3 * Math.cos((2 * Math.PI * (day + 10)) / 365)),
      ),
      { parasitic_kW_per_m2: year((_, hour) => (sunAt(hour) > 0 ? 0.001 : 0)) },
    ),
  ],
  stores: [store(freeSize(1))],
  backups: [backup(0.06)],
  batches: [
    {
      id: "dryer",
      network: 0,
      power_kW: 100,
      heat_kWh: 300,
      windows: Array.from({ length: 52 }, (_, week) =>
        Int32Array.from({ length: 8 }, (__, n) => (week * 7 + 2) * 24 + 18 + n),
      ),
    },
  ],
});

const yearTotal = ({ weight, step_h, blocks }: DispatchCase, series: Float64Array) => {
  let sum = 0;
  for (let t = 0; t < blocks; t += 1) sum += weight[t]! * step_h * series[t]!;
  return sum;
};

describe("typical days", () => {
  const { problem, days } = typicalDays(changing, 4);

  it("stand for 365 days, each day once", () => {
    expect(days.reduce((all, { weight }) => all + weight, 0)).toBe(365);
    const members = days.flatMap((day) => [...day.members]).sort((a, b) => a - b);
    expect(members).toEqual(Array.from({ length: 365 }, (_, day) => day));
    for (const { day, members: own, weight } of days) {
      expect(own).toContain(day);
      expect(own).toHaveLength(weight);
    }
    expect(days.map(({ day }) => day)).toEqual(days.map(({ day }) => day).sort((a, b) => a - b));
  });

  it("keep the day on which demand exceeds the sun the most, for itself alone", () => {
    expect(days.find(({ day }) => day === 300)).toMatchObject({ weight: 1 });
  });

  it("keep the year's demand, yield and batches", () => {
    const same = (a: number, b: number) => expect(Math.abs(a - b) / b).toBeLessThan(1e-9);
    same(
      yearTotal(problem, problem.networks[0]!.fixed_kW),
      yearTotal(changing, changing.networks[0]!.fixed_kW),
    );
    same(
      yearTotal(problem, problem.fields[0]!.yield_kW_per_m2),
      yearTotal(changing, changing.fields[0]!.yield_kW_per_m2),
    );
    const batchHeat = ({ batches, weight }: DispatchCase) =>
      batches[0]!.windows.reduce((all, window) => all + weight[window[0]!]! * batches[0]!.heat_kWh, 0);
    same(batchHeat(problem), 52 * 300);
  });

  it("are the same for the same year", () => {
    expect(typicalDays(changing, 4).days).toEqual(days);
  });

  it("cost exactly what the year costs where all days are alike", () => {
    const alike: DispatchCase = {
      ...changing,
      batches: [],
      networks: [
        network(
          "heat",
          year((_, hour) => (hour >= 6 && hour < 20 ? 500 : 200)),
        ),
      ],
      fields: [field(year((_, hour) => (hour >= 8 && hour < 16 ? 0.5 : 0)))],
    };
    const short = typicalDays(alike, 4).problem;
    const exact = solveOnce(highs, formulate(alike).program);
    const byDays = solveOnce(highs, formulate(short).program);
    expect(Math.abs(byDays.objective - exact.objective) / exact.objective).toBeLessThan(1e-9);
    // A store pays: 8 hours of sun against 24 of demand.
    expect(exact.objective).toBeLessThan(0.06 * yearTotal(alike, alike.networks[0]!.fixed_kW));
  });

  it("come near the year, and nearer with more of them", () => {
    // Not a law, but so for a year as smooth as this.
    const error = (clusters: number) => {
      const byDays = solveOnce(
        highs,
        formulate(typicalDays({ ...changing, batches: [] }, clusters).problem).program,
      );
      return Math.abs(byDays.objective - whole);
    };
    const whole = solveOnce(highs, formulate({ ...changing, batches: [] }).program).objective;
    expect(error(12) / whole).toBeLessThan(0.05);
    expect(error(12)).toBeLessThanOrEqual(error(1) + 1e-6 * whole);
  });
});
