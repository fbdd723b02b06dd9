import { levelisationFactor } from "../economics/annuity.ts";
import { type FuelTerms, fuelTerms } from "../economics/fuel-terms.ts";
import { largest } from "../series.ts";
import type { Study } from "./schema/study.ts";

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
  readonly co2_kg_per_kWhHeat: number;
  /** By hour, currency/kWh of heat. */
  readonly firstYear_per_kWh: Float64Array;
  readonly levelised_per_kWh: Float64Array;
  /** Levelised, with carbon. */
  readonly objective_per_kWh: Float64Array;
  readonly escalation_per_year: number;
}

const unmetTimesDearest = 1000;
/** Stands for the dearest heat where every source is free. */
const leastDearest_per_kWh = 0.01;

/**
 * @param electricity_per_kWh year-1 price by hour
 * @param fuel_per_kWh year-1 price by hour of each backup's fuel, on the heating value that it names
 */
export function plantPrices(
  study: Study,
  electricity_per_kWh: Float64Array,
  fuel_per_kWh: readonly Float64Array[],
): PlantPrices {
  const { money } = study;
  const level = (growth: number) => levelisationFactor(money.years, growth, money.realDiscountRate);
  const firstYearCarbon_per_kg = money.carbonPrice_per_t / 1000;
  const carbon_per_kg = firstYearCarbon_per_kg * level(money.carbonEscalation_per_year);

  const backups = study.backups.map((backup, i): BackupPrice => {
    const terms = fuelTerms(backup.fuel, backup.efficiency);
    const co2_kg_per_kWhHeat = (terms.co2_kg_per_kWhNet ?? 0) / terms.efficiencyNet;
    const firstYear_per_kWh = fuel_per_kWh[i].map((price) => price / backup.efficiency);
    const growth = level(backup.fuel.escalation_per_year);
    const levelised_per_kWh = firstYear_per_kWh.map((price) => price * growth);
    const carbon_per_kWh = co2_kg_per_kWhHeat * carbon_per_kg;
    return {
      id: backup.id,
      terms,
      co2_kg_per_kWhHeat,
      firstYear_per_kWh,
      levelised_per_kWh,
      objective_per_kWh: levelised_per_kWh.map((price) => price + carbon_per_kWh),
      escalation_per_year: backup.fuel.escalation_per_year,
    };
  });
  const co2_kg_per_kWh = study.electricity.co2_kg_per_kWh ?? 0;
  const factor = level(study.electricity.escalation_per_year);
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
