export interface Placing<Point> {
  /** Places of every line to begin with, rising. */
  readonly places: readonly number[];
  readonly lines: readonly ((place: number) => Point)[];
  /** What must be drawn well. */
  readonly measures: readonly ((point: Point) => number)[];
  /** Points of all lines together; the places to begin with are drawn in any case. */
  readonly most: number;
}

interface Placed<Point> {
  readonly place: number;
  readonly point: Point;
}

/** Pieces are not halved below this share of the whole length. */
const leastPiece = 1 / 512;

/**
 * Points of several lines, more where they bend: the piece of any line with the largest second difference
 * of any measure (squared length × curvature at its ends, in parts of the measure's range) is halved, again
 * and again. Where nothing bends, the longest piece is halved.
 *
 * @returns by line, places rising
 */
export function placePoints<Point>({ places, lines, measures, most }: Placing<Point>): Point[][] {
  const drawn = lines.map((line) => places.map((place): Placed<Point> => ({ place, point: line(place) })));
  const whole = places.length > 0 ? places[places.length - 1] - places[0] : 0;
  const scales = measures.map((measure) => rangeOf(drawn.flat().map(({ point }) => measure(point))));
  let count = lines.length * places.length;
  while (count < most) {
    let worst = 0;
    let line = -1;
    let after = -1;
    drawn.forEach((points, n) => {
      const bends = bendsOf(points, measures, scales);
      for (let i = 0; i + 1 < points.length; i += 1) {
        const length = points[i + 1].place - points[i].place;
        if (!(length > 2 * leastPiece * whole)) continue;
        // The length alone decides among pieces that are straight.
        const score = length * length * (Math.max(bends[i], bends[i + 1]) + 1e-9 / (whole * whole));
        if (score <= worst) continue;
        worst = score;
        line = n;
        after = i;
      }
    });
    if (line < 0) break;
    const points = drawn[line];
    const place = (points[after].place + points[after + 1].place) / 2;
    points.splice(after + 1, 0, { place, point: lines[line](place) });
    count += 1;
  }
  return drawn.map((points) => points.map(({ point }) => point));
}

/** The largest curvature of any measure at each point, in parts of its range; 0 at the ends. */
function bendsOf<Point>(
  points: readonly Placed<Point>[],
  measures: readonly ((point: Point) => number)[],
  scales: readonly number[],
): Float64Array {
  const bends = new Float64Array(points.length);
  measures.forEach((measure, m) => {
    if (!(scales[m] > 0)) return;
    for (let i = 1; i + 1 < points.length; i += 1) {
      const [before, at, next] = [points[i - 1], points[i], points[i + 1]];
      const left = (measure(at.point) - measure(before.point)) / (at.place - before.place);
      const right = (measure(next.point) - measure(at.point)) / (next.place - at.place);
      const bend = (2 * Math.abs(right - left)) / (next.place - before.place) / scales[m];
      if (bend > bends[i]) bends[i] = bend;
    }
  });
  return bends;
}

function rangeOf(values: readonly number[]): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return high - low;
}
