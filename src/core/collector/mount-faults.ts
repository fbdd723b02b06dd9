import type { Problem } from "../problem.ts";
import type { Collector } from "../study/schema/collector.ts";
import { closestRoundCover } from "../sun/round-grid-shading.ts";
import { isConcentrating } from "./needs-focus.ts";

/** What can be wrong with a collector's mount. */
export const mountProblems = {
  COLLECTOR_SHAPE_MOUNT: "A mirror needs a mount that follows the sun: a trough one axis, a dish two.",
  COLLECTOR_TILT_RANGE: "A mirror that tilts needs its least tilt not above its greatest.",
  COLLECTOR_ROUND_COVER:
    "Round apertures that shade each other on two axes cannot cover more land than those that touch: π/4 of it.",
  COLLECTOR_BACKTRACKING: "A concentrator cannot turn back from the sun: it would lose its focus.",
} as const;

/** Every fault of a collector's mount; `path` is the collector's place in the study, e.g. `collectors/0`. */
export function mountFaults(collector: Collector, path: string): Problem[] {
  const { mount, optics, groundCover } = collector;
  const problems: Problem[] = [];
  const fault = (code: keyof typeof mountProblems, field: string, message: string) =>
    problems.push({ code, message, place: { path: `${path}/${field}` } });
  if (optics.by === "shape") {
    const isDish = optics.shape === "dish";
    const follows = isDish
      ? mount.type === "two-axes" || mount.type === "vertical-axis-tilting"
      : mount.type !== "fixed" && mount.type !== "monthly-tilt";
    if (!follows) {
      fault(
        "COLLECTOR_SHAPE_MOUNT",
        "mount/type",
        isDish
          ? `A dish does not keep its focus on the mount "${mount.type}"; it needs two axes, or a vertical axis and a mirror that tilts.`
          : `A trough does not keep its focus on the mount "${mount.type}"; it needs one that turns.`,
      );
    }
  }
  if (mount.type === "vertical-axis-tilting" && !(mount.leastTilt_deg <= mount.mostTilt_deg)) {
    fault(
      "COLLECTOR_TILT_RANGE",
      "mount/leastTilt_deg",
      `The mirror cannot tilt from ${mount.leastTilt_deg}° to ${mount.mostTilt_deg}°; ` +
        `the first must be ${mount.mostTilt_deg}° or less.`,
    );
  }
  if (mount.type === "two-axes" && collector.rowShading && groundCover > closestRoundCover) {
    fault(
      "COLLECTOR_ROUND_COVER",
      "groundCover",
      `A ground cover of ${groundCover} is more than round apertures on two axes can have: those that touch on a ` +
        "square grid cover 0.785 of the land; write 0.785 or less.",
    );
  }
  if (mount.type === "one-axis" && mount.backtracking && isConcentrating(collector)) {
    fault(
      "COLLECTOR_BACKTRACKING",
      "mount/backtracking",
      "Backtracking turns the aperture away from the sun, and this collector would lose its focus " +
        `(${optics.by === "shape" ? "its optics are computed from a mirror's shape" : "its modifier for diffuse light is 0"}); ` +
        "leave it off, or give a collector that uses diffuse light.",
    );
  }
  return problems;
}
