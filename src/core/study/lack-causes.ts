import { availableShare } from "../dispatch/case.ts";
import type { Formulation } from "../dispatch/formulate.ts";
import type { Plan } from "../dispatch/read-plan.ts";
import { inWords } from "./in-words.ts";
import type { PlantModel } from "./plant-model.ts";
import { reducedCostOf } from "./report/unit-worth.ts";
import type { LackCause } from "./result.ts";

/** A limit that keeps something unmet, with the words of its sentence. */
export interface Cause extends LackCause {
  /** "its boilers give 2,000 kW at most". */
  readonly words: string;
}

/** What an answer's lacks are told from. */
export interface PricedAnswer {
  readonly model: PlantModel;
  readonly plan: Plan;
  readonly formulation: Formulation;
  /** Null where the solver gives none: then only the boilers' power is told. */
  readonly rowDual: Float64Array | null;
}

/**
 * An hour counts for a limit where one more unit of it is worth at least this share of a kWh unmet: heat
 * is 1000 times dearer unmet than from the dearest backup, so ordinary savings stay below.
 */
const telling = 0.02;

/** Hours in which heat lacks on a network while a backup of it cannot be had, or not in full. */
export function hoursOutOfUse({ plan, formulation: { problem } }: PricedAnswer, network: number): number {
  const { unmet_kW } = plan.hours.networks[network]!;
  if (unmet_kW.length !== problem.blocks) return 0;
  const pausing = problem.backups.filter((backup) => backup.network === network);
  return unmet_kW.reduce((hours, lack, t) => {
    const isOut = lack > 1e-6 && pausing.some((backup) => availableShare(backup, t) < 1);
    return isOut ? hours + problem.weight[t]! * problem.step_h : hours;
  }, 0);
}

function powerWords(one: string, power_kW: number, out_h: number): string {
  const who = one === "" ? "its backups" : one;
  const out =
    out_h === 0
      ? ""
      : `${one === "" ? "some of its backups are" : `${one} is`} out of use in ${inWords(out_h)} of these hours by outages or calendar`;
  // One that is large enough for any hour lacks no power.
  if (power_kW === Number.POSITIVE_INFINITY && out !== "") return out;
  const gives = `${who} ${one === "" ? "give" : "gives"} ${inWords(power_kW)} kW at most`;
  return out === "" ? gives : `${gives}, and ${out}`;
}

/** What keeps a network short of heat: its boilers, step-downs into it, its store, the budget. */
export function heatCauses(answer: PricedAnswer, network: number): Cause[] {
  const { model, plan, formulation } = answer;
  const { problem, layout } = formulation;
  const { study } = model;
  const causes: Cause[] = [];

  const boilers = problem.backups.flatMap((backup, i) => (backup.network === network ? [i] : []));
  const power_kW = boilers.reduce(
    (all, i) => all + problem.backups[i].size.existing + plan.sizes.backups_kW[i],
    0,
  );
  const one = boilers.length === 1 ? study.backups[boilers[0]].name : "";
  causes.push({
    limit: "backup power",
    at: power_kW,
    unit: "kW",
    relief_per_unit:
      boilers.length === 0
        ? null
        : mostOf(boilers, (i) => relief(answer, layout.sizes.backups[i], layout.backup[i])),
    words:
      boilers.length === 0 ? "it has no backup" : powerWords(one, power_kW, hoursOutOfUse(answer, network)),
  });

  problem.stepDowns.forEach((item, i) => {
    if (item.to !== network) return;
    const at = item.size.existing + plan.sizes.stepDowns_kW[i];
    add(causes, relief(answer, layout.sizes.stepDowns[i], layout.stepDown[i]), {
      limit: `step-down ${item.id}`,
      at,
      unit: "kW",
      words: `the step-down from ${study.networks[item.from].name} passes ${inWords(at)} kW at most`,
    });
  });
  problem.stores.forEach((store, s) => {
    if (!("network" in store.serves) || store.serves.network !== network) return;
    storeCauses(answer, s, study.stores[s].name, causes);
  });
  const { budget } = problem.limits;
  if (budget !== null && boilers.some((i) => budgetStops(answer, i))) {
    add(causes, 1, {
      limit: "budget",
      at: budget,
      unit: study.money.currency,
      words: `the budget of ${inWords(budget)} ${study.money.currency} allows no more`,
    });
  }
  return causes;
}

/** What keeps a cooling load short of cold. */
export function coldCauses(answer: PricedAnswer, cold: number): Cause[] {
  const { model, plan, formulation } = answer;
  const { problem, layout } = formulation;
  const { electricLimit_kW } = problem.cold[cold];
  const causes: Cause[] = [
    {
      limit: "electric chiller",
      at: electricLimit_kW,
      unit: "kW",
      relief_per_unit: relief(answer, -1, layout.electricCold[cold]),
      words: `the electric chiller gives ${inWords(electricLimit_kW)} kW at most`,
    },
  ];
  problem.chillers.forEach((item, i) => {
    if (item.cold !== cold) return;
    const at = item.size.existing + plan.sizes.chillers_kW[i];
    add(causes, relief(answer, layout.sizes.chillers[i], layout.chilled[i]), {
      limit: `absorption chiller ${item.id}`,
      at,
      unit: "kW",
      words: `${model.study.chillers[i].name} gives ${inWords(at)} kW at most`,
    });
  });
  problem.stores.forEach((store, s) => {
    if (!("cold" in store.serves) || store.serves.cold !== cold) return;
    storeCauses(answer, s, model.study.stores[s].name, causes);
  });
  return causes;
}

