import type { Mount } from "../../core/study/schema/study.ts";
import { asGiven } from "../../present/numbers.ts";

/** How a collector stands or moves, to follow its name in brackets. */
export function mountWords(mount: Mount): string {
  const deg = (angle: number) => `${asGiven(angle)}°`;
  switch (mount.type) {
    case "fixed":
      return `fixed, tilted ${deg(mount.tilt_deg)}`;
    case "monthly-tilt":
      return `tilted ${deg(Math.min(...mount.tilts_deg))} to ${deg(Math.max(...mount.tilts_deg))}, set anew by the month`;
    case "axis-north-south":
      return "turning on a horizontal north–south axis";
    case "axis-east-west":
      return "turning on a horizontal east–west axis";
    case "one-axis": {
      const { azimuth_deg, axisTilt_deg, mostTurn_deg, backtracking } = mount;
      const axis =
        axisTilt_deg === 0
          ? `turning on a horizontal axis along ${deg(azimuth_deg % 180)} from north`
          : `turning on an axis that falls ${deg(axisTilt_deg)} toward ${deg(azimuth_deg)} from north`;
      const most = mostTurn_deg === undefined ? "" : `, at most ${deg(mostTurn_deg)} to either side`;
      return `${axis}${most}${backtracking ? ", turning back where rows would shade each other" : ""}`;
    }
    case "vertical-axis":
      return `turning on a vertical axis, tilted ${deg(mount.tilt_deg)}`;
    case "vertical-axis-tilting":
      return `turning on a vertical axis and tilting from ${deg(mount.leastTilt_deg)} to ${deg(mount.mostTilt_deg)}`;
    case "two-axes":
      return mount.leastElevation_deg === undefined
        ? "following the sun on two axes"
        : `following the sun on two axes, down to ${deg(mount.leastElevation_deg)} above the horizon`;
  }
}
