import type { Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { cashFlowColumns } from "../../core/summary/cash-flow-columns.ts";
import { backupWords } from "../../present/backup-words.ts";
import { asGiven, threeDigits } from "../../present/numbers.ts";
import { partLife } from "../../present/part-life.ts";
import { bareMoney } from "../../present/quantities.ts";
import { figuresTable, type TableView } from "../../present/table-view.ts";
import { writingOf } from "../../present/writing-of.ts";
import type { NoteBook, NoteKey } from "./notes.ts";

/** A table whose caption leads to the note of its figures. */
export interface NotedTable extends TableView {
  readonly note: number | null;
}

export function noted(table: TableView, notes: NoteBook, key: NoteKey): NotedTable {
  return { ...table, note: notes.number(key) };
}

/** A table without rows that hold nothing but zeros. */
export function withoutZeroRows(table: TableView): TableView {
  return { ...table, rows: table.rows.filter((row) => !row.slice(1).every((cell) => /^0(\D|$)/.test(cell))) };
}

type Priced = Pick<
  Study["electricity"],
  "price_per_kWh" | "hourFactors" | "monthFactors" | "yearFactors" | "priceFile"
>;

/** Every part of the new plant with its price and life. */
export function partsTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  const { parts, initialCapital } = result.money;
  const sum = (of: (part: (typeof parts)[number]) => number) =>
    bareMoney(
      parts.reduce((all, part) => all + of(part), 0),
      w.locale,
    );
  return figuresTable(
    `What the new plant is made of, ${w.currency}`,
    ["Part", "Of", "Size", "Price a unit", "First cost", "Life", "Upkeep a year", "Annual cost"],
    [
      ...parts.map((p) => [
        p.part,
        p.item,
        `${threeDigits(p.quantity, w.locale)} ${p.unit}`,
        bareMoney(p.price / p.quantity, w.locale),
        bareMoney(p.price, w.locale),
        partLife(p.life_years, w),
        bareMoney(p.upkeep_per_year, w.locale),
        bareMoney(p.annualCost, w.locale),
      ]),
      [
        "All",
        "",
        "",
        "",
        bareMoney(initialCapital, w.locale),
        "",
        sum((p) => p.upkeep_per_year),
        sum((p) => p.annualCost),
      ],
    ],
    ["Of"],
  );
}

/** The cash flow year by year. */
export function cashFlowTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  const { cashFlow } = result.money;
  const columns = cashFlowColumns(cashFlow);
  return figuresTable(
    `Cash flow, ${w.currency} of the first year’s value`,
    ["Year", ...columns.map(({ title }) => title)],
    cashFlow.map((year) => [String(year.year), ...columns.map(({ of }) => bareMoney(of(year), w.locale))]),
  );
}

/** Prices and rates that every money figure rests on, given or assumed. */
export function ratesTable(study: Study): TableView {
  const w = writingOf(study);
  const { money: m, electricity: e } = study;
  const span = (factors: readonly number[] | undefined, by: string) =>
    factors === undefined
      ? ""
      : `, times ${asGiven(Math.min(...factors), w.locale)} to ${asGiven(Math.max(...factors), w.locale)} by ${by}`;
  const pricedBy = (
    { priceFile, price_per_kWh, hourFactors, monthFactors, yearFactors }: Priced,
    basis = "",
  ) => {
    const on = basis === "" ? "" : ` ${basis}`;
    const byYear = span(yearFactors, "the year of the period");
    if (priceFile !== undefined)
      return `by the hour, from a file${on === "" ? "" : `, per kWh${on}`}${byYear}`;
    const factors = `${span(hourFactors, "the hour of the day")}${span(monthFactors, "the month")}${byYear}`;
    return `${asGiven(price_per_kWh, w.locale)} ${w.currency}/kWh${on}${factors}`;
  };
  const rise = (value: number) => `${asGiven(Math.round(value * 1e4) / 100, w.locale)} % a year, real`;
  return figuresTable(
    "Prices and rates",
    ["", "Value", "Rise"],
    [
      ["Period of analysis", `${m.years} years`, ""],
      [
        "Discount rate",
        `${asGiven(Math.round(m.realDiscountRate * 1e4) / 100, w.locale)} % a year, real`,
        "",
      ],
      ...study.backups.map((backup) => [
        `${backup.name}: ${backup.fuel.kind.replaceAll("-", " ")}`,
        [pricedBy(backup.fuel, isBurnt(backup) ? backup.fuel.heatingValue : ""), backupWords(backup, w)]
          .filter((part) => part !== "")
          .join(", "),
        rise(backup.fuel.escalation_per_year),
      ]),
      ["Electricity", pricedBy(e), rise(e.escalation_per_year)],
      [
        "Carbon",
        `${asGiven(m.carbonPrice_per_t, w.locale)} ${w.currency}/t CO₂`,
        m.carbonPrice_per_t > 0 ? rise(m.carbonEscalation_per_year) : "",
      ],
    ],
    ["Value", "Rise"],
  );
}

/** False for electricity and waste heat, which have no heating value. */
function isBurnt({ fuel }: Study["backups"][number]): boolean {
  return fuel.kind !== "electricity" && fuel.kind !== "waste-heat";
}
