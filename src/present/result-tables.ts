import type { AreaCurve, CurvePoint, NetworkYear, Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { modulesInWords, peakInWords } from "./field-words.ts";
import { asGiven, threeDigits } from "./numbers.ts";
import { partLife } from "./part-life.ts";
import {
  area,
  bareMoney,
  energy,
  heatPrice,
  mass,
  money,
  percent,
  power,
  volume,
  years,
} from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

const nameIn = (list: readonly { readonly id: string; readonly name: string }[], id: string) =>
  list.find((item) => item.id === id)?.name ?? id;

/** What each collector could do on each network it may serve. */
export function matchTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  return figuresTable(
    "What a square metre of each collector gives on each heat network",
    [
      "Collector",
      "On",
      "Mean fluid",
      "Useful heat a year",
      "Cost collected",
      "Share it could reach",
      "Hours running",
      "Hours stowed",
    ],
    result.match.map((row) => [
      nameIn(study.collectors, row.collector),
      nameIn(study.networks, row.network),
      `${asGiven(Math.round(row.meanFluid_C), w.locale)} °C`,
      row.possible ? `${threeDigits(row.useful_kWh_per_m2, w.locale)} kWh/m²` : "not possible",
      heatPrice(row.cost_per_kWh, w),
      percent(row.reachableShare, w),
      asGiven(Math.round(row.runningHours), w.locale),
      asGiven(Math.round(row.stowedHours), w.locale),
    ]),
    ["On"],
  );
}

/** What the program chose of everything it was offered. */
export function sizesTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  const { sizes } = result;
  const some = (size: number, words: string) => (size > 1e-6 ? words : "none");
  const row = (name: string, isNew: string, existing: string) => [name, isNew, existing];
  const downOf = (id: string) => {
    const down = study.stepDowns.find((item) => item.id === id);
    if (down === undefined) return id;
    return `Step-down from ${nameIn(study.networks, down.from)} to ${nameIn(study.networks, down.to)}`;
  };
  const onLand = (
    id: string,
    network: string,
    aperture_m2: number,
    told: readonly (string | null)[] = [],
  ) => {
    const cover = study.collectors.find((item) => item.id === id)?.groundCover ?? Number.NaN;
    const land = cover > 0 ? ` on ${area(aperture_m2 / cover, w)} of land` : "";
    const peak = peakInWords(result, { id, network, aperture_m2 }, w);
    const more = [...told, peak === null ? null : `up to ${peak}`].filter(
      (words) => words !== null && words !== "",
    );
    return `${area(aperture_m2, w)}${land}${more.length === 0 ? "" : `, ${more.join(", ")}`}`;
  };
  const rows: string[][] = [
    ...sizes.collectors.map((c) =>
      row(
        `${nameIn(study.collectors, c.id)} on ${nameIn(study.networks, c.network)}`,
        some(
          c.aperture_m2 - c.existing_m2,
          onLand(c.id, c.network, c.aperture_m2 - c.existing_m2, [
            modulesInWords(result, c.id, c.network, w),
          ]),
        ),
        some(c.existing_m2, onLand(c.id, c.network, c.existing_m2)),
      ),
    ),
    ...sizes.stores.map((s) =>
      row(
        nameIn(study.stores, s.id),
        some(
          s.capacity_kWh - s.existing_kWh,
          `${energy(s.capacity_kWh - s.existing_kWh, w)} (${volume(s.volume_m3, w)} in all)`,
        ),
        some(s.existing_kWh, energy(s.existing_kWh, w)),
      ),
    ),
    ...sizes.stores.flatMap((s) => {
      const existing_kW = study.stores.find(({ id }) => id === s.id)?.charging?.existing_kW ?? 0;
      if (s.charge_kW === null) return [];
      return [
        row(
          `Charging of ${nameIn(study.stores, s.id)}`,
          some(s.charge_kW - existing_kW, power(s.charge_kW - existing_kW, w)),
          some(existing_kW, power(existing_kW, w)),
        ),
      ];
    }),
    ...sizes.stepDowns.map((x) =>
      row(
        downOf(x.id),
        some(x.heat_kW - x.existing_kW, power(x.heat_kW - x.existing_kW, w)),
        some(x.existing_kW, power(x.existing_kW, w)),
      ),
    ),
    ...sizes.chillers.map((x) =>
      row(
        nameIn(study.chillers, x.id),
        some(x.cold_kW - x.existing_kW, `${power(x.cold_kW - x.existing_kW, w)} of cold`),
        some(x.existing_kW, power(x.existing_kW, w)),
      ),
    ),
    ...sizes.backups.map((x) =>
      row(
        nameIn(study.backups, x.id),
        some(x.heat_kW, power(x.heat_kW, w)),
        x.existing_kW === null ? "as needed" : some(x.existing_kW, power(x.existing_kW, w)),
      ),
    ),
  ];
  return figuresTable("Sizes", ["Plant", "New", "There today"], rows);
}

/** Remarks on the rows of the match table, in sentences. */
export function matchRemarks(result: Result): string[] {
  return [...new Set(result.match.map(({ remark }) => remark).filter((remark) => remark !== ""))];
}

