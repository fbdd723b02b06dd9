import { type StudyCalendar, studyCalendar } from "../calendar.ts";
import { type ChillerYear, chillerYear } from "../cooling/chiller-year.ts";
import { backupAvailability } from "../demand/backup-availability.ts";
import type { ResolvedLoad } from "../demand/resolved-load.ts";
import type {
  BackupCase,
  BatchCase,
  ChillerCase,
  ColdCase,
  CollectorCase,
  DispatchCase,
  FieldCase,
  SizeCase,
  StepDownCase,
  StoreCase,
  WaterCase,
} from "../dispatch/case.ts";
import { backupEfficiency } from "../economics/backup-efficiency.ts";
import type { OperatingRules } from "../replay/operating-rules.ts";
import { hoursPerYear } from "../series.ts";
import { hourlyKeep } from "../storage/store-capacity.ts";
import { type SunYear, sunYear } from "../sun/sun-year.ts";
import type { WeatherYear } from "../weather.ts";
import { type CollectorMatch, collectorMatches } from "./collector-matches.ts";
import { costsByPlace, linearCosts } from "./linear-costs.ts";
import { operatingRulesOf } from "./operating-rules-of.ts";
import { type PlantPrices, plantPrices } from "./plant-prices.ts";
import type { PricedItem } from "./priced-items.ts";
import type { Size, Study } from "./schema/study.ts";

/** A study in numbers before anything is optimised. */
export interface PlantModel {
  readonly study: Study;
  readonly loads: readonly ResolvedLoad[];
  readonly weather: WeatherYear;
  readonly sun: SunYear;
  readonly matches: readonly CollectorMatch[];
  readonly prices: PlantPrices;
  /** The full year. */
  readonly problem: DispatchCase;
  /** The collector and network of each field of the problem. */
  readonly fields: readonly CollectorMatch[];
  /** Electricity that goes with fixed loads, kW by hour: the same in every case. */
  readonly fixedElectricity_kW: Float64Array;
  /** What each chiller can do, by hour. */
  readonly chillerYears: readonly ChillerYear[];
  /** What only the replay keeps to. */
  readonly rules: OperatingRules;
}

export interface StudyHours {
  readonly study: Study;
  /** Of the study's site; made anew where left out, which takes longer than a collector's year. */
  readonly calendar?: StudyCalendar;
  readonly weather: WeatherYear;
  readonly loads: readonly ResolvedLoad[];
  readonly electricityPrice_per_kWh: Float64Array;
  /** Year-1 price of each backup's fuel by hour, on the heating value that it names. */
  readonly fuelPrices_per_kWh: readonly Float64Array[];
}

