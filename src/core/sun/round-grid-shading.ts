import { ModelError } from "../errors.ts";
import { radians } from "../units.ts";

/** Nodes in the sine of the sun's height, orientations of the grid to the sun, strips across an aperture. */
const nodes = 24;
const orientations = 9;
const strips = 24;

/** Apertures of a square grid of round ones that just touch cover so much of the land. */
export const closestRoundCover = Math.PI / 4;

/**
 * Unshaded share of a round aperture that faces the sun among equal ones on a square grid on flat land, as a
 * function of the sine of the sun's height; the mean over the grid's orientations to the sun. Seen from the
 * sun every aperture is a full circle and the grid is pressed together by that sine in the sun's direction, so
 * the shadow is the union of the circles of the neighbours on the sun's side (plane geometry; tested against
 * cast rays). The field is endless: the outer ones, which less stands before, do better.
 *
 * @param groundCover aperture per land area, above 0 to π/4
 * @throws ModelError OUT_OF_RANGE
 */
export function roundGridShare(groundCover: number): (sineOfHeight: number) => number {
  if (!(groundCover > 0 && groundCover <= closestRoundCover))
    throw new ModelError("OUT_OF_RANGE", `ground cover ${groundCover} of round apertures`);
  // From here on the apertures' spacing counts in diameters; below `reach` circles can overlap.
  const reach = diameterOverSpacing(groundCover);
  const table = Float64Array.from({ length: nodes + 1 }, (_, node) => {
    if (node === 0 || node === nodes) return node / nodes;
    const sine = (reach * node) / nodes;
    let share = 0;
    for (let turn = 0; turn < orientations; turn += 1) {
      // By symmetry the grid needs to be turned by no more than 45°.
      share += roundGridShareAt(groundCover, sine, (45 * (turn + 0.5)) / orientations) / orientations;
    }
    return Math.min(share, sine / groundCover);
  });
  return (sineOfHeight) => {
    const place = (sineOfHeight / reach) * nodes;
    if (!(place < nodes)) return 1;
    const node = Math.floor(Math.max(0, place));
    return table[node]! + (place - node) * (table[node + 1]! - table[node]!);
  };
}

/** The same for one orientation: `orientation_deg` from a line of the grid to the sun's direction. */
export function roundGridShareAt(groundCover: number, sineOfHeight: number, orientation_deg: number): number {
  const reach = diameterOverSpacing(groundCover);
  const circles = neighbours(reach, sineOfHeight, orientation_deg);
  let lit = 0;
  let whole = 0;
  for (let strip = 0; strip < strips; strip += 1) {
    const x = (strip + 0.5) / strips - 0.5;
    const half = Math.sqrt(0.25 - x * x);
    whole += 2 * half;
    lit += 2 * half - covered(circles, x, half);
  }
  return lit / whole;
}

interface Circle {
  readonly x: number;
  readonly y: number;
}

/** Centres of the neighbours on the sun's side that may reach the aperture, seen from the sun, in diameters. */
function neighbours(reach: number, sine: number, orientation_deg: number): Circle[] {
  const cosine = Math.cos(orientation_deg * radians);
  const turned = Math.sin(orientation_deg * radians);
  const far = Math.ceil(reach / sine) + 1;
  const found: Circle[] = [];
  for (let i = -far; i <= far; i += 1) {
    for (let j = -far; j <= far; j += 1) {
      const x = (i * cosine - j * turned) / reach;
      const y = ((i * turned + j * cosine) * sine) / reach;
      if (y > 0 && Math.abs(x) < 1 && Math.hypot(x, y) < 1) found.push({ x, y });
    }
  }
  return found;
}

/** Length of the chord from −half to half at `x` that lies within any of the circles. */
function covered(circles: readonly Circle[], x: number, half: number): number {
  const spans: [number, number][] = [];
  for (const circle of circles) {
    const aside = x - circle.x;
    const reach = Math.sqrt(Math.max(0, 0.25 - aside * aside));
    if (reach > 0 && circle.y - reach < half) spans.push([circle.y - reach, circle.y + reach]);
  }
  spans.sort((a, b) => a[0] - b[0]);
  let length = 0;
  let until = -half;
  for (const [from, to] of spans) {
    const end = Math.min(to, half);
    if (end <= until) continue;
    length += end - Math.max(from, until);
    until = end;
  }
  return length;
}

function diameterOverSpacing(groundCover: number): number {
  return Math.sqrt((4 * groundCover) / Math.PI);
}
