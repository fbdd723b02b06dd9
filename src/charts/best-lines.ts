import { dashOf, pointLine } from "./point-line.ts";
import { fillOf, onPaper, strokeOf, tag } from "./svg.ts";

/** A line with the point on it that is best, both in pixels. */
export interface BestLine {
  readonly points: readonly (readonly [x: number, y: number])[];
  readonly best: readonly [x: number, y: number];
}

/** Lines told apart by their dashes in the order given, a dot on the best point of each. */
export function bestLines(lines: readonly BestLine[]): string {
  const drawn = lines.map(({ points }, index) =>
    tag("path", { d: pointLine(points), ...strokeOf("ink", 1.8), "stroke-dasharray": dashOf(index) }),
  );
  const marks = lines.map(({ best: [cx, cy] }) =>
    onPaper(cx) && onPaper(cy) ? tag("circle", { cx, cy, r: 4.5, ...fillOf("direct") }) : "",
  );
  return drawn.join("") + marks.join("");
}
