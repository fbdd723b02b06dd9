import { type Cycle, lowestCop, type StoreCase } from "./case.ts";
import type { Draft } from "./formulate.ts";
import type { Layout } from "./layout.ts";

/**
 * Rows that tie the whole year: one collector type on several networks, land, budget, least solar
 * fraction. Land, budget and fraction may be stretched at a price like that of unmet heat, so that a
 * program whose limits conflict still has an answer that says by how much.
 */
export function addYearLimits(draft: Draft): void {
  addCollectorBounds(draft);
  addLand(draft);
  addBudget(draft);
  addLeastSolarFraction(draft);
}

function addCollectorBounds({ problem, builder, layout }: Draft): void {
  problem.collectors.forEach((collector, c) => {
    if (collector.least_m2 === 0 && collector.most_m2 === Number.POSITIVE_INFINITY) return;
    const r = builder.row(
      builder.family(`collector.${collector.id}`),
      -1,
      collector.least_m2,
      collector.most_m2,
    );
    problem.fields.forEach((field, f) => {
      if (field.collector === c && layout.sizes.fields[f] >= 0) builder.entry(r, layout.sizes.fields[f], 1);
    });
  });
}

/** kWh that a m² is taken to be worth when the land is stretched: about a sunny year. */
const kWhPerSquareMetre = 2000;
/** What a unit of money beyond the budget costs a year, in the same money, so that no currency matters. */
const stretchedBudget_per_unit = 1e5;

function addLand(draft: Draft): void {
  const { problem, builder, layout } = draft;
  const { land_m2 } = problem.limits;
  if (land_m2 === null) return;
  let held_m2 = 0;
  const r = { entries: [] as [number, number][] };
  problem.fields.forEach((field, f) => {
    const { groundCover } = problem.collectors[field.collector];
    const sized = layout.sizes.fields[f] >= 0;
    held_m2 += (field.existing_m2 + (sized ? 0 : field.least_m2)) / groundCover;
    if (sized) r.entries.push([layout.sizes.fields[f], 1 / groundCover]);
  });
  const row = builder.row(builder.family("land"), -1, Number.NEGATIVE_INFINITY, land_m2 - held_m2);
  for (const [column, value] of r.entries) builder.entry(row, column, value);
  layout.rows.land = row;
  layout.stretch.land = stretch(draft, "stretch.land", row, problem.unmetPrice_per_kWh * kWhPerSquareMetre);
}

function addBudget(draft: Draft): void {
  const { problem, builder, layout } = draft;
  const { budget } = problem.limits;
  if (budget === null) return;
  let held = 0;
  const entries: [number, number][] = [];
  const spend = (column: number, least: number, initialCost_per_unit: number) => {
    if (column >= 0) entries.push([column, initialCost_per_unit]);
    else held += least * initialCost_per_unit;
  };
  problem.fields.forEach((field, f) => {
    spend(layout.sizes.fields[f], field.least_m2, problem.collectors[field.collector].initialCost_per_m2);
  });
  problem.stores.forEach((item, i) => {
    spend(layout.sizes.stores[i], item.size.least, item.size.initialCost_per_unit);
    if (item.charger !== null)
      spend(layout.sizes.chargers[i], item.charger.least, item.charger.initialCost_per_unit);
  });
  problem.stepDowns.forEach((item, i) => {
    spend(layout.sizes.stepDowns[i], item.size.least, item.size.initialCost_per_unit);
  });
  problem.chillers.forEach((item, i) => {
    spend(layout.sizes.chillers[i], item.size.least, item.size.initialCost_per_unit);
  });
  problem.backups.forEach((item, i) => {
    spend(layout.sizes.backups[i], item.size.least, item.size.initialCost_per_unit);
  });
  const row = builder.row(builder.family("budget"), -1, Number.NEGATIVE_INFINITY, budget - held);
  for (const [column, value] of entries) builder.entry(row, column, value);
  layout.rows.budget = row;
  layout.stretch.budget = stretch(draft, "stretch.budget", row, stretchedBudget_per_unit);
}

/**
 * Σ(backup + unmet) ≤ (1 − f)·Σ(heat drawn by all loads), where an absorption chiller's heat counts as
 * far as its cold is used: else a cold store that wastes solar cold would raise the fraction.
 */
function addLeastSolarFraction(draft: Draft): void {
  const { layout, problem } = draft;
  const { leastSolarFraction } = problem.limits;
  if (leastSolarFraction === null) return;
  if (problem.fractionYears === undefined) {
    const all = { start: 0, length: problem.blocks };
    const { row, stretch } = addFraction(draft, leastSolarFraction, all, "leastSolarFraction");
    layout.rows.fraction = row;
    layout.stretch.fraction = stretch;
  } else {
    problem.fractionYears.forEach((year, y) => {
      layout.yearFractions.push(addFraction(draft, leastSolarFraction, year, `leastSolarFraction.${y + 1}`));
    });
  }
}

function addFraction(
  draft: Draft,
  leastSolarFraction: number,
  { start, length }: Cycle,
  name: string,
): Layout["yearFractions"][number] {
  const { problem, builder, layout, hours } = draft;
  const end = start + length;
  const allowed = 1 - leastSolarFraction;
  let fixed_kWh = 0;
  for (const network of problem.networks) {
    for (let t = start; t < end; t += 1) fixed_kWh += hours[t] * network.fixed_kW[t];
  }
  const row = builder.row(builder.family(name), -1, Number.NEGATIVE_INFINITY, allowed * fixed_kWh);
  const each = (columns: Int32Array, factor: number) => {
    if (factor === 0) return;
    for (let t = start; t < end; t += 1) {
      if (columns[t] >= 0) builder.entry(row, columns[t], hours[t] * factor);
    }
  };
  const wasteOfCold = (store: StoreCase, cold: number, s: number) => {
    const cop = lowestCop(problem, cold);
    if (cop === null) return;
    const heat_per_cold = 1 / cop;
    each(layout.charge[s], allowed * heat_per_cold);
    each(layout.discharge[s], -allowed * heat_per_cold * store.dischargeEfficiency);
  };
  for (const columns of layout.backup) each(columns, 1);
  for (const columns of layout.unmet) each(columns, 1);
  problem.chillers.forEach((chiller, i) => {
    const columns = layout.chilled[i];
    if (allowed === 0) return;
    for (let t = start; t < end; t += 1)
      if (columns[t] >= 0) builder.entry(row, columns[t], hours[t] * (-allowed / chiller.cop[t]));
  });
  problem.stores.forEach((store, s) => {
    if (!("network" in store.serves)) wasteOfCold(store, store.serves.cold, s);
  });
  problem.water.forEach((order, w) => {
    const columns = layout.made[w];
    if (allowed === 0) return;
    for (let t = start; t < end; t += 1)
      if (columns[t] >= 0) builder.entry(row, columns[t], hours[t] * (-allowed * order.heat_kWh_per_m3[t]));
  });
  for (const columns of layout.batch) each(columns, -allowed);
  return { row, stretch: stretch(draft, `stretch.${name}`, row, problem.unmetPrice_per_kWh) };
}

/** A column that lets a ≤ row be exceeded, at a price. */
function stretch({ builder }: Draft, name: string, row: number, price: number): number {
  const column = builder.column(builder.family(name), -1, price, 0, Number.POSITIVE_INFINITY);
  builder.entry(row, column, -1);
  return column;
}
