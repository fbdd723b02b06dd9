export interface LoadYear {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly network: string | null;
  readonly supply_C: number | null;
  /** Heat for heat loads, cold for cooling. */
  readonly energy_kWh: number;
  readonly peak_kW: number;
  readonly basis: string;
}