export function networksTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  const { networks } = result;
  const line = (title: string, of: (network: NetworkYear) => string) => [title, ...networks.map(of)];
  return figuresTable(
    "Heat of a year, by heat network",
    ["", ...networks.map(({ name }) => name)],
    [
      line("Supply", (n) => `${asGiven(Math.round(n.supply_C), w.locale)} °C`),
      line("Demand", (n) => energy(n.demand_kWh, w)),
      line("Solar, used", (n) => energy(n.solar_kWh, w)),
      line("Backup", (n) => energy(n.backup_kWh, w)),
      line("From a hotter network", (n) => energy(n.stepIn_kWh, w)),
      line("To a cooler network", (n) => energy(n.stepOut_kWh, w)),
      line("Lost by stores", (n) => energy(n.storageLoss_kWh, w)),
      line("Spilled", (n) => energy(n.spill_kWh, w)),
      line("Not met", (n) => energy(n.unmet_kWh, w)),
      line("Largest hour of demand", (n) => power(n.peak_kW, w)),
      line("Largest hour of backup", (n) => power(n.peakBackup_kW, w)),
      line("Solar fraction", (n) => percent(n.solarFraction, w)),
    ],
  );
}

export function costsTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  const { baseline, withoutCollectors, annual } = result;
  return figuresTable(
    `A year of fuel and electricity at first-year prices, ${w.currency}`,
    ["", "Today’s plant", "New plant without collectors", "With collectors"],
    [
      [
        "Fuel and electricity",
        ...[
          baseline.fuelCost + baseline.electricityCost,
          withoutCollectors.fuelCost + withoutCollectors.electricityCost,
          annual.fuelCostWithSolar,
        ].map((v) => bareMoney(v, w.locale)),
      ],
      [
        "Heat from backup",
        energy(baseline.backup_kWh, w),
        energy(withoutCollectors.backup_kWh, w),
        energy(annual.backup_kWh, w),
      ],
      [
        "Electricity",
        energy(baseline.electricity_kWh, w),
        energy(withoutCollectors.electricity_kWh, w),
        energy(annual.electricity_kWh, w),
      ],
      [
        annual.co2CountsElectricity ? "CO₂" : "CO₂ without that of electricity",
        mass(baseline.co2_kg, w),
        mass(withoutCollectors.co2_kg, w),
        mass(annual.co2WithSolar_kg, w),
      ],
    ],
  );
}

export function moneyTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  const m = result.money;
  return figuresTable(
    "The money in figures",
    ["", "Figure"],
    [
      ["Initial capital of new plant", money(m.initialCapital, w)],
      ["Simple pay-back", years(m.simplePayback_years, w)],
      ["Discounted pay-back", years(m.discountedPayback_years, w)],
      ["Net present value", money(m.npv, w)],
      ["Internal rate of return, real", percent(m.irr, w)],
      ["Fuel and electricity cost avoided over the period", money(m.fuelCostAvoidedOverPeriod, w)],
      ["Levelised cost of solar heat used", heatPrice(result.levelised.solarHeat_per_kWh, w)],
      ...result.levelised.backupHeat.map((b) => [
        `Levelised cost of heat from ${nameIn(study.backups, b.id)}`,
        heatPrice(b.levelised_per_kWh, w),
      ]),
      ["Annual cost with the new plant, levelised", money(result.levelised.annualCost, w)],
      ["Annual cost of today’s plant, levelised", money(result.levelised.annualCostBaseline, w)],
    ],
  );
}

export function partsTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  return figuresTable(
    `What the new plant is made of, ${w.currency}`,
    ["Part", "Quantity", "Price a unit", "First cost", "Life", "Upkeep a year", "Annual cost"],
    result.money.parts.map((p) => [
      `${p.item}: ${p.part}`,
      `${threeDigits(p.quantity, w.locale)} ${p.unit}`,
      bareMoney(p.price / p.quantity, w.locale),
      bareMoney(p.price, w.locale),
      partLife(p.life_years, w),
      bareMoney(p.upkeep_per_year, w.locale),
      bareMoney(p.annualCost, w.locale),
    ]),
  );
}

export function limitsTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  return figuresTable(
    "Limits and what the answer makes of them",
    ["Limit", "Used", "Allowed", "Worth of one more a year"],
    result.limits.map((l) => [
      l.what,
      `${threeDigits(l.used, w.locale)} ${l.unit}`,
      `${threeDigits(l.limit, w.locale)} ${l.unit}`,
      l.valuePerUnit === null ? "not known" : `${money(l.valuePerUnit, w)} per ${l.unit}`,
    ]),
  );
}

export function loadsTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  return figuresTable(
    "What each load draws in a year",
    ["Load", "At", "Energy", "Largest hour", "How it follows"],
    result.loads.map((l) => [
      l.name,
      l.supply_C === null ? "–" : `${asGiven(Math.round(l.supply_C), w.locale)} °C`,
      energy(l.energy_kWh, w),
      power(l.peak_kW, w),
      l.basis,
    ]),
    ["How it follows"],
  );
}

export function curveTable(study: Study, curve: AreaCurve): TableView {
  const w = writingOf(study);
  const row = (label: string, p: CurvePoint) => [
    label,
    p.by === "replay" ? "simple controller" : "perfect foresight",
    area(p.aperture_m2, w),
    energy(p.store_kWh, w),
    percent(p.solarFraction, w),
    money(p.fuelCostAvoided, w),
    money(p.annualCost, w),
    energy(p.spilled_kWh, w),
  ];
  return figuresTable(
    "Points of the area curve",
    [
      "Line",
      "Run by",
      "Aperture",
      "Store",
      "Solar fraction",
      "Cost avoided a year",
      "Annual cost",
      "Spilled",
    ],
    [
      row("Optimum", curve.optimumReplay),
      row("Optimum", curve.optimum),
      ...[curve.chosen, curve.chosenBound].flatMap((p) => (p === null ? [] : [row("Chosen point", p)])),
      ...curve.lines.flatMap((line) =>
        line.points.map((p) => row(`Store ${threeDigits(line.storePerAperture_kWh_m2, w.locale)} kWh/m²`, p)),
      ),
      ...curve.bound.map((p) => row("Split chosen anew", p)),
    ],
  );
}
