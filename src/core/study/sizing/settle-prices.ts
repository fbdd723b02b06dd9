import type { NewSizes } from "../../dispatch/case.ts";
import { hasExponent } from "../../economics/cost-part.ts";
import { annualCostOf } from "../../economics/part-cost.ts";
import { counts } from "../../economics/shared-costs.ts";
import { hasCostsBeyondLine, type LinearCost, leastBuilt } from "../linear-costs.ts";
import type { PlantModel } from "../plant-model.ts";
import { type PricedItem, pricedItems, sizeOfItem } from "../priced-items.ts";
import { boughtPlant, capitalOf, fullGrants, partsOf } from "../report/bought-plant.ts";
import { itemKey, type LeftOut, type Repriced, repriced } from "../repriced.ts";
import type { TruePrices } from "../true-prices.ts";
import type { YearAnswer } from "./year-answer.ts";

export interface Settled<A> {
  readonly answer: A;
  /** The plant with the program's prices that gave the answer. */
  readonly model: PlantModel;
  /** Null where every cost is in proportion to size. */
  readonly truePrices: TruePrices | null;
}

/** Sizes may still move by this share when their prices are called settled. */
const settledShare = 0.01;
const mostRounds = 12;
/** All ways of leaving out items are tried up to so many of them; more are left out one after the other. */
const mostItemsForAll = 3;

/**
 * Sizes of least true cost where parts have fixed prices or scale exponents and grants have a most, which no
 * linear program can hold. Costs are taken as their tangent at the last sizes until no size with a curved cost
 * moves by more than 1 %: the tangent lies nowhere below a cost that grows ever more slowly, so each round costs no
 * more than the one before. Then every way of doing without the built items that cost something once built is
 * sized too (up to three of them; beyond, one after the other as long as it pays), and doing without all that a
 * shared amount counts on; the cheapest by its true cost that keeps the budget is taken. The answer is the best that was tried: what is not convex may have better ones elsewhere.
 *
 * @param size sizes a plant whose costs are lines
 * @param objective annual cost of the year's program at the answer, unmet heat at its price
 */
export function settlePrices<A extends { readonly answer: Pick<YearAnswer, "plan"> }>(
  model: PlantModel,
  size: (priced: PlantModel, doing: string) => A,
  objective: (answer: A) => number,
): Settled<A> {
  if (!hasCostsBeyondLine(model.study)) return { answer: size(model, ""), model, truePrices: null };
  let runs = 0;
  const settle = (from: NewSizes | null, leftOut: LeftOut): Trial<A> => {
    let at = from;
    let best: Trial<A> | null = null;
    for (let round = 1; ; round += 1) {
      const pricing = repriced(model, at, leftOut);
      const { model: priced, costs } = pricing;
      runs += 1;
      const answer = size(priced, `Prices at the sizes found: run ${runs}`);
      const { sizes } = answer.answer.plan;
      const cost = objective(answer) + beyondLine(model, costs, sizes);
      const keepsBudget = isWithinBudget(model, sizes);
      const trial = { answer, model: priced, cost, leftOut, rounds: round, keepsBudget };
      const settled = round >= mostRounds || (keepsBudget && isSettled(model, pricing, sizes));
      // A grant that is full at one answer and not at the next goes to and fro; the dearer of both is left.
      const worse = best?.keepsBudget === true && cost > best.cost * (1 + 1e-9);
      best = best === null ? trial : better(trial, best);
      if (settled || worse) return { ...best, rounds: round };
      at = sizes;
    }
  };

  const all = settle(null, new Set());
  const trials = [all];
  const chosen = onceBuilt(all);
  if (chosen.length <= mostItemsForAll) {
    for (let bits = 1; bits < 2 ** chosen.length; bits += 1) {
      const leftOut = new Set(chosen.filter((_, i) => (bits >> i) % 2 === 1).map(itemKey));
      trials.push(settle(all.answer.answer.plan.sizes, leftOut));
    }
  } else leaveOutOneByOne(all);
  for (const { name, items } of sharedGroups(model))
    trials.push({ ...settle(all.answer.answer.plan.sizes, new Set(items.map(itemKey))), group: name });
  const best = trials.reduce((least, trial) => better(trial, least));
  return {
    answer: best.answer,
    model: best.model,
    truePrices: {
      runs,
      rounds: best.rounds,
      trials: trials.map(({ leftOut, cost, group, ...trial }) => ({
        without: group === undefined ? namesOf(model, leftOut) : [group],
        annualCost: cost,
        chosen: trial.answer === best.answer,
      })),
    },
  };

  /** Built items that cost something once built and that the study does not hold. */
  function onceBuilt({ model: priced, answer }: Trial<A>) {
    const { sizes } = answer.answer.plan;
    return repriced(model, sizes).costs.flatMap(({ item, annualOnceBuilt }) => {
      const size = sizeOfItem(item, sizes, priced.problem.fields);
      return annualOnceBuilt > 0 && size > leastBuilt && mayBeLeftOut(model, item) ? [item] : [];
    });
  }

  function leaveOutOneByOne(first: Trial<A>): void {
    let now = first;
    for (;;) {
      const next = onceBuilt(now).map((item) =>
        settle(now.answer.answer.plan.sizes, new Set([...now.leftOut, itemKey(item)])),
      );
      trials.push(...next);
      const best = next.reduce((least, trial) => better(trial, least), now);
      if (best === now) return;
      now = best;
    }
  }
}

