import { type FuelTerms, fuelTerms } from "../economics/fuel-terms.ts";
import { levelOfCourse, type PriceCourse } from "../economics/price-years.ts";
import { largest } from "../series.ts";
import type { Fuel, Study } from "./schema/study.ts";

/** Prices of heat and electricity, of the first year and levelised over the period of analysis. */
export interface PlantPrices {
  readonly backups: readonly BackupPrice[];
  readonly electricity: {
    /** By hour, currency/kWh. */
    readonly firstYear_per_kWh: Float64Array;
    /** Without carbon. */
    readonly levelised_per_kWh: Float64Array;
    /** With carbon: what the program pays. */
    readonly objective_per_kWh: Float64Array;
    readonly co2_kg_per_kWh: number;
  };
  /** Levelised, currency/kg. */
  readonly carbon_per_kg: number;
  readonly firstYearCarbon_per_kg: number;
  /** What a kWh of unmet heat costs in the program: 1000 × the dearest backup heat. */
  readonly unmet_per_kWh: number;
}

export interface BackupPrice {
  readonly id: string;
  readonly terms: FuelTerms;
  /** Heat per fuel by hour, on the heating value that the fuel names. */
  readonly heat_kWh_per_kWhFuel: Float64Array;
  /** Fuel of a kWh of heat by hour, kWh on the net heating value. */
  readonly fuel_kWh_per_kWhHeat: Float64Array;
  /** By hour. */
  readonly co2_kg_per_kWhHeat: Float64Array;
  /** By hour, currency/kWh of heat. */
  readonly firstYear_per_kWh: Float64Array;
  readonly levelised_per_kWh: Float64Array;
  /** Levelised, with carbon. */
  readonly objective_per_kWh: Float64Array;
  readonly course: PriceCourse;
}

const unmetTimesDearest = 1000;
/** Stands for the dearest heat where every source is free. */
const leastDearest_per_kWh = 0.01;

/**
 * @param electricity_per_kWh year-1 price by hour
 * @param efficiencies heat per fuel by hour of each backup, on the heating value that its fuel names
 * @param fuel_per_kWh year-1 price by hour of each backup's fuel, on the heating value that it names
 */
export function plantPrices(
  study: Study,
  electricity_per_kWh: Float64Array,
  fuel_per_kWh: readonly Float64Array[],
  efficiencies: readonly Float64Array[],
): PlantPrices {
  const { money } = study;
  const level = (course: PriceCourse) => levelOfCourse(course, money.years, money.realDiscountRate);
  const firstYearCarbon_per_kg = money.carbonPrice_per_t / 1000;
  const carbon_per_kg =
    firstYearCarbon_per_kg * level({ escalation_per_year: money.carbonEscalation_per_year });

  const backups = study.backups.map((backup, i): BackupPrice => {
    const efficiency = efficiencies[i]!;
    const terms = fuelTerms(withOwnCo2(backup.fuel, study), backup.efficiency);
    const netPerOwn = terms.efficiencyNet / backup.efficiency;
    const fuel_kWh_per_kWhHeat = efficiency.map((heat) => 1 / (heat * netPerOwn));
    const co2_kg_per_kWhHeat = fuel_kWh_per_kWhHeat.map((fuel) => fuel * (terms.co2_kg_per_kWhNet ?? 0));
    const firstYear_per_kWh = fuel_per_kWh[i].map((price, t) => price / efficiency[t]!);
    const growth = level(backup.fuel);
    const levelised_per_kWh = firstYear_per_kWh.map((price) => price * growth);
    return {
      id: backup.id,
      terms,
      heat_kWh_per_kWhFuel: efficiency,
      fuel_kWh_per_kWhHeat,
      co2_kg_per_kWhHeat,
      firstYear_per_kWh,
      levelised_per_kWh,
      objective_per_kWh: levelised_per_kWh.map((price, t) => price + co2_kg_per_kWhHeat[t]! * carbon_per_kg),
      course: backup.fuel,
    };
  });
  const co2_kg_per_kWh = study.electricity.co2_kg_per_kWh ?? 0;
  const factor = level(study.electricity);
  const levelised_per_kWh = electricity_per_kWh.map((price) => price * factor);
  const dearest =
    backups.length > 0
      ? Math.max(...backups.map((backup) => largest(backup.objective_per_kWh)))
      : largest(electricity_per_kWh);
  return {
    backups,
    electricity: {
      firstYear_per_kWh: electricity_per_kWh,
      levelised_per_kWh,
      objective_per_kWh: levelised_per_kWh.map((price) => price + co2_kg_per_kWh * carbon_per_kg),
      co2_kg_per_kWh,
    },
    carbon_per_kg,
    firstYearCarbon_per_kg,
    unmet_per_kWh: unmetTimesDearest * Math.max(dearest, leastDearest_per_kWh),
  };
}

/** Electricity has the CO2 of the study's, and waste heat none, where the fuel gives none of its own. */
function withOwnCo2(fuel: Fuel, { electricity }: Study): Fuel {
  if (fuel.co2_kg_per_kWh !== undefined) return fuel;
  if (fuel.kind === "waste-heat") return { ...fuel, co2_kg_per_kWh: 0 };
  if (fuel.kind !== "electricity" || electricity.co2_kg_per_kWh === undefined) return fuel;
  return { ...fuel, co2_kg_per_kWh: electricity.co2_kg_per_kWh };
}
