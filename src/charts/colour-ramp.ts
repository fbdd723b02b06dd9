import type { Rgb } from "./indexed-png.ts";
import { dark, light } from "./palette.ts";

/** What a carpet shows: the sun, a load, backup heat, a store's content. */
export type CarpetScale = "sun" | "load" | "backup" | "content";

/** Stops from nothing to the most; lightness runs one way, towards ink. */
export const rampStops: Readonly<
  Record<CarpetScale, { readonly light: readonly string[]; readonly dark: readonly string[] }>
> = {
  sun: {
    light: ["#f4f1e8", "#ecd08a", light.direct, "#8a5410", "#4a2a08"],
    dark: ["#20242a", "#5c431a", "#a3741f", dark.direct, "#fff0c9"],
  },
  load: {
    light: ["#f4f1e8", "#c6c5c0", "#8b8e92", "#51575f", light.ink],
    dark: ["#20242a", "#4a4f56", "#7d8288", "#b5b7b8", dark.ink],
  },
  backup: {
    light: ["#f4f1e8", "#bac6d2", "#7d90a4", "#4c6076", light.backup],
    dark: ["#20242a", "#3b4958", dark.backup, "#98a8bb", "#dbe5f0"],
  },
  content: {
    light: ["#f4f1e8", "#eebfa3", "#cf7d56", light.store, "#5a2009"],
    dark: ["#20242a", "#5a2d1b", "#9c4a2a", "#e08a62", "#ffe0d0"],
  },
};

/** 256 colours: number 0 stands for no data, 1 to 255 run through the stops. */
export function rampColours(stops: readonly string[]): Rgb[] {
  const points = stops.map(rgbOf);
  const ramp = Array.from({ length: 255 }, (_, index): Rgb => {
    const place = (index / 254) * (points.length - 1);
    const below = Math.min(points.length - 2, Math.floor(place));
    const part = place - below;
    const [from, to] = [points[below]!, points[below + 1]!];
    const mix = (channel: 0 | 1 | 2) => Math.round(from[channel] + part * (to[channel] - from[channel]));
    return [mix(0), mix(1), mix(2)];
  });
  return [[0, 0, 0], ...ramp];
}

export function rgbOf(hex: string): Rgb {
  const part = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16);
  return [part(1), part(3), part(5)];
}