interface Trial<A> {
  readonly answer: A;
  readonly model: PlantModel;
  readonly cost: number;
  readonly leftOut: LeftOut;
  readonly rounds: number;
  readonly keepsBudget: boolean;
  /** What is left out, where it is more than single items. */
  readonly group?: string;
}

/** The trial that keeps the budget, or of two alike the cheaper; the second where they cost the same. */
function better<A>(one: Trial<A>, other: Trial<A>): Trial<A> {
  if (one.keepsBudget !== other.keepsBudget) return one.keepsBudget ? one : other;
  return one.cost < other.cost * (1 - 1e-9) ? one : other;
}

function isWithinBudget(model: PlantModel, sizes: NewSizes): boolean {
  const budget = model.study.limits.budget ?? Number.POSITIVE_INFINITY;
  return capitalOf(model, sizes) <= budget * (1 + 1e-6) + 1e-6;
}

/** All that a shared cost with an amount counts on, so that doing without it is tried; what the study holds stays. */
function sharedGroups(model: PlantModel): { readonly name: string; readonly items: PricedItem[] }[] {
  const { money } = model.study;
  const withAmount = (money.sharedCosts ?? []).filter(
    ({ amount = 0, amount_per_year = 0 }) => amount > 0 || amount_per_year > 0,
  );
  return [...new Set(withAmount.map(({ on }) => on))].map((on) => ({
    name: on === "solar-plant" ? "any new solar plant" : "any new plant",
    items: pricedItems(model.study).filter(
      (item) => counts({ on }, item.isSolar) && mayBeLeftOut(model, item),
    ),
  }));
}

/** By how much the true annual cost of sizes lies above what the program's line says. */
function beyondLine(model: PlantModel, costs: readonly LinearCost[], sizes: NewSizes): number {
  const bought = annualCostOf(partsOf(boughtPlant(model, sizes)), model.study.money.realDiscountRate);
  const onLine = costs.reduce(
    (all, { item, annual_per_unit }) => all + annual_per_unit * sizeOfItem(item, sizes, model.problem.fields),
    0,
  );
  return bought - onLine;
}

/** Whether costs as they were taken still hold at the sizes that came of them. */
function isSettled(model: PlantModel, { costs, full }: Repriced, sizes: NewSizes): boolean {
  if (fullGrants(model, sizes).some((isFull, i) => isFull !== (full[i] ?? false))) return false;
  return costs.every(({ item, at }) => {
    if (!item.parts.some(hasExponent)) return true;
    const size = sizeOfItem(item, sizes, model.problem.fields);
    // What is not built at a price stays so.
    if (!(size > leastBuilt)) return true;
    return at !== null && Math.abs(size - at) <= settledShare * size;
  });
}

function mayBeLeftOut({ study }: PlantModel, { family, index }: PricedItem): boolean {
  const held = {
    collector: study.collectors[index]?.size,
    store: study.stores[index]?.size,
    charger: study.stores[index]?.charging?.size,
    "step-down": study.stepDowns[index]?.size,
    chiller: study.chillers[index]?.size,
    backup: study.backups[index]?.size,
  }[family];
  if (held === undefined || held.choice === "free") return true;
  return held.choice === "bounded" && !((held.least ?? 0) > 0);
}

function namesOf(model: PlantModel, leftOut: LeftOut): string[] {
  return pricedItems(model.study)
    .filter((item) => leftOut.has(itemKey(item)))
    .map(({ name }) => name);
}