/** What keeps a water order short: the plant's capacity and its tank, or the heat of its network. */
export function waterCauses(answer: PricedAnswer, order: number): Cause[] {
  const { network, capacity_m3_h, tank_m3 } = answer.formulation.problem.water[order];
  const { made_m3_h, unmet_m3_h } = answer.plan.hours.water[order];
  const worst = unmet_m3_h.reduce((at, lack, t) => (lack > unmet_m3_h[at] ? t : at), 0);
  if (made_m3_h[worst] < capacity_m3_h - 1e-6) return heatCauses(answer, network);
  return [
    {
      limit: "capacity",
      at: capacity_m3_h,
      unit: "m³/h",
      relief_per_unit: null,
      words: `the plant makes ${inWords(capacity_m3_h)} m³/h at most and its tank holds ${inWords(tank_m3)} m³`,
    },
  ];
}

/** What keeps a batch short: its own power within its window, or the heat of its network. */
export function batchCauses(answer: PricedAnswer, batch: number): Cause[] {
  const { problem } = answer.formulation;
  const { windows, power_kW, heat_kWh, network } = problem.batches[batch];
  const { unmet_kWh } = answer.plan.hours.batches[batch];
  const powerSuffices = windows.some(
    (window, n) =>
      unmet_kWh[n] > 1e-6 && power_kW * window.length * problem.step_h > heat_kWh - unmet_kWh[n] + 1e-6,
  );
  if (powerSuffices) return heatCauses(answer, network);
  return [
    {
      limit: "batch power",
      at: power_kW,
      unit: "kW",
      relief_per_unit: null,
      words: `it takes ${inWords(power_kW)} kW at most within its windows`,
    },
  ];
}

function storeCauses(answer: PricedAnswer, s: number, name: string, causes: Cause[]): void {
  const { plan, formulation } = answer;
  const { problem, layout } = formulation;
  const store = problem.stores[s];
  const capacity_kWh = store.size.existing + plan.sizes.stores_kWh[s];
  add(causes, relief(answer, layout.sizes.stores[s], layout.content[s]), {
    limit: `capacity of ${store.id}`,
    at: capacity_kWh,
    unit: "kWh",
    words: `${name} holds ${inWords(capacity_kWh)} kWh at most`,
  });
  const { charger } = store;
  const charging_kW =
    charger === null
      ? store.chargeLimit_kW
      : Math.min(store.chargeLimit_kW, charger.existing + plan.sizes.chargers_kW[s]);
  const powers = [
    ["charge", "takes", charging_kW, layout.sizes.chargers[s], layout.charge[s]],
    ["discharge", "gives", store.dischargeLimit_kW, -1, layout.discharge[s]],
  ] as const;
  for (const [what, does, at, size, columns] of powers) {
    if (!Number.isFinite(at)) continue;
    add(causes, relief(answer, size, columns), {
      limit: `${what} power of ${store.id}`,
      at,
      unit: "kW",
      words: `${name} ${does} ${inWords(at)} kW at most`,
    });
  }
}

function add(causes: Cause[], relief_per_unit: number | null, cause: Omit<Cause, "relief_per_unit">): void {
  if (relief_per_unit !== null && relief_per_unit > telling) causes.push({ ...cause, relief_per_unit });
}

function mostOf(items: readonly number[], of: (item: number) => number | null): number | null {
  const known = items.map(of).filter((value) => value !== null);
  return known.length === 0 ? null : Math.max(...known);
}

/**
 * Units of unmet demand a year that one more unit of a limit would serve: what the limit's duals are
 * worth, over the price of a unit unmet, in the hours in which they are worth enough to tell.
 *
 * @param size the size's column, whose rows hold the limit; −1 where the limit is the hourly columns' bound
 */
function relief({ formulation, rowDual }: PricedAnswer, size: number, hourly: Int32Array): number | null {
  if (rowDual === null) return null;
  const { program, problem } = formulation;
  const { starts, indices, values, colUpper } = program;
  let worth = 0;
  const count = (earned: number, t: number) => {
    const share = earned / (problem.weight[t] * problem.step_h * problem.unmetPrice_per_kWh);
    if (share >= telling) worth += earned / problem.unmetPrice_per_kWh;
  };
  const own = new Map<number, number>();
  if (size >= 0) {
    for (let e = starts[size]; e < starts[size + 1]; e += 1) own.set(indices[e], values[e]);
  }
  const duals = { formulation, rowDual };
  hourly.forEach((column, t) => {
    if (column < 0) return;
    if (Number.isFinite(colUpper[column])) count(-reducedCostOf(duals, column)!, t);
    for (let e = starts[column]; e < starts[column + 1]; e += 1) {
      const value = own.get(indices[e]);
      if (value !== undefined) count(rowDual[indices[e]] * value, t);
    }
  });
  return worth;
}

/** True where a boiler could still grow and the price of capital is what stops it. */
function budgetStops({ plan, formulation, rowDual }: PricedAnswer, backup: number): boolean {
  const { problem, layout } = formulation;
  const { size } = problem.backups[backup];
  if (rowDual === null || layout.rows.budget < 0 || layout.sizes.backups[backup] < 0) return false;
  if (plan.sizes.backups_kW[backup] >= size.most - 1e-6) return false;
  const capital_per_kW = -rowDual[layout.rows.budget] * size.initialCost_per_unit;
  return capital_per_kW > telling * problem.unmetPrice_per_kWh;
}
