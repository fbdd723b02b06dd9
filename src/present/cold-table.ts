import type { Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { asGiven } from "./numbers.ts";
import { replaysIn } from "./promised.ts";
import { energy, mass, money, volume } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** What cold there is, what made it, and what that saves; empty without cold, or where an older answer lacks it. */
export function coldTables(study: Study, result: Result): TableView[] {
  const { cold } = result;
  if (cold === undefined || cold.length === 0) return [];
  const w = writingOf(study);
  const promised = replaysIn(result)?.simple.cold;
  const runs = [
    ...(promised === undefined ? [] : [{ by: "simple controller", cold: promised }]),
    { by: "perfect foresight", cold },
  ].flatMap(({ by, cold: years }) => years.map((year) => ({ by, year })));
  return [
    figuresTable(
      "What makes the cold",
      ["Load", "Run by", "Cold delivered", "By absorption", "Mean COP", "Heat rejected", "Tower water"],
      runs.map(({ by, year }) => [
        year.name,
        by,
        energy(year.delivered_kWh, w),
        energy(year.byAbsorption_kWh, w),
        year.meanCop === null ? "–" : asGiven(Math.round(100 * year.meanCop) / 100, w.locale),
        energy(year.rejected_kWh, w),
        year.towerWater_m3 === null ? "not said" : volume(year.towerWater_m3, w),
      ]),
      ["Run by"],
    ),
    figuresTable(
      "Electricity that cold from heat avoids, against today’s plant at first-year prices",
      ["Load", "Run by", "Electricity", "Its cost", "Its CO2"],
      runs.map(({ by, year }) => [
        year.name,
        by,
        energy(year.electricityAvoided_kWh, w),
        money(year.electricityCostAvoided, w),
        year.co2Avoided_kg === null ? "no factor given" : mass(year.co2Avoided_kg, w),
      ]),
      ["Run by"],
    ),
  ];
}
