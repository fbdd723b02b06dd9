/** The steady step of a file and how well its rows keep to it. */
export interface Step {
  readonly step_min: number;
  /** Times moved onto the step's grid where they were off by at most a tenth of it. */
  readonly time_ms: Float64Array;
  /** Positions of rows moved onto the grid. */
  readonly moved: readonly number[];
  /** Positions of rows that lie off the grid. */
  readonly off: readonly number[];
  /** True where the file runs from the last to the first. */
  readonly descending: boolean;
  /** Positions of rows whose time goes against the direction of the file by more than two hours. */
  readonly outOfOrder: readonly number[];
}

const jitterShare = 0.1;
/** The repeated hour of daylight saving (two in a few zones) steps back by no more than this. */
const clockStepBack_ms = 2 * 3_600_000;

/**
 * The median distance between neighbouring rows (whole seconds), and each row's place on its grid.
 * Null where fewer than two rows have a time. NaN times stay NaN and are not judged.
 */
export function findStep(time_ms: Float64Array): Step | null {
  const places: number[] = [];
  time_ms.forEach((time, i) => {
    if (!Number.isNaN(time)) places.push(i);
  });
  const distances = places.slice(1).map((place, k) => time_ms[place] - time_ms[places[k]!]!);
  const rising = distances.filter((distance) => distance > 0).length;
  const falling = distances.filter((distance) => distance < 0).length;
  const descending = falling > rising;
  const sizes = Float64Array.from(distances.filter((distance) => (descending ? distance < 0 : distance > 0)))
    .map(Math.abs)
    .sort();
  if (sizes.length === 0) return null;
  const step_ms = Math.round(sizes[sizes.length >> 1] / 1000) * 1000;
  if (step_ms === 0) return null;

  const outOfOrder: number[] = [];
  let furthest = time_ms[places[0]!]!;
  for (const place of places) {
    const behind = descending ? time_ms[place] - furthest : furthest - time_ms[place];
    if (behind > clockStepBack_ms) outOfOrder.push(place);
    if (behind < 0) furthest = time_ms[place];
  }

  const phase = commonPhase(places.map((place) => modulo(time_ms[place], step_ms)));
  const onGrid = time_ms.slice();
  const moved: number[] = [];
  const off: number[] = [];
  for (const place of places) {
    const past = modulo(time_ms[place] - phase, step_ms);
    const away = past > step_ms / 2 ? past - step_ms : past;
    if (away === 0) continue;
    if (Math.abs(away) <= step_ms * jitterShare) {
      onGrid[place] = time_ms[place] - away;
      moved.push(place);
    } else off.push(place);
  }
  return { step_min: step_ms / 60_000, time_ms: onGrid, moved, off, descending, outOfOrder };
}

function commonPhase(phases: readonly number[]): number {
  const tally = new Map<number, number>();
  for (const phase of phases) tally.set(phase, (tally.get(phase) ?? 0) + 1);
  let best = phases[0]!;
  for (const [phase, count] of tally) if (count > tally.get(best)!) best = phase;
  return best;
}

const modulo = (value: number, step: number) => ((value % step) + step) % step;
