import type { DispatchCase, NewSizes } from "../../dispatch/case.ts";

/** First price of all new plant as the program counts it against the budget, currency. */
export function capitalOnLine(problem: DispatchCase, sizes: NewSizes): number {
  let capital = 0;
  problem.fields.forEach((field, f) => {
    capital += sizes.fields_m2[f] * problem.collectors[field.collector].initialCost_per_m2;
  });
  const add = (
    items: readonly { readonly size: { readonly initialCost_per_unit: number } }[],
    news: Float64Array,
  ) => {
    items.forEach((item, i) => {
      capital += news[i] * item.size.initialCost_per_unit;
    });
  };
  add(problem.stores, sizes.stores_kWh);
  problem.stores.forEach(({ charger }, i) => {
    if (charger !== null) capital += sizes.chargers_kW[i] * charger.initialCost_per_unit;
  });
  add(problem.stepDowns, sizes.stepDowns_kW);
  add(problem.chillers, sizes.chillers_kW);
  add(problem.backups, sizes.backups_kW);
  return capital;
}
