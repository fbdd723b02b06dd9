import { type Attributes, label, strokeOf, tag, textWidth } from "./svg.ts";

/** A name beside a sample of how it is drawn. */
export interface KeyEntry {
  readonly name: string;
  /** Attributes of a small rectangle, or of a short line. */
  readonly sample: { readonly area: Attributes } | { readonly line: Attributes };
}

/** One below the other, in the order in which they are stacked, beside the plot. */
export function keyColumn(entries: readonly KeyEntry[], x: number, top: number): string {
  return entries
    .map((entry, row) => swatch(entry, x, top + row * 22) + label(x + 24, top + row * 22 + 4.5, entry.name))
    .join("");
}

/** Side by side above the plot, wrapped to the width; `height` is what they take. */
export function keyRow(
  entries: readonly KeyEntry[],
  left: number,
  right: number,
  top = 8,
): { readonly svg: string; readonly height: number } {
  let x = left;
  let y = top;
  const parts: string[] = [];
  for (const entry of entries) {
    const width = 24 + textWidth(entry.name);
    if (x > left && x + width > right) {
      x = left;
      y += 22;
    }
    parts.push(swatch(entry, x, y), label(x + 24, y + 4.5, entry.name));
    x += width + 14;
  }
  return { svg: parts.join(""), height: entries.length === 0 ? 0 : y + 22 - top };
}

function swatch(entry: KeyEntry, x: number, y: number): string {
  return "area" in entry.sample
    ? tag("rect", { x, y: y - 6, width: 16, height: 12, ...entry.sample.area })
    : tag("path", { d: `M${x} ${Math.round(y * 10) / 10}h18`, ...strokeOf("ink"), ...entry.sample.line });
}
