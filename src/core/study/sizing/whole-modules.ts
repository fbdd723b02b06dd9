import { balanceResidual_kW } from "../../dispatch/balance-check.ts";
import { atSizes, type DispatchCase, type NewSizes, unlimited } from "../../dispatch/case.ts";
import { cleanAnswer } from "../../dispatch/clean-answer.ts";
import { formulate } from "../../dispatch/formulate.ts";
import type { LpSolver } from "../../dispatch/program.ts";
import { type Plan, readPlan } from "../../dispatch/read-plan.ts";
import { verify } from "../../dispatch/verify.ts";
import { limitConflicts } from "../explain-conflicts.ts";
import { unmetConflicts } from "../explain-unmet.ts";
import type { PlantModel } from "../plant-model.ts";
import { capitalOf, landOf } from "../report/sizes.ts";
import type { Conflict, WholeModules } from "../result.ts";
import { solved } from "./dispatch-at.ts";
import type { Watch } from "./solvers.ts";
import type { YearAnswer } from "./year-answer.ts";

/** Which way counts of modules were rounded. */
type Rounding = "nearest" | "down" | "up";

export interface InModules {
  readonly answer: YearAnswer;
  /** Null where no collector with modules is built. */
  readonly wholeModules: WholeModules | null;
}

/**
 * The answer with the new aperture of every collector that comes in modules rounded to whole ones, and the year
 * dispatched again: with the full year's program all other sizes follow, with typical days they stay. Counts are
 * rounded to the nearest; where that breaks a limit that the answer kept, down, and then up. Program, proof
 * and shadow prices stay those of the sizes before rounding, which gave them.
 */
export function inWholeModules(
  model: PlantModel,
  answer: YearAnswer,
  year: LpSolver,
  { progress, watched }: Watch,
): InModules {
  const modules_m2 = model.fields.map(({ collector }) => collector.module_m2 ?? 0);
  const { fields_m2 } = answer.plan.sizes;
  if (!modules_m2.some((module_m2, f) => module_m2 > 0 && fields_m2[f] > 1e-6 * module_m2)) {
    return { answer, wholeModules: null };
  }
  const wasKept = answer.conflicts.length === 0;
  const tried: Tried[] = [];
  let chosen: Tried | null = null;
  for (const rounding of ["nearest", "down", "up"] as const) {
    const rounded_m2 = roundedFields(model, fields_m2, modules_m2, rounding);
    progress(`Whole modules: the year again (${rounding})`, 0.9);
    const one = dispatchWith(model, answer, rounded_m2, year, watched);
    tried.push(one);
    if (!wasKept || (one.conflicts.length === 0 && keepsLimits(model, one.plan.sizes))) {
      chosen = one;
      break;
    }
  }
  // Where no rounding keeps every limit, the nearest tells which and by how much.
  const { plan, conflicts, objective } = chosen ?? tried[0]!;
  const free =
    answer.proof.method === "full-year" ? answer.proof.objective : answer.typicalDays.dispatchObjective;
  return {
    answer: {
      ...answer,
      plan: withPrices(plan, answer.plan),
      conflicts,
      proof: { ...answer.proof, balanceResidual_kW: balanceResidual_kW(plan.hours) },
    },
    wholeModules: {
      fields: model.fields.flatMap(({ collector, network }, f) => {
        const module_m2 = modules_m2[f];
        if (!(module_m2 > 0)) return [];
        const modules = Math.round(plan.sizes.fields_m2[f] / module_m2);
        return [{ id: collector.id, network: network.id, modules, module_m2, free_m2: fields_m2[f] }];
      }),
      objective,
      cost_per_year: objective - free,
    },
  };
}

interface Tried {
  readonly plan: Plan;
  readonly conflicts: readonly Conflict[];
  readonly objective: number;
}

function dispatchWith(
  model: PlantModel,
  { plan: { sizes }, proof }: YearAnswer,
  rounded_m2: Float64Array,
  year: LpSolver,
  watched: Watch["watched"],
): Tried {
  const { problem } = model;
  const held =
    proof.method === "full-year"
      ? withFields(model, rounded_m2)
      : { ...atSizes(unlimited(problem), { ...sizes, fields_m2: rounded_m2 }), backups: problem.backups };
  const formulation = formulate(held);
  const solution = solved(year, formulation, watched);
  const primal = cleanAnswer(formulation, solution.primal);
  const plan = readPlan(formulation, primal, solution.rowDual);
  return {
    plan,
    conflicts: [
      ...unmetConflicts({ model, plan, formulation, rowDual: solution.rowDual }),
      ...limitConflicts(model, formulation, plan, year),
    ],
    objective: verify(formulation.program, primal, null).objective,
  };
}

