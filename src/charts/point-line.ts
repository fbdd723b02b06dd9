import { line } from "d3-shape";
import { onPaper } from "./svg.ts";

export type Point = readonly [x: number, y: number];

/** Straight line through points in pixels, broken where one is not finite. */
export function pointLine(points: readonly Point[]): string {
  const draw = line<Point>(
    (point) => point[0],
    (point) => point[1],
  ).defined(([x, y]) => onPaper(x) && onPaper(y));
  return draw.digits(2)(points) ?? "";
}

/** Ways to dash a line, so that lines differ without colour. */
export const dashes: readonly (string | undefined)[] = [
  undefined,
  "7 4",
  "2 3",
  "10 3 2 3",
  "4 2",
  "12 4 2 3 2 4",
];

export function dashOf(index: number): string | undefined {
  return dashes[index % dashes.length];
}
