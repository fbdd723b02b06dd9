import type { DispatchCase, NewSizes, SizeCase } from "../dispatch/case.ts";
import type { FullGrants } from "../economics/shared-costs.ts";
import { costsByPlace, hasCostsBeyondLine, type LinearCost, linearCosts } from "./linear-costs.ts";
import type { PlantModel } from "./plant-model.ts";
import { type PricedItem, sizeOfItem } from "./priced-items.ts";
import { capitalOf, fullGrants } from "./report/bought-plant.ts";

/** Items that may not be built in a trial, by family and place. */
export type LeftOut = ReadonlySet<string>;

export const itemKey = ({ family, index }: PricedItem): string => `${family}/${index}`;

export interface Repriced {
  readonly model: PlantModel;
  readonly costs: readonly LinearCost[];
  /** Grants taken to have reached their most. */
  readonly full: FullGrants;
}

/**
 * The plant with the program's costs as the line that touches the true costs at given sizes; the budget is less
 * by what the line leaves out there. Items of `leftOut` cannot be built.
 *
 * @param at null: each part has the price that it names
 */
export function repriced(model: PlantModel, at: NewSizes | null, leftOut: LeftOut = new Set()): Repriced {
  const { study, problem } = model;
  const full = at === null ? [] : fullGrants(model, at);
  const costs = linearCosts(
    study,
    at === null ? null : { sizes: at, fields: problem.fields, fullGrants: full },
  );
  const budget = study.limits.budget ?? null;
  const offLine = at === null ? 0 : capitalOf(model, at) - capitalOnLine(costs, at, problem.fields);
  return {
    costs,
    full,
    model: {
      ...model,
      problem: withCosts(
        {
          ...problem,
          limits: { ...problem.limits, budget: budget === null ? null : Math.max(0, budget - offLine) },
        },
        costs,
        leftOut,
      ),
    },
  };
}

/** The plant with the program's costs as lines that touch the true ones at given sizes. */
export function atTruePrices(model: PlantModel, at: NewSizes): PlantModel {
  return hasCostsBeyondLine(model.study) ? repriced(model, at).model : model;
}

/** What the program counts against its budget. */
function capitalOnLine(
  costs: readonly LinearCost[],
  sizes: NewSizes,
  fields: readonly { readonly collector: number }[],
): number {
  return costs.reduce(
    (all, { item, initial_per_unit }) => all + initial_per_unit * sizeOfItem(item, sizes, fields),
    0,
  );
}

function withCosts(problem: DispatchCase, costs: readonly LinearCost[], leftOut: LeftOut): DispatchCase {
  const sizer = (family: PricedItem["family"]) => {
    const costAt = costsByPlace(costs, family);
    return (size: SizeCase, index: number): SizeCase => ({
      ...size,
      ...costAt(index),
      ...(leftOut.has(`${family}/${index}`) ? { least: 0, most: 0 } : {}),
    });
  };
  const store = sizer("store");
  const charger = sizer("charger");
  const stepDown = sizer("step-down");
  const chiller = sizer("chiller");
  const backup = sizer("backup");
  const collectorCost = costsByPlace(costs, "collector");
  const isOut = (collector: number) => leftOut.has(`collector/${collector}`);
  return {
    ...problem,
    collectors: problem.collectors.map((item, i) => {
      const { annualCost_per_unit, initialCost_per_unit } = collectorCost(i);
      return { ...item, annualCost_per_m2: annualCost_per_unit, initialCost_per_m2: initialCost_per_unit };
    }),
    fields: problem.fields.map((field) =>
      isOut(field.collector) ? { ...field, least_m2: 0, most_m2: 0 } : field,
    ),
    stores: problem.stores.map((item, i) => ({
      ...item,
      size: store(item.size, i),
      charger: item.charger === null ? null : charger(item.charger, i),
    })),
    stepDowns: problem.stepDowns.map((item, i) => ({ ...item, size: stepDown(item.size, i) })),
    chillers: problem.chillers.map((item, i) => ({ ...item, size: chiller(item.size, i) })),
    backups: problem.backups.map((item, i) => ({ ...item, size: backup(item.size, i) })),
  };
}
