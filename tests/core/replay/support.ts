import { expect } from "vitest";
import { atSizes, type DispatchCase, type NewSizes, unlimited } from "../../../src/core/dispatch/case.ts";
import { cleanAnswer } from "../../../src/core/dispatch/clean-answer.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { type LpSolver, solveOnce } from "../../../src/core/dispatch/program.ts";
import { readPlan } from "../../../src/core/dispatch/read-plan.ts";
import { openCycle } from "../../../src/core/replay/open-cycle.ts";
import type { OperatingRules } from "../../../src/core/replay/operating-rules.ts";
import type { ReplayPlan } from "../../../src/core/replay/replay-plan.ts";

const least = (
  items: readonly { readonly size: { readonly least: number; readonly most: number } }[],
  share: number,
) =>
  Float64Array.from(
    items,
    ({ size }) => size.least + share * (Math.min(size.most, size.least + 1000) - size.least),
  );

/** Sizes within their bounds, `share` of the way from the least to the most or 1000 above it. */
export function someSizes(problem: DispatchCase, share: number): NewSizes {
  const fields = problem.fields.map(({ least_m2, most_m2 }) => ({
    size: { least: least_m2, most: most_m2 },
  }));
  return {
    fields_m2: least(fields, share),
    stores_kWh: least(problem.stores, share),
    chargers_kW: least(
      problem.stores.map((store) => ({ size: store.charger ?? { least: 0, most: 0 } })),
      share,
    ),
    stepDowns_kW: least(problem.stepDowns, share),
    chillers_kW: least(problem.chillers, share),
    backups_kW: least(problem.backups, share),
  };
}

/** Whether some heat or electricity pays for being used. */
export const hasNegativePrice = ({ backups, electricityPrice_per_kWh }: DispatchCase) =>
  electricityPrice_per_kWh.some((price) => price < 0) ||
  backups.some(({ heatPrice_per_kWh }) => heatPrice_per_kWh.some((price) => price < 0));

/**
 * Least cost with perfect foresight at given sizes. Where a price is negative, what is made and left at
 * the end can earn money, so the program then begins empty and ends as it likes, like a replay.
 */
export function boundAt(problem: DispatchCase, sizes: NewSizes, solver: LpSolver): number {
  const { program, layout } = formulate(unlimited(atSizes(problem, sizes)));
  const ends = [...layout.content, ...layout.tank].flatMap((columns) =>
    problem.cycles.flatMap(({ start, length }) =>
      columns[start]! < 0
        ? []
        : [
            {
              firstColumn: columns[start]!,
              lastColumn: columns[start + length - 1]!,
              carried: 0,
              worth: 0,
              target: null,
            },
          ],
    ),
  );
  const answer = solveOnce(solver, hasNegativePrice(problem) ? openCycle(program, ends) : program);
  expect(answer.status).toBe("optimal");
  return answer.objective;
}

/** The least-cost dispatch at given sizes, with its contents. */
export function boundPlan(problem: DispatchCase, sizes: NewSizes, solver: LpSolver) {
  const formulation = formulate(unlimited(atSizes(problem, sizes)));
  const answer = solveOnce(solver, formulation.program);
  expect(answer.status).toBe("optimal");
  return {
    cost: answer.objective,
    plan: readPlan(formulation, cleanAnswer(formulation, answer.primal), null),
  };
}

/** Largest demand of the case's year, for tolerances. */
export const demandOf = (plan: ReplayPlan) => Math.max(1, plan.totals.demand_kWh);

