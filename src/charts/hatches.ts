import type { Meaning } from "./palette.ts";
import { type Attributes, fillOf, strokeOf, tag } from "./svg.ts";

/**
 * Fill of an area. Heat straight from the sun and backup heat are solid; the others carry a hatch as
 * a second cue, drawn by a pattern that `hatchDefinitions` puts into the same SVG.
 */
export function areaFill(prefix: string, meaning: Meaning): Attributes {
  if (meaning === "direct" || meaning === "backup") return fillOf(meaning);
  const fill = `url(#${prefix}-hatch-${meaning})`;
  // Open hatches need an edge to read as a shape.
  return meaning === "spill" || meaning === "ink" ? { ...strokeOf(meaning, 1), fill } : { fill };
}

export function hatchDefinitions(prefix: string, meanings: readonly Meaning[]): string {
  return meanings.map((meaning) => hatch(prefix, meaning)).join("");
}

function hatch(prefix: string, meaning: Meaning): string {
  const box = { width: 6, height: 6 };
  const solid = tag("rect", { ...box, ...fillOf(meaning) });
  const open = tag("rect", { ...box, ...fillOf("ground") });
  const stripe = (attributes: Attributes) => tag("path", { d: "M1.5 0V6", ...attributes });
  const pattern = (angle: number, ...content: string[]) =>
    tag(
      "pattern",
      {
        id: `${prefix}-hatch-${meaning}`,
        ...box,
        patternUnits: "userSpaceOnUse",
        patternTransform: angle === 0 ? undefined : `rotate(${angle})`,
      },
      ...content,
    );
  switch (meaning) {
    case "store":
      return pattern(45, solid, stripe(strokeOf("ground", 1)));
    case "spill":
      return pattern(-45, open, stripe(strokeOf("spill", 2)));
    case "electricity":
      return pattern(0, solid, stripe(strokeOf("ground", 1.2)));
    case "cold":
      return pattern(0, solid, tag("circle", { cx: 3, cy: 3, r: 1.1, ...fillOf("ground") }));
    case "ink":
      return pattern(-45, open, stripe(strokeOf("ink", 2.4)));
    default:
      return "";
  }
}
