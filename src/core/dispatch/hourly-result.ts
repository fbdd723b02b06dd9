/** What the plant does in each hour. All arrays have 8760 entries; powers are means over the hour. */
export interface HourlyResult {
  readonly networks: readonly NetworkHours[];
  readonly cold: readonly ColdHours[];
  readonly water: readonly WaterHours[];
  readonly batches: readonly BatchHours[];
  /** Electricity for chillers, desalination and parasitics, kW. */
  readonly electricity_kW: Float64Array;
  readonly electricityPrice_per_kWh: Float64Array;
}

/** solar + backup + discharge + stepIn + unmet = demand + charge + stepOut, each hour. */
export interface NetworkHours {
  readonly id: string;
  readonly demand_kW: Float64Array;
  /** Collected heat that is used, after spill. */
  readonly solar_kW: Float64Array;
  readonly backup_kW: Float64Array;
  /** Taken from the network into the store. */
  readonly charge_kW: Float64Array;
  /** Delivered by the store to the network. */
  readonly discharge_kW: Float64Array;
  /** Delivered by step-downs from hotter networks. */
  readonly stepIn_kW: Float64Array;
  /** Taken by step-downs to cooler networks. */
  readonly stepOut_kW: Float64Array;
  readonly spill_kW: Float64Array;
  readonly unmet_kW: Float64Array;
  /** At the end of the hour. */
  readonly content_kWh: Float64Array;
  readonly marginal_per_kWh: Float64Array;
}

export interface ColdHours {
  readonly id: string;
  readonly demand_kW: Float64Array;
  readonly absorption_kW: Float64Array;
  readonly electric_kW: Float64Array;
  readonly charge_kW: Float64Array;
  readonly discharge_kW: Float64Array;
  readonly content_kWh: Float64Array;
  readonly unmet_kW: Float64Array;
}

export interface WaterHours {
  readonly id: string;
  readonly made_m3_h: Float64Array;
  readonly order_m3_h: Float64Array;
  readonly unmet_m3_h: Float64Array;
  /** In the tank at the end of the hour, m³. */
  readonly tank_m3: Float64Array;
}

export interface BatchHours {
  readonly id: string;
  readonly heat_kW: Float64Array;
  readonly unmet_kWh: Float64Array;
}
