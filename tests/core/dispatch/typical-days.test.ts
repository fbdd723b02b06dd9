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

const same = (a: number, b: number) => expect(Math.abs(a - b) / b).toBeLessThan(1e-9);
const batchHeat = ({ batches, weight }: DispatchCase) =>
  batches[0]!.windows.reduce((all, window) => all + weight[window[0]!]! * batches[0]!.heat_kWh, 0);

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
    same(
      yearTotal(problem, problem.networks[0]!.fixed_kW),
      yearTotal(changing, changing.networks[0]!.fixed_kW),
    );
    same(
      yearTotal(problem, problem.fields[0]!.yield_kW_per_m2),
      yearTotal(changing, changing.fields[0]!.yield_kW_per_m2),
    );
    same(batchHeat(problem), 52 * 300);
  });

  it("keep a load that runs on a few days only, whichever days they are", () => {
    const rare = (days: readonly number[]) => ({
      ...changing,
      networks: [
        network(
          "heat",
          year((day, hour) => (days.includes(day) && hour < 12 ? 400 : 0)),
        ),
      ],
      cold: [
        {
          id: "cool",
          demand_kW: year((day) => (days.includes(day + 1) ? 50 : 0)),
          electricCop: new Float64Array(8760).fill(3),
          electricLimit_kW: Number.POSITIVE_INFINITY,
        },
      ],
    });
    for (const days of [[20, 21, 22], [100], [10, 90, 180, 270, 350]]) {
      const whole = rare(days);
      const { problem: short } = typicalDays(whole, 4);
      same(yearTotal(short, short.networks[0]!.fixed_kW), days.length * 12 * 400);
      same(yearTotal(short, short.cold[0]!.demand_kW), days.length * 24 * 50);
    }
  });

  it("keep a weekly batch, whichever weekday it is", () => {
    for (let weekday = 0; weekday < 7; weekday += 1) {
      const windows = Array.from({ length: 52 }, (_, week) =>
        Int32Array.from({ length: 8 }, (__, n) => (week * 7 + weekday) * 24 + 12 + n),
      );
      const whole: DispatchCase = { ...changing, batches: [{ ...changing.batches[0]!, windows }] };
      const { problem: short } = typicalDays(whole, 4);
      expect(short.batches[0]!.windows.length).toBeGreaterThan(0);
      same(batchHeat(short), 52 * 300);
      for (const window of short.batches[0]!.windows) {
        const most_kWh = short.batches[0]!.power_kW * window.length * short.step_h;
        expect(most_kWh).toBeGreaterThanOrEqual(short.batches[0]!.heat_kWh * (1 - 1e-12));
      }
    }
  });

  it("keep more rare loads than there are days to choose", () => {
    const every = Array.from({ length: 7 }, (_, weekday) => weekday);
    const whole: DispatchCase = {
      ...changing,
      networks: every.map((weekday) =>
        network(
          `n${weekday}`,
          year((day, hour) => (day % 30 === 4 * weekday && hour >= 8 && hour < 12 ? 300 : 0)),
        ),
      ),
      backups: every.map((weekday) => backup(0.06, { id: `b${weekday}`, network: weekday })),
      batches: every.map((weekday) => ({
        ...changing.batches[0]!,
        id: `dryer${weekday}`,
        windows: Array.from({ length: 52 }, (_, week) =>
          Int32Array.from({ length: 8 }, (__, n) => (week * 7 + weekday) * 24 + 20 + n),
        ),
      })),
    };
    const { problem: short } = typicalDays(whole, 4);
    for (const weekday of every) {
      same(
        yearTotal(short, short.networks[weekday]!.fixed_kW),
        yearTotal(whole, whole.networks[weekday]!.fixed_kW),
      );
      same(batchHeat({ ...short, batches: [short.batches[weekday]!] }), 52 * 300);
    }
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
