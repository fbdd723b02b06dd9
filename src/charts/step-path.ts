import { onPaper } from "./svg.ts";

/** Line of hourly means: level through each interval. `x(i)` is the start of interval i; NaN breaks it. */
export function stepLine(x: (index: number) => number, y: ArrayLike<number>): string {
  let path = "";
  for (const [from, to] of finiteRuns(y.length, (index) => onPaper(y[index]!))) {
    path += `M${tenth(x(from))} ${tenth(y[from]!)}${levels(x, y, from, to)}`;
  }
  return path;
}

/** Area between two lines of hourly means; intervals where either is NaN are left open. */
export function stepArea(
  x: (index: number) => number,
  lower: ArrayLike<number>,
  upper: ArrayLike<number>,
): string {
  let path = "";
  // Intervals without thickness are not drawn: a year of nights would only lengthen the path.
  const thick = (index: number) =>
    onPaper(lower[index]!) && onPaper(upper[index]!) && Math.abs(upper[index]! - lower[index]!) > 0.04;
  for (const [from, to] of finiteRuns(upper.length, thick)) {
    path += `M${tenth(x(from))} ${tenth(upper[from]!)}${levels(x, upper, from, to)}`;
    path += `V${tenth(lower[to - 1]!)}`;
    for (let index = to - 1; index > from; index -= 1) {
      if (tenth(lower[index]!) !== tenth(lower[index - 1]!)) {
        path += `H${tenth(x(index))}V${tenth(lower[index - 1]!)}`;
      }
    }
    path += `H${tenth(x(from))}Z`;
  }
  return path;
}

function levels(x: (index: number) => number, y: ArrayLike<number>, from: number, to: number): string {
  let path = "";
  for (let index = from + 1; index < to; index += 1) {
    if (tenth(y[index]!) !== tenth(y[index - 1]!)) path += `H${tenth(x(index))}V${tenth(y[index]!)}`;
  }
  return `${path}H${tenth(x(to))}`;
}

/** [first, end) of each run for which `holds`; a comparison with NaN does not hold. */
function finiteRuns(length: number, holds: (index: number) => boolean): [number, number][] {
  const runs: [number, number][] = [];
  let from = -1;
  for (let index = 0; index <= length; index += 1) {
    const inside = index < length && holds(index);
    if (inside && from < 0) from = index;
    if (!inside && from >= 0) {
      runs.push([from, index]);
      from = -1;
    }
  }
  return runs;
}

function tenth(value: number): number {
  const near = Math.round(value * 10) / 10;
  return near === 0 ? 0 : near;
}
