import { light, type Meaning } from "./palette.ts";

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/**
 * One SVG element. Numbers are rounded to 0.01; an element with a coordinate that is not on the paper
 * is left out whole. Strings are escaped, `content` is not.
 */
export function tag(name: string, attributes: Attributes, ...content: readonly string[]): string {
  let start = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined) continue;
    if (typeof value === "number" && !onPaper(value)) return "";
    start += ` ${key}="${typeof value === "number" ? rounded(value) : escapeText(value)}"`;
  }
  const inner = content.join("");
  return inner === "" ? `${start}/>` : `${start}>${inner}</${name}>`;
}

/** False for NaN, infinities, and places so far off that no drawing means them. */
export function onPaper(place: number): boolean {
  return Math.abs(place) < 1e6;
}

/** Text for XML: the five signs become entities, control characters that XML forbids are dropped. */
export function escapeText(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to drop
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, "")
      .replace(/&/g, "&amp;")
      .replace(/</g, "&lt;")
      .replace(/>/g, "&gt;")
      .replace(/"/g, "&quot;")
      .replace(/'/g, "&#39;")
  );
}

export function rounded(value: number): number {
  const near = Math.round(value * 100) / 100;
  return near === 0 ? 0 : near;
}

export interface LabelStyle {
  readonly anchor?: "start" | "middle" | "end";
  readonly tone?: "ink" | "soft";
  readonly size?: number;
  readonly weight?: number;
  /** A rim in the colour of the ground, for words over lines. */
  readonly halo?: boolean;
}

export function label(x: number, y: number, content: string, style: LabelStyle = {}): string {
  const { anchor = "start", tone = "ink", size = textSize, weight, halo = false } = style;
  return tag(
    "text",
    {
      x,
      y,
      "text-anchor": anchor === "start" ? undefined : anchor,
      "font-size": size === textSize ? undefined : size,
      "font-weight": weight,
      ...(halo
        ? {
            "paint-order": "stroke",
            stroke: light.ground,
            "stroke-width": 4,
            "stroke-linejoin": "round",
          }
        : {}),
      class: `chart-text-${tone}${halo ? " chart-halo" : ""}`,
      fill: tone === "ink" ? light.ink : light.inkSoft,
    },
    escapeText(content),
  );
}

/** Solid colour of a meaning: the class for a page's style sheet, the attribute for the SVG alone. */
export function fillOf(meaning: Meaning | "ground" | "inkSoft"): Attributes {
  return { class: `chart-fill-${meaning}`, fill: light[meaning] };
}

export function strokeOf(meaning: Meaning | "ground" | "inkSoft" | "rule", width = 1.5): Attributes {
  return {
    class: `chart-line-${meaning}`,
    fill: "none",
    stroke: light[meaning],
    "stroke-width": width,
  };
}

export const textSize = 13;

/** Width of a line of words, from a mean advance that suits the wider system faces. */
export function textWidth(content: string, size = textSize): number {
  return content.length * size * 0.58;
}
