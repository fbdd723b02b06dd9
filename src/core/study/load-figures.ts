import type { LoadProduct } from "../demand/resolved-load.ts";

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
  /** What the load makes of its heat; left out where it is the heat itself. */
  readonly products?: readonly LoadProduct[];
}
