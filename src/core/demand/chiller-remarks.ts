import { reversibleCop } from "../cooling/reversible-cop.ts";
import type { Problem } from "../problem.ts";
import type { Chiller } from "../study/schema/study.ts";

export const chillerProblems = {
  CHILLER_COP_UNUSUAL: "the COP lies outside the published band of its kind of absorption chiller",
  CHILLER_DRIVING_UNUSUAL:
    "the driving temperature lies outside the published band of its kind of absorption chiller",
  CHILLER_COP_IMPOSSIBLE: "the COP lies above the reversible limit at the driving temperature",
} as const;

/**
 * Published bands. COP: ASHRAE Handbook of Refrigeration, absorption chapter, and Herold, Radermacher and
 * Klein; the lower end is the minimum of ASHRAE 90.1 table 6.8.1-3 where that lies lower. Driving
 * temperatures: the same handbooks (medium confidence). Ammonia–water, single stage: from memory, wide.
 */
const bands = {
  single: { cop: [0.6, 0.75], driving_C: [75, 100], name: "single-effect" },
  double: { cop: [1.0, 1.4], driving_C: [140, 180], name: "double-effect" },
  "ammonia-water": { cop: [0.25, 0.7], driving_C: [80, 200], name: "ammonia–water" },
} as const;

/** Taken for the reversible limit; mild, so a COP above the limit cannot be met in service. */
const rejection_C = 30;
const usualCold_C = 7;

/** Remarks on a chiller outside the published bands; they do not stop the work. */
export function chillerRemarks(
  chiller: Chiller,
  path = `chillers/${chiller.id}`,
  cold_C = usualCold_C,
): Problem[] {
  const { cop, effect } = chiller;
  const driving_C = chiller.drivingLeast_C;
  const remarks: Problem[] = [];
  const limit = reversibleCop(driving_C, rejection_C, cold_C);
  if (cop > limit)
    remarks.push({
      code: "CHILLER_COP_IMPOSSIBLE",
      message: `A COP of ${cop} lies above the reversible limit of ${limit.toFixed(2)} for heat of ${driving_C} °C, rejection at ${rejection_C} °C and cold of ${cold_C} °C.`,
      place: { path: `${path}/cop` },
    });
  if (effect === "other") return remarks;
  const { cop: copBand, driving_C: drivingBand, name } = bands[effect];
  if (!(cop >= copBand[0] && cop <= copBand[1]))
    remarks.push({
      code: "CHILLER_COP_UNUSUAL",
      message: `A COP of ${cop} lies outside the published ${copBand[0]} to ${copBand[1]} of ${name} chillers.`,
      place: { path: `${path}/cop` },
    });
  if (!(driving_C >= drivingBand[0] && driving_C <= drivingBand[1]))
    remarks.push({
      code: "CHILLER_DRIVING_UNUSUAL",
      message: `A driving temperature of ${driving_C} °C lies outside the published ${drivingBand[0]} to ${drivingBand[1]} °C of ${name} chillers.`,
      place: { path: `${path}/drivingLeast_C` },
    });
  return remarks;
}
