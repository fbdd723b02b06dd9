/** Fuel and electricity of one way of running, year-1 prices. */
export interface Costs {
  readonly heatDemand_kWh: number;
  readonly backup_kWh: number;
  /** Net heating value. */
  readonly fuel_kWh: number;
  readonly electricity_kWh: number;
  readonly fuelCost: number;
  readonly electricityCost: number;
  readonly co2_kg: number;
  readonly unmet_kWh: number;
}

export interface Annual {
  readonly demand_kWh: number;
  readonly backup_kWh: number;
  readonly unmet_kWh: number;
  readonly unmetCold_kWh: number;
  readonly unmetWater_m3: number;
  readonly solarFraction: number;
  readonly fractionalEnergySaving: number;
  readonly collected_kWh: number;
  readonly solarUsed_kWh: number;
  readonly spilled_kWh: number;
  readonly storageLoss_kWh: number;
  readonly stepDownLoss_kWh: number;
  /** Fuel + electricity. */
  readonly fuelCostBaseline: number;
  readonly fuelCostWithSolar: number;
  readonly fuelCostAvoided: number;
  readonly co2Baseline_kg: number;
  readonly co2WithSolar_kg: number;
  readonly co2Avoided_kg: number;
  /** False where the electricity's CO2 factor is missing and left out. */
  readonly co2CountsElectricity: boolean;
  readonly electricity_kWh: number;
  readonly parasitic_kWh: number;
  /** Of all collectors, new and existing; missing from answers of earlier versions. */
  readonly washingWater_m3?: number;
  readonly water_m3: number;
  readonly coldAbsorption_kWh: number;
  readonly coldElectric_kWh: number;
}
