import { loadDuration } from "../../core/demand/load-duration.ts";
import { largest, sum } from "../../core/series.ts";
import type { DemandQuantity, Understood } from "./account.ts";
import { type DemandUnit, hourlyUnit } from "./find-unit.ts";

/** Totals, peak and load duration of the hours; figures in kW only where the hours are power. */
export function hourlyFigures(
  hourly: Float64Array | null,
  quantity: DemandQuantity,
  unit: DemandUnit | null,
): Partial<Understood> {
  const rateUnit = hourlyUnit(quantity, unit);
  if (hourly === null) return { hourlyUnit: rateUnit };
  const total = sum(hourly);
  const peak = largest(hourly);
  const mean = total / hourly.length;
  const power = rateUnit === "kW";
  return {
    hourlyUnit: rateUnit,
    total,
    peak,
    mean,
    total_kWh: power ? total : null,
    peak_kW: power ? peak : null,
    mean_kW: power ? mean : null,
    peakAt: hourly.indexOf(peak),
    loadDuration: loadDuration(hourly),
  };
}
