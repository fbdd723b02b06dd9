import { hoursPerYear } from "../series.ts";
import type { PipeBody } from "./pipe-body.ts";

/** What comes through the field's pipes in a year, per m² of aperture. */
export interface PipedHeat {
  readonly yield_kW_per_m2: Float64Array;
  readonly useful_kWh_per_m2: number;
  /** Hours in which heat arrives. */
  readonly runningHours: number;
  /** Loss while hot, and heat too little to bring the pipes to their temperature. */
  readonly pipes_kWh_per_m2: number;
  readonly pipeWarmUp_kWh_per_m2: number;
}

/**
 * The collectors' heat less what the pipes lose and what warms them again after they have cooled.
 *
 * The pipes are a second body behind the collector's own, U the loss per kelvin and C the heat capacity. Hours
 * without heat: pipe − ambient falls by the factor exp(−U/C). Hours with heat: first the loss at the mean fluid
 * temperature, then C·(mean fluid − pipe), carried into the next hours where it does not suffice; the rest arrives.
 * Where heat does not even cover that loss, all of it is lost and the pipes move toward ambient + heat/U. They start
 * the year at ambient. In air as warm as the fluid they lose nothing, and gain nothing.
 *
 * @param heat_kW_per_m2 useful heat of the collectors by hour; a missing hour (NaN) stays missing
 * @returns a new array of 8760 hours
 */
export function pipedHeat(
  heat_kW_per_m2: Float64Array,
  ambient_C: Float64Array,
  meanFluid_C: number,
  { loss_W_m2K, capacity_Wh_m2K }: PipeBody,
): PipedHeat {
  const yield_kW_per_m2 = new Float64Array(hoursPerYear);
  const kept = Math.exp(-loss_W_m2K / capacity_Wh_m2K);
  let pipe_C = ambient_C[0]!;
  let useful = 0;
  let lost = 0;
  let warming = 0;
  let runningHours = 0;
  for (let i = 0; i < hoursPerYear; i += 1) {
    const heat_W_m2 = 1000 * heat_kW_per_m2[i]!;
    const ambient = ambient_C[i]!;
    const loss_W_m2 = loss_W_m2K * Math.max(0, meanFluid_C - ambient);
    if (heat_W_m2 === 0 || heat_W_m2 < loss_W_m2) {
      const target_C = ambient + heat_W_m2 / loss_W_m2K;
      lost += heat_W_m2;
      pipe_C = target_C + (pipe_C - target_C) * kept;
      continue;
    }
    const surplus = heat_W_m2 - loss_W_m2;
    const debt = Math.max(0, meanFluid_C - pipe_C) * capacity_Wh_m2K;
    const spent = Math.min(surplus, debt);
    pipe_C = spent < debt ? pipe_C + spent / capacity_Wh_m2K : meanFluid_C;
    lost += loss_W_m2;
    warming += spent;
    const arrives = surplus - spent;
    if (arrives > 0) runningHours += 1;
    useful += arrives;
    yield_kW_per_m2[i] = arrives / 1000;
  }
  return {
    yield_kW_per_m2,
    useful_kWh_per_m2: useful / 1000,
    runningHours,
    pipes_kWh_per_m2: lost / 1000,
    pipeWarmUp_kWh_per_m2: warming / 1000,
  };
}
