import type { ReplayFigures, Replays, Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { missingFigure } from "./numbers.ts";
import { energy, heatPrice, money, percent, volume, type Writing, years } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** The same plant by three ways of knowing the year: energy, money, and what is not served. */
export function replayTable(study: Study, result: Result, replays: Replays): TableView {
  return tableOf("The same plant and year, by how much of it is known", study, result, replays, [
    ...mainRows,
    ...moneyRows,
    ...energyRows,
    ...lackRows,
  ]);
}

/** The money in figures, of what is promised, of the two-day plan and of the bound. */
export function promisedMoneyTable(study: Study, result: Result, replays: Replays): TableView {
  return tableOf("The money in figures, by how much of the year is known", study, result, replays, [
    ...mainRows,
    ["The same over the period, not discounted", ({ money: m }, w) => money(m.fuelCostAvoidedOverPeriod, w)],
    ["Initial capital of new plant", ({ money: m }, w) => money(m.initialCapital, w)],
    ...moneyRows,
    ...lackRows,
  ]);
}

/** One way of running the plant; what only replays have is null for the bound. */
interface Way extends Pick<ReplayFigures, "annual" | "levelised" | "money" | "wasted_kWh"> {
  readonly gap_per_year: number | null;
  readonly left_kWh: number | null;
}

/** Title, text of the cell, and where given which size is worth a row: else the row is always there. */
type Row = readonly [title: string, of: (way: Way, w: Writing) => string, worth?: (way: Way) => boolean];

const mainRows: readonly Row[] = [
  ["Solar fraction", ({ annual }, w) => percent(annual.solarFraction, w)],
  ["Fuel and electricity cost avoided, first year", ({ annual }, w) => money(annual.fuelCostAvoided, w)],
];

const moneyRows: readonly Row[] = [
  ["Annual cost with the new plant, levelised", ({ levelised }, w) => money(levelised.annualCost, w)],
  [
    "Dearer than perfect foresight, a year",
    ({ gap_per_year: gap }, w) => (gap === null ? missingFigure : money(gap, w)),
  ],
  ["Levelised cost of solar heat used", ({ levelised }, w) => heatPrice(levelised.solarHeat_per_kWh, w)],
  ["Simple pay-back", ({ money: m }, w) => years(m.simplePayback_years, w)],
  ["Discounted pay-back", ({ money: m }, w) => years(m.discountedPayback_years, w)],
  ["Net present value", ({ money: m }, w) => money(m.npv, w)],
  ["Internal rate of return, real", ({ money: m }, w) => percent(m.irr, w)],
];

const energyRows: readonly Row[] = [
  ["Heat from backup", ({ annual }, w) => energy(annual.backup_kWh, w)],
  ["Spilled", ({ annual }, w) => energy(annual.spilled_kWh, w)],
  [
    "Left in stores at the year’s end",
    ({ left_kWh: left }, w) => (left === null ? missingFigure : energy(left, w)),
    ({ left_kWh }) => (left_kWh ?? 0) > 1,
  ],
];

const lackRows: readonly Row[] = [
  [
    "Burnt at least load and taken by nothing",
    ({ wasted_kWh }, w) => energy(wasted_kWh, w),
    ({ wasted_kWh }) => wasted_kWh > 1,
  ],
  ["Heat not met", ({ annual }, w) => energy(annual.unmet_kWh, w), ({ annual }) => annual.unmet_kWh > 1],
  [
    "Cold not met",
    ({ annual }, w) => energy(annual.unmetCold_kWh, w),
    ({ annual }) => annual.unmetCold_kWh > 1,
  ],
  [
    "Water not delivered",
    ({ annual }, w) => volume(annual.unmetWater_m3, w),
    ({ annual }) => annual.unmetWater_m3 > 0.1,
  ],
];

function tableOf(
  caption: string,
  study: Study,
  result: Result,
  replays: Replays,
  rows: readonly Row[],
): TableView {
  const w = writingOf(study);
  const { annual, levelised, money: m } = result;
  const bound: Way = { annual, levelised, money: m, gap_per_year: null, wasted_kWh: 0, left_kWh: null };
  const ways = [replays.simple, replays.twoDay, bound] as const;
  return figuresTable(
    caption,
    ["", "Simple controller, promised", "Plan two days ahead", "Perfect foresight, the bound"],
    rows
      .filter(([, , worth]) => worth === undefined || ways.some((way) => way !== null && worth(way)))
      .map(([title, of]) => [title, ...ways.map((way) => (way === null ? "not run" : of(way, w)))]),
  );
}