/** Every balance, limit and rule that a replay must keep to, as sentences of what it breaks. */
export function faultsOf(problem: DispatchCase, rules: OperatingRules, plan: ReplayPlan): string[] {
  const faults: string[] = [];
  const { sizes, hours } = plan;
  const near = 1e-9 * demandOf(plan);
  const check = (holds: boolean, what: string) => {
    if (!holds) faults.push(what);
  };
  const size = (item: { readonly size: { readonly existing: number } }, added: number) =>
    item.size.existing + added;
  for (let t = 0; t < problem.blocks; t += 1) {
    const start = problem.cycles.some((cycle) => cycle.start === t);
    hours.networks.forEach((n, k) => {
      const supply = n.solar_kW[t]! + n.backup_kW[t]! + n.discharge_kW[t]! + n.stepIn_kW[t]! + n.unmet_kW[t]!;
      const use = n.demand_kW[t]! + n.charge_kW[t]! + n.stepOut_kW[t]!;
      check(Math.abs(supply - use) <= near, `heat of ${n.id} at ${t}: ${supply} for ${use}`);
      let sun = 0;
      problem.fields.forEach((field, f) => {
        if (field.network === k) sun += field.yield_kW_per_m2[t]! * (field.existing_m2 + sizes.fields_m2[f]!);
      });
      check(Math.abs(n.solar_kW[t]! + n.spill_kW[t]! - sun) <= near, `sun of ${n.id} at ${t}`);
      for (const [name, series] of Object.entries(n)) {
        if (typeof series === "string" || name === "marginal_per_kWh") continue;
        check(series[t] >= -1e-9, `${name} of ${n.id} at ${t}: ${series[t]}`);
      }
      check(!(n.charge_kW[t]! > 0 && n.discharge_kW[t]! > 0), `store of ${n.id} both ways at ${t}`);
      if (problem.backups.every((b) => b.network !== k || !b.mayCharge))
        check(n.charge_kW[t]! <= n.solar_kW[t]! + n.stepIn_kW[t]! + near, `backup charges ${n.id} at ${t}`);
    });
    problem.stores.forEach((store, s) => {
      const side =
        "network" in store.serves ? hours.networks[store.serves.network]! : hours.cold[store.serves.cold]!;
      const before = start ? 0 : side.content_kWh[t - 1]!;
      const taken = side.discharge_kW[t]! / store.dischargeEfficiency;
      const stored = store.chargeEfficiency * side.charge_kW[t]! - taken;
      const content = store.keep_per_h ** problem.step_h * before + stored * problem.step_h;
      check(Math.abs(content - side.content_kWh[t]!) <= near, `content of ${store.id} at ${t}`);
      check(
        side.content_kWh[t]! <= size(store, sizes.stores_kWh[s]!) + near,
        `${store.id} over-full at ${t}`,
      );
      const charger_kW = store.charger === null ? Infinity : store.charger.existing + sizes.chargers_kW[s]!;
      check(
        side.charge_kW[t]! <= Math.min(charger_kW, store.chargeLimit_kW) + near,
        `${store.id} charged too fast at ${t}`,
      );
      check(taken <= store.dischargeLimit_kW + near, `${store.id} discharged too fast at ${t}`);
      const least_kW = rules.storeLeastPower_kW[s]!;
      if ("network" in store.serves) {
        check(taken === 0 || taken >= least_kW - near, `${store.id} discharged too slowly at ${t}`);
      }
    });
    problem.stepDowns.forEach((item, i) => {
      check(
        plan.stepDown_kW[i]![t]! <= size(item, sizes.stepDowns_kW[i]!) + near,
        `${item.id} too much at ${t}`,
      );
    });
    problem.backups.forEach((item, b) => {
      const power = size(item, sizes.backups_kW[b]!);
      const fired = plan.backup_kW[b]![t]!;
      check(fired <= power + near, `${item.id} above its power at ${t}`);
      const least_kW = Number.isFinite(power) ? rules.backupLeastShare[b]! * power : 0;
      check(
        fired === 0 || item.heatPrice_per_kWh[t]! < 0 || fired >= least_kW - near,
        `${item.id} below its least load at ${t}: ${fired}`,
      );
    });
    hours.cold.forEach((load, c) => {
      const supply =
        load.absorption_kW[t]! + load.electric_kW[t]! + load.discharge_kW[t]! + load.unmet_kW[t]!;
      check(Math.abs(supply - load.demand_kW[t]! - load.charge_kW[t]!) <= near, `cold at ${t}`);
      check(load.electric_kW[t]! <= problem.cold[c]!.electricLimit_kW + near, `electric cold at ${t}`);
      check(!(load.charge_kW[t]! > 0 && load.discharge_kW[t]! > 0), `cold store both ways at ${t}`);
    });
    problem.chillers.forEach((item, j) => {
      const power = size(item, sizes.chillers_kW[j]!) * item.capacityFactor[t]!;
      const cold = plan.chilled_kW[j]![t]!;
      const off = start || plan.chilled_kW[j]![t - 1]! === 0;
      const ready = off ? 1 - Math.min(1, rules.chillerStartUp_h[j]! / problem.step_h) : 1;
      check(cold <= power * ready + near, `${item.id} above its power at ${t}`);
      const least_kW = rules.chillerLeastShare[j]! * power * ready;
      check(cold === 0 || cold >= least_kW - near, `${item.id} below its least load at ${t}`);
    });
    hours.water.forEach((order, w) => {
      const { tank_m3, capacity_m3_h } = problem.water[w]!;
      const before = start ? 0 : order.tank_m3[t - 1]!;
      const flow = order.made_m3_h[t]! + order.unmet_m3_h[t]! - order.order_m3_h[t]!;
      check(Math.abs(before + flow * problem.step_h - order.tank_m3[t]!) <= 1e-6, `tank at ${t}`);
      check(order.tank_m3[t]! >= 0 && order.tank_m3[t]! <= tank_m3 + 1e-9, `tank's bounds at ${t}`);
      const off = start || order.made_m3_h[t - 1]! === 0;
      const most = capacity_m3_h * (off ? 1 - Math.min(1, rules.waterStartUp_h[w]! / problem.step_h) : 1);
      check(order.made_m3_h[t]! <= most + 1e-9, `water above its capacity at ${t}`);
      const least = rules.waterLeastShare[w]! * most;
      check(order.made_m3_h[t] === 0 || order.made_m3_h[t]! >= least - 1e-9, `water below its least at ${t}`);
    });
    hours.batches.forEach((batch, i) => {
      check(batch.heat_kW[t]! <= problem.batches[i]!.power_kW + near, `batch above its power at ${t}`);
    });
  }
  problem.batches.forEach(({ windows, heat_kWh }, i) => {
    windows.forEach((window, n) => {
      let given = hours.batches[i]!.unmet_kWh[n]!;
      for (const t of window) given += hours.batches[i]!.heat_kW[t]! * problem.step_h;
      check(Math.abs(given - heat_kWh) <= near, `batch ${n}: ${given} of ${heat_kWh}`);
    });
  });
  return faults;
}

