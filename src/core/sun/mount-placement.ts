import { ModelError } from "../errors.ts";
import { hoursPerYear } from "../series.ts";
import type { Mount } from "../study/schema/mount.ts";
import { radians } from "../units.ts";
import { cosineTo, planeNormal, type UnitVector } from "./incidence.ts";
import { monthStarts } from "./monthly-means.ts";
import { type AxisFrame, axisFrame, backtracked, eastWest, northSouth } from "./one-axis.ts";
import type { SunYear } from "./sun-year.ts";

/** How a mount stands in an hour. */
export interface Placement {
  readonly normal: UnitVector;
  readonly longAxis: UnitVector;
  readonly tilt_deg: number;
  readonly turn_deg: number;
  /** It would have to move beyond a limit to face the sun as its kind does. */
  readonly stopped: boolean;
}

/** How the mount stands, by hour: `sunlit` with the sun up, `rest` the tilt with the sun down. */
export interface Placements {
  readonly sunlit: (hour: number) => Placement;
  readonly rest_deg: (hour: number) => number;
}

/**
 * @param northern 1 where the equator lies to the south
 * @param groundCover needed for backtracking only
 * @throws ModelError OUT_OF_RANGE where backtracking lacks its ground cover
 */
export function placements(
  sun: SunYear,
  mount: Mount,
  northern: 1 | -1,
  groundCover: number | undefined,
): Placements {
  const flat = () => 0;
  switch (mount.type) {
    case "fixed": {
      const stands = leaning(mount.tilt_deg, mount.azimuth_deg);
      return { sunlit: () => stands, rest_deg: () => mount.tilt_deg };
    }
    case "monthly-tilt": {
      const stands = mount.tilts_deg.map((tilt_deg) => leaning(tilt_deg, mount.azimuth_deg));
      const months = monthOfHours();
      return {
        sunlit: (hour) => stands[months[hour]!]!,
        rest_deg: (hour) => mount.tilts_deg[months[hour]!]!,
      };
    }
    case "vertical-axis":
      return {
        sunlit: (hour) => leaning(mount.tilt_deg, sun.azimuth_deg[hour]!),
        rest_deg: () => mount.tilt_deg,
      };
    case "vertical-axis-tilting":
      return {
        sunlit: (hour) => within(sun, hour, mount.leastTilt_deg, mount.mostTilt_deg),
        rest_deg: () => mount.leastTilt_deg,
      };
    case "two-axes": {
      const most_deg = 90 - (mount.leastElevation_deg ?? 0);
      return { sunlit: (hour) => within(sun, hour, 0, most_deg), rest_deg: flat };
    }
    case "axis-north-south":
      return { sunlit: turning(sun, northSouth, {}, groundCover), rest_deg: flat };
    case "axis-east-west":
      return { sunlit: turning(sun, eastWest(northern), {}, groundCover), rest_deg: flat };
    case "one-axis": {
      const frame = axisFrame(mount.azimuth_deg, mount.axisTilt_deg);
      return { sunlit: turning(sun, frame, mount, groundCover), rest_deg: () => mount.axisTilt_deg };
    }
  }
}

function turning(
  sun: SunYear,
  frame: AxisFrame,
  { mostTurn_deg = 90, backtracking = false }: { mostTurn_deg?: number; backtracking?: boolean },
  groundCover: number | undefined,
): (hour: number) => Placement {
  const most = mostTurn_deg * radians;
  if (backtracking && groundCover === undefined) throw new ModelError("OUT_OF_RANGE", "no ground cover");
  const { rest, across, axis, axisTilt_deg } = frame;
  return (hour) => {
    const facing = Math.atan2(cosineTo(sun, hour, across), cosineTo(sun, hour, rest));
    let turn = Math.max(-most, Math.min(most, facing));
    if (backtracking) {
      const back = backtracked(facing, groundCover!);
      if (Math.abs(back) < Math.abs(turn)) turn = back;
    }
    const cosine = Math.cos(turn);
    const sine = Math.sin(turn);
    const normal: UnitVector = [
      rest[0] * cosine + across[0] * sine,
      rest[1] * cosine + across[1] * sine,
      rest[2] * cosine,
    ];
    const tilt =
      axisTilt_deg === 0 ? Math.abs(turn) : Math.atan2(Math.hypot(normal[0], normal[1]), normal[2]);
    return {
      normal,
      longAxis: axis,
      tilt_deg: tilt / radians,
      turn_deg: turn / radians,
      stopped: Math.abs(facing) > most,
    };
  };
}

/** Toward the sun's azimuth, at the sun's zenith angle as far as the range goes. */
function within(sun: SunYear, hour: number, least_deg: number, most_deg: number): Placement {
  const zenith_deg = sun.zenith_deg[hour]!;
  const tilt_deg = Math.max(least_deg, Math.min(most_deg, zenith_deg));
  return { ...leaning(tilt_deg, sun.azimuth_deg[hour]!), stopped: tilt_deg !== zenith_deg };
}

function leaning(tilt_deg: number, azimuth_deg: number): Placement {
  return {
    normal: planeNormal(tilt_deg, azimuth_deg),
    longAxis: planeNormal(90 - tilt_deg, azimuth_deg + 180),
    tilt_deg,
    turn_deg: 0,
    stopped: false,
  };
}

/** 0 for January to 11. */
function monthOfHours(): Uint8Array {
  const months = new Uint8Array(hoursPerYear);
  for (let month = 0; month < 12; month += 1) {
    months.fill(month, monthStarts[month]!, monthStarts[month + 1]!);
  }
  return months;
}
