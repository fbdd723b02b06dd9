import type { Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { threeDigits } from "./numbers.ts";
import { money, percent, years } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** What each part adds to the cost of the solar heat used, dearest first; null where there is none. */
export function heatCostTable(study: Study, { levelised }: Result): TableView | null {
  const parts = levelised.solarHeatParts ?? [];
  const whole = levelised.solarHeat_per_kWh;
  if (parts.length === 0 || whole === null) return null;
  const w = writingOf(study);
  const sorted = [...parts].sort((a, b) => b.cost_per_kWh - a.cost_per_kWh);
  return figuresTable(
    "What a unit of solar heat costs, by part",
    ["Part", "Of", `Cost, ${w.currency}/MWh`, "Share"],
    [
      ...sorted.map(({ item, part, cost_per_kWh }) => [
        part,
        item,
        threeDigits(cost_per_kWh * 1000, w.locale),
        percent(cost_per_kWh / whole, w),
      ]),
      ["All", "", threeDigits(whole * 1000, w.locale), percent(1, w)],
    ],
    ["Of"],
  );
}

/** The same plant on other courses of prices; null where the study names none. */
export function pricePathsTable(study: Study, result: Result): TableView | null {
  const { money: own } = result;
  const paths = own.pricePaths ?? [];
  if (paths.length === 0) return null;
  const w = writingOf(study);
  return figuresTable(
    "The same plant on other courses of prices",
    [
      "Prices",
      "Net present value",
      "Internal rate of return, real",
      "Discounted pay-back",
      "Cost avoided over the period",
    ],
    [{ name: "As given above", ...own }, ...paths].map((path) => [
      path.name,
      money(path.npv, w),
      percent(path.irr, w),
      years(path.discountedPayback_years, w),
      money(path.fuelCostAvoidedOverPeriod, w),
    ]),
  );
}

/** How sizes were found where costs are not in proportion to them, in sentences; none where they are. */
export function truePriceSentences(study: Study, { truePrices }: Result): string[] {
  if (truePrices === undefined || truePrices === null) return [];
  const w = writingOf(study);
  const { trials, runs, rounds } = truePrices;
  const chosen = trials.find((trial) => trial.chosen);
  const rest = trials.filter((trial) => !trial.chosen);
  const names = (without: readonly string[]) =>
    without.length === 0 ? "with everything offered" : `without ${without.join(", ")}`;
  return [
    `Fixed prices, scale exponents and limited grants are no lines, so the plant was sized ${runs} times; prices stood after ${rounds} ${rounds === 1 ? "run" : "runs"}. The answer is the cheapest that was tried, which is no proof that there is no cheaper one.`,
    ...(chosen === undefined || rest.length === 0
      ? []
      : [
          `Annual cost ${names(chosen.without)}: ${money(chosen.annualCost, w)}; ${rest
            .map(({ without, annualCost }) => `${names(without)}: ${money(annualCost, w)}`)
            .join("; ")}.`,
        ]),
  ];
}
