import type { NewSizes } from "../../dispatch/case.ts";
import { type CostPart, partAtSize } from "../../economics/cost-part.ts";
import { initialCapitalOf, type PartQuantity } from "../../economics/part-cost.ts";
import { counts, type FullGrants, grantPart, landParts } from "../../economics/shared-costs.ts";
import { leastBuilt } from "../linear-costs.ts";
import type { PlantModel } from "../plant-model.ts";
import { pricedItems, sizeOfItem } from "../priced-items.ts";
import type { Grant, Money } from "../schema/study.ts";

/** What is bought new under one heading, at its true price. */
export interface Bought {
  readonly item: string;
  readonly unit: string;
  readonly quantity: number;
  readonly parts: readonly CostPart[];
  readonly isSolar: boolean;
}

/** All new plant at its true price: items at their sizes, then shared costs, land and grants, each as one sum. */
export function boughtPlant(
  { study, problem }: Pick<PlantModel, "study" | "problem">,
  sizes: NewSizes,
): Bought[] {
  const built = pricedItems(study).flatMap((item) => {
    const quantity = sizeOfItem(item, sizes, problem.fields);
    if (!(quantity > leastBuilt)) return [];
    return [{ ...item, quantity, parts: item.parts.map((part) => partAtSize(part, quantity)) }];
  });
  const items = built.map(
    ({ name, unit, quantity, parts, isSolar }): Bought => ({ item: name, unit, quantity, parts, isSolar }),
  );
  const land_m2 = built.reduce((all, { land_m2, quantity }) => all + land_m2 * quantity, 0);
  return [
    ...items,
    ...sharedCosts(items, study.money),
    ...landOf(land_m2, study.money),
    ...grants(items, study.money),
  ];
}

export const partsOf = (bought: readonly Bought[]): PartQuantity[] =>
  bought.flatMap(({ parts, quantity }) => parts.map((part) => ({ part, quantity })));

/** First price of all new plant less grants paid with it, currency. */
export function capitalOf(model: Pick<PlantModel, "study" | "problem">, sizes: NewSizes): number {
  return initialCapitalOf(partsOf(boughtPlant(model, sizes)));
}

/** Which grants have reached their most at given sizes. */
export function fullGrants({ study, problem }: PlantModel, sizes: NewSizes): FullGrants {
  const items = boughtPlant({ study: { ...study, money: { ...study.money, grants: [] } }, problem }, sizes);
  return (study.money.grants ?? []).map(
    (grant) => grant.most !== undefined && grant.share * fundable(items, grant) > grant.most,
  );
}

/** Halves of the plant on which a shared cost or grant counts: solar plant and the rest. */
const halves = [true, false] as const;

function sharedCosts(items: readonly Bought[], money: Money): Bought[] {
  return (money.sharedCosts ?? []).flatMap((cost) => {
    const { name, share = 0, share_per_year = 0, amount = 0, amount_per_year = 0 } = cost;
    const bases = halves.map((isSolar) => (counts(cost, isSolar) ? firstPrice(items, isSolar) : 0));
    const base = bases[0]! + bases[1]!;
    if (!items.some((item) => counts(cost, item.isSolar))) return [];
    return halves.flatMap((isSolar, half): Bought[] => {
      // What is fixed goes with the solar plant where there is any.
      const holdsAmount = isSolar ? bases[0]! > 0 || base === 0 : bases[0] === 0 && base > 0;
      const price_per_unit = share * bases[half]! + (holdsAmount ? amount : 0);
      const upkeep = share_per_year * bases[half]! + (holdsAmount ? amount_per_year : 0);
      if (price_per_unit === 0 && upkeep === 0) return [];
      return [
        oneSum(name, isSolar, {
          name,
          price_per_unit,
          life_years: money.years,
          upkeep_per_unit_year: upkeep,
        }),
      ];
    });
  });
}

function landOf(land_m2: number, money: Money): Bought[] {
  const parts = land_m2 > 0 ? landParts(1, money) : [];
  if (parts.length === 0) return [];
  return [{ item: "Land under new collectors", unit: "m² land", quantity: land_m2, parts, isSolar: true }];
}

function grants(items: readonly Bought[], money: Money): Bought[] {
  const withShared = [...items, ...sharedCosts(items, money)];
  return (money.grants ?? []).flatMap((grant) => {
    const whole = fundable(withShared, grant);
    const given = Math.min(grant.share * whole, grant.most ?? Number.POSITIVE_INFINITY);
    return halves.flatMap((isSolar): Bought[] => {
      const base = counts(grant, isSolar) ? firstPrice(withShared, isSolar) : 0;
      if (!(base > 0 && given > 0)) return [];
      return [oneSum(grant.name, isSolar, grantPart(grant, (given * base) / whole, money))];
    });
  });
}

/** First price on which a grant counts; land is not in `items`, or counts nothing. */
function fundable(items: readonly Bought[], grant: Grant): number {
  return halves.reduce((all, isSolar) => all + (counts(grant, isSolar) ? firstPrice(items, isSolar) : 0), 0);
}

function firstPrice(items: readonly Bought[], isSolar: boolean): number {
  return items.reduce(
    (all, { parts, quantity, isSolar: solar }) =>
      solar === isSolar
        ? all +
          quantity *
            parts.reduce((sum, part) => (part.life_years === Infinity ? sum : sum + part.price_per_unit), 0)
        : all,
    0,
  );
}

function oneSum(name: string, isSolar: boolean, part: CostPart): Bought {
  return {
    item: isSolar ? "Solar plant" : "Other new plant",
    unit: "",
    quantity: 1,
    parts: [{ ...part, name }],
    isSolar,
  };
}
