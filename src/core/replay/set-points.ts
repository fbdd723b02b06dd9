import type { DispatchCase } from "../dispatch/case.ts";

/** What a plan means to do in one block, in the order of the case's lists; kW unless said. */
export interface SetPoints {
  readonly charge_kW: Float64Array;
  /** Taken from the store. */
  readonly discharge_kW: Float64Array;
  /** Content of stores and tanks at the end of the block. */
  readonly content_kWh: Float64Array;
  readonly tank_m3: Float64Array;
  /** Leaving the hot side. */
  readonly stepDown_kW: Float64Array;
  readonly chilled_kW: Float64Array;
  readonly electricCold_kW: Float64Array;
  readonly made_m3_h: Float64Array;
  readonly batch_kW: Float64Array;
  readonly backup_kW: Float64Array;
}

export function emptySetPoints(problem: DispatchCase): SetPoints {
  const each = (items: readonly unknown[]) => new Float64Array(items.length);
  return {
    charge_kW: each(problem.stores),
    discharge_kW: each(problem.stores),
    content_kWh: each(problem.stores),
    tank_m3: each(problem.water),
    stepDown_kW: each(problem.stepDowns),
    chilled_kW: each(problem.chillers),
    electricCold_kW: each(problem.cold),
    made_m3_h: each(problem.water),
    batch_kW: each(problem.batches),
    backup_kW: each(problem.backups),
  };
}