/** The problem with the fields of modules held and everything else as free as it was. */
function withFields({ problem, fields }: PlantModel, rounded_m2: Float64Array): DispatchCase {
  const inModules = (f: number) => fields[f].collector.module_m2 !== undefined;
  const isHeld = new Set(fields.flatMap((_, f) => (inModules(f) ? [problem.fields[f].collector] : [])));
  return {
    ...problem,
    collectors: problem.collectors.map((collector, c) =>
      isHeld.has(c) ? { ...collector, least_m2: 0, most_m2: Number.POSITIVE_INFINITY } : collector,
    ),
    fields: problem.fields.map((field, f) =>
      inModules(f) ? { ...field, least_m2: rounded_m2[f], most_m2: rounded_m2[f] } : field,
    ),
  };
}

/** New aperture of each field in whole modules, the sum of a collector's fields within its bounds. */
export function roundedFields(
  { study, fields }: Pick<PlantModel, "study" | "fields">,
  fields_m2: Float64Array,
  modules_m2: readonly number[],
  rounding: Rounding,
): Float64Array {
  const rounded = fields_m2.map((area, f) => {
    const module_m2 = modules_m2[f];
    return module_m2 > 0 ? countOf(area / module_m2, rounding) * module_m2 : area;
  });
  for (const { id, size, module_m2 } of study.collectors) {
    if (module_m2 === undefined) continue;
    const own = fields.flatMap(({ collector }, f) => (collector.id === id ? [f] : []));
    const { least, most } = boundsOf(size);
    const total = () => own.reduce((all, f) => all + rounded[f], 0);
    const slack = 1e-6 * module_m2;
    while (total() > most + slack) {
      const most_up = own
        .filter((f) => rounded[f] > 0)
        .sort((a, b) => rounded[b] - fields_m2[b] - (rounded[a] - fields_m2[a]))[0];
      if (most_up === undefined) break;
      rounded[most_up] -= module_m2;
    }
    while (own.length > 0 && total() < least - slack) {
      const most_down = own.sort((a, b) => fields_m2[b] - rounded[b] - (fields_m2[a] - rounded[a]))[0]!;
      rounded[most_down] += module_m2;
    }
  }
  return rounded;
}

function countOf(modules: number, rounding: Rounding): number {
  const nearest = Math.round(modules);
  // The solver leaves traces of a module beside whole ones.
  if (Math.abs(modules - nearest) < 1e-4) return nearest;
  if (rounding === "nearest") return nearest;
  return rounding === "down" ? Math.floor(modules) : Math.ceil(modules);
}

function boundsOf(size: {
  readonly choice: string;
  readonly least?: number;
  readonly most?: number;
  readonly fixed?: number;
}) {
  if (size.choice === "fixed") return { least: size.fixed ?? 0, most: size.fixed ?? 0 };
  if (size.choice === "bounded")
    return { least: size.least ?? 0, most: size.most ?? Number.POSITIVE_INFINITY };
  return { least: 0, most: Number.POSITIVE_INFINITY };
}

/** Land and budget, which typical days' sizes are held against by hand. */
function keepsLimits({ problem }: PlantModel, sizes: NewSizes): boolean {
  const { land_m2, budget } = problem.limits;
  const within = (value: number, limit: number | null) =>
    limit === null || value <= limit * (1 + 1e-6) + 1e-6;
  return within(landOf(problem, sizes), land_m2) && within(capitalOf(problem, sizes), budget);
}

/** Marginal costs of heat stay those of the program in which all sizes were free to follow. */
function withPrices(plan: Plan, priced: Plan): Plan {
  return {
    ...plan,
    hours: {
      ...plan.hours,
      networks: plan.hours.networks.map((network, k) => ({
        ...network,
        marginal_per_kWh: priced.hours.networks[k].marginal_per_kWh,
      })),
    },
  };
}