/** Sun, collectors, prices and demands become the dispatch problem of the full year. */
export function plantModel({
  study,
  calendar,
  weather,
  loads,
  electricityPrice_per_kWh,
  fuelPrices_per_kWh,
}: StudyHours): PlantModel {
  const sun = sunYear({ ...study.site });
  const matches = collectorMatches(study, sun, weather);
  const clock = calendar ?? studyCalendar(study.site);
  const efficiencies = study.backups.map((backup) => {
    const supply_C = study.networks.find(({ id }) => id === backup.network)?.supply_C ?? Number.NaN;
    return backupEfficiency(backup, supply_C, clock, weather);
  });
  const prices = plantPrices(study, electricityPrice_per_kWh, fuelPrices_per_kWh, efficiencies);
  const fields = matches.filter((match) => match.offered && match.possible);
  const networkAt = (id: string) => study.networks.findIndex((network) => network.id === id);
  const cold = loads.filter((load) => load.kind === "cold");
  const coldAt = (id: string) => cold.findIndex((load) => load.id === id);
  const costs = linearCosts(study);
  const collectorCost = costsByPlace(costs, "collector");
  const sizer = (family: PricedItem["family"]) => {
    const costAt = costsByPlace(costs, family);
    return (size: Size, existing: number, index: number): SizeCase => ({
      existing,
      ...bounds(size),
      ...costAt(index),
    });
  };
  const sizedStore = sizer("store");
  const sizedCharger = sizer("charger");
  const sizedStepDown = sizer("step-down");
  const sizedChiller = sizer("chiller");
  const sizedBackup = sizer("backup");

  const chillerYears = study.chillers.map((chiller) => {
    const load = study.loads.find(({ id }) => id === chiller.load);
    return chillerYear(chiller, load?.kind === "cooling" ? load.coldSupply_C : Number.NaN, weather);
  });
  const networks = study.networks.map(({ id }) => {
    const fixed_kW = new Float64Array(hoursPerYear);
    for (const load of loads) {
      if (load.kind !== "fixed-heat" || load.network !== id) continue;
      for (let t = 0; t < hoursPerYear; t += 1) fixed_kW[t] += load.heat_kW[t];
    }
    return { id, fixed_kW };
  });
  const soleField = (collector: string) =>
    fields.filter((field) => field.collector.id === collector).length === 1;

  const problem: DispatchCase = {
    name: "noonkeep",
    blocks: hoursPerYear,
    step_h: 1,
    weight: new Float64Array(hoursPerYear).fill(1),
    cycles: [{ start: 0, length: hoursPerYear }],
    networks,
    collectors: study.collectors.map((collector, i): CollectorCase => {
      const { annualCost_per_unit, initialCost_per_unit } = collectorCost(i);
      const { least, most } = bounds(collector.size);
      const sole = soleField(collector.id);
      return {
        id: collector.id,
        least_m2: sole ? 0 : least,
        most_m2: sole ? Number.POSITIVE_INFINITY : most,
        annualCost_per_m2: annualCost_per_unit,
        initialCost_per_m2: initialCost_per_unit,
        groundCover: collector.groundCover,
      };
    }),
    fields: fields.map(({ collector, network, year, at }): FieldCase => {
      const { least, most } = bounds(collector.size);
      const sole = soleField(collector.id);
      const { yield_kW_per_m2, parasitic_kW_per_m2 } = year.levels[at];
      return {
        collector: study.collectors.indexOf(collector),
        network: networkAt(network.id),
        existing_m2: network.id === collector.networks[0] ? collector.existing_m2 : 0,
        least_m2: sole ? least : 0,
        most_m2: sole ? most : Number.POSITIVE_INFINITY,
        yield_kW_per_m2,
        parasitic_kW_per_m2,
      };
    }),
    stores: study.stores.map(
      (store, i): StoreCase => ({
        id: store.id,
        serves:
          store.network === undefined
            ? { cold: coldAt(store.load ?? "") }
            : { network: networkAt(store.network) },
        keep_per_h: hourlyKeep(store.standingLoss_per_day),
        chargeEfficiency: store.chargeEfficiency,
        dischargeEfficiency: store.dischargeEfficiency,
        chargeLimit_kW: store.chargeLimit_kW ?? Number.POSITIVE_INFINITY,
        dischargeLimit_kW: store.dischargeLimit_kW ?? Number.POSITIVE_INFINITY,
        charger:
          store.charging === undefined
            ? null
            : sizedCharger(store.charging.size, store.charging.existing_kW, i),
        size: sizedStore(store.size, store.existing_kWh, i),
      }),
    ),
    stepDowns: study.stepDowns.map(
      (item, i): StepDownCase => ({
        id: item.id,
        from: networkAt(item.from),
        to: networkAt(item.to),
        efficiency: item.efficiency,
        size: sizedStepDown(item.size, item.existing_kW, i),
      }),
    ),
    cold: cold.map(
      (load): ColdCase => ({
        id: load.id,
        demand_kW: load.cold_kW,
        electricCop: load.electricCop,
        electricLimit_kW: load.electricLimit_kW ?? Number.POSITIVE_INFINITY,
      }),
    ),
    chillers: study.chillers.map(
      (chiller, i): ChillerCase => ({
        id: chiller.id,
        cold: coldAt(chiller.load),
        network: networkAt(chiller.network),
        cop: chillerYears[i].cop,
        capacityFactor: chillerYears[i].capacityFactor,
        electricity_kWh_per_kWh: chiller.electricity_kWh_per_kWh,
        size: sizedChiller(chiller.size, chiller.existing_kW, i),
      }),
    ),
    water: loads
      .filter((load) => load.kind === "water")
      .map(
        ({ kind: _, basis: __, products: ___, network, ...order }): WaterCase => ({
          ...order,
          network: networkAt(network),
        }),
      ),
    batches: loads
      .filter((load) => load.kind === "batch")
      .map(
        (load): BatchCase => ({
          id: load.id,
          network: networkAt(load.network),
          power_kW: load.power_kW,
          heat_kWh: load.heat_kWh_per_batch,
          windows: load.windows.map(({ opens, lasts_h }) =>
            Int32Array.from({ length: lasts_h }, (_, n) => (opens + n) % hoursPerYear),
          ),
        }),
      ),
    backups: study.backups.map(
      (backup, i): BackupCase => ({
        id: backup.id,
        network: networkAt(backup.network),
        heatPrice_per_kWh: prices.backups[i].objective_per_kWh,
        mayCharge: backup.mayCharge,
        available: backupAvailability(backup, study.calendars, clock),
        size: sizedBackup(backup.size, backup.existing_kW ?? Number.POSITIVE_INFINITY, i),
      }),
    ),
    electricityPrice_per_kWh: prices.electricity.objective_per_kWh,
    limits: {
      land_m2: study.limits.land_m2 ?? null,
      budget: study.limits.budget ?? null,
      leastSolarFraction: study.limits.leastSolarFraction ?? null,
    },
    unmetPrice_per_kWh: prices.unmet_per_kWh,
    tieBreak_per_kWh: (prices.unmet_per_kWh / 1000) * tieBreakShare,
  };

  const fixedElectricity_kW = new Float64Array(hoursPerYear);
  for (const load of loads) {
    if (load.kind !== "fixed-heat" || load.electricity_kW === null) continue;
    for (let t = 0; t < hoursPerYear; t += 1) fixedElectricity_kW[t] += load.electricity_kW[t];
  }
  return {
    study,
    loads,
    weather,
    sun,
    matches,
    prices,
    problem,
    fields,
    fixedElectricity_kW,
    chillerYears,
    rules: operatingRulesOf(study),
  };
}

/** Charge on a kWh stored, as a share of the dearest backup heat. */
const tieBreakShare = 1e-5;

function bounds(size: Size): { readonly least: number; readonly most: number } {
  if (size.choice === "fixed") return { least: size.fixed ?? 0, most: size.fixed ?? 0 };
  if (size.choice === "bounded")
    return { least: size.least ?? 0, most: size.most ?? Number.POSITIVE_INFINITY };
  return { least: 0, most: Number.POSITIVE_INFINITY };
}
