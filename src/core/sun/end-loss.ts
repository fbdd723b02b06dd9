import { ModelError } from "../errors.ts";
import { radians } from "../units.ts";

/**
 * Share of the light of a single line-focus row that still meets its receiver: 1 − f·tan θL / L, not below
 * 0 (Lippke, SAND95-1294, 1995; Stuetzle 2002). A receiver that overhangs the mirror, or a next row in
 * line, loses less.
 *
 * @param longitudinal_deg incidence along the row, 0 to 90, one entry an hour
 * @throws ModelError OUT_OF_RANGE
 */
export function endLoss(
  longitudinal_deg: Float64Array,
  focalLength_m: number,
  rowLength_m: number,
): Float64Array {
  if (!(focalLength_m > 0 && rowLength_m > 0)) {
    throw new ModelError("OUT_OF_RANGE", `focal length ${focalLength_m} m, row length ${rowLength_m} m`);
  }
  return longitudinal_deg.map((angle) =>
    Math.max(0, 1 - (focalLength_m * Math.tan(angle * radians)) / rowLength_m),
  );
}