/** A case of one cycle made into several days of unlike sun and demand; each factor is a day's. */
export function severalDays(problem: DispatchCase, factors: readonly number[]): DispatchCase {
  const { blocks } = problem;
  const tiled = (series: Float64Array, isChanged: boolean) =>
    Float64Array.from(
      { length: blocks * factors.length },
      (_, t) => series[t % blocks]! * (isChanged ? factors[Math.floor(t / blocks)]! : 1),
    );
  const all = blocks * factors.length;
  return {
    ...problem,
    blocks: all,
    weight: new Float64Array(all).fill(1),
    step_h: 24 / blocks,
    cycles: [{ start: 0, length: all }],
    networks: problem.networks.map((item) => ({ ...item, fixed_kW: tiled(item.fixed_kW, true) })),
    fields: problem.fields.map((item, f) => ({
      ...item,
      yield_kW_per_m2: tiled(item.yield_kW_per_m2, f === 0),
      parasitic_kW_per_m2: tiled(item.parasitic_kW_per_m2, false),
    })),
    cold: problem.cold.map((item) => ({
      ...item,
      demand_kW: tiled(item.demand_kW, false),
      electricCop: tiled(item.electricCop, false),
    })),
    chillers: problem.chillers.map((item) => ({
      ...item,
      cop: tiled(item.cop, false),
      capacityFactor: tiled(item.capacityFactor, false),
    })),
    water: problem.water.map((item) => ({
      ...item,
      order_m3_h: tiled(item.order_m3_h, false),
      heat_kWh_per_m3: tiled(item.heat_kWh_per_m3, false),
    })),
    batches: problem.batches.map((item) => ({
      ...item,
      windows: factors.flatMap((_, day) =>
        item.windows.map((window) => {
          const first = window[0]!;
          return window.map((block) => (day * blocks + block + (block < first ? blocks : 0)) % all);
        }),
      ),
    })),
    backups: problem.backups.map((item) => ({
      ...item,
      heatPrice_per_kWh: tiled(item.heatPrice_per_kWh, false),
      ...(item.available === undefined ? {} : { available: tiled(item.available, false) }),
    })),
    electricityPrice_per_kWh: tiled(problem.electricityPrice_per_kWh, false),
  };
}
