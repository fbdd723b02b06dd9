import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { rampColours, rampStops, rgbOf } from "../../src/charts/colour-ramp.ts";
import type { Rgb } from "../../src/charts/indexed-png.ts";
import { dark, light, meanings, type Theme, variableNames } from "../../src/charts/palette.ts";
import { expectClose, expectPrinted } from "../support/close.ts";

// WCAG 2.2, definitions "relative luminance" and "contrast ratio" (threshold 0.04045 as in IEC 61966-2-1).
const linear = (channel: number) => {
  const share = channel / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
};
const luminanceOf = ([red, green, blue]: Rgb) =>
  0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
const contrast = (a: string, b: string) => {
  const [low, high] = [luminanceOf(rgbOf(a)), luminanceOf(rgbOf(b))].sort((x, y) => x - y);
  return (high! + 0.05) / (low! + 0.05);
};
// CIE 1976 L* (CIE 15:2018, eq. 8.3) of a luminance relative to white.
const lightnessOf = (luminance: number) =>
  luminance > (6 / 29) ** 3 ? 116 * Math.cbrt(luminance) - 16 : luminance * (29 / 3) ** 3;
const lightness = (hex: string) => lightnessOf(luminanceOf(rgbOf(hex)));

/** Machado, Oliveira, Fernandes 2009, table of severity 1.0 (from memory); acts on linear RGB. */
const blindness = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
} as const;

/** CIE L*a*b* under D65 from linear sRGB, matrix of IEC 61966-2-1. */
function labOf(rgb: readonly number[]): [number, number, number] {
  const [r, g, b] = rgb.map((part) => Math.min(1, Math.max(0, part))) as [number, number, number];
  const f = (t: number) => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}
const linearRgb = (hex: string) => rgbOf(hex).map(linear);
const seenBy = (matrix: readonly (readonly number[])[], rgb: readonly number[]) =>
  matrix.map((row) => row.reduce((sum, factor, index) => sum + factor * rgb[index]!, 0));
const difference = (a: readonly number[], b: readonly number[]) => {
  const [p, q] = [labOf(a), labOf(b)];
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
};

const themes: readonly (readonly [string, Theme])[] = [
  ["light", light],
  ["dark", dark],
];
const pairs = meanings.flatMap((a, index) => meanings.slice(index + 1).map((b) => [a, b] as const));
const heats = ["direct", "store", "backup", "spill"];

describe("the measure of contrast used here", () => {
  it("gives 21 for black on white, and 4.54 for #767676 on white (WCAG technique pages, from memory)", () => {
    expectClose(contrast("#000000", "#ffffff"), 21, 1e-12);
    expectPrinted(contrast("#767676", "#ffffff"), "4.54");
  });
  it("gives L* 53.59 for #808080 (published sRGB to Lab tables, from memory)", () => {
    expectPrinted(lightness("#808080"), "53.59");
  });
  it("leaves white white for every kind of colour blindness", () => {
    for (const matrix of Object.values(blindness)) {
      for (const part of seenBy(matrix, [1, 1, 1])) expectClose(part, 1, 1e-5);
    }
  });
});

describe.each(themes)("the %s theme", (_, theme) => {
  it("sets every meaning off from the ground by 3:1 (WCAG 2.2, 1.4.11)", () => {
    for (const meaning of meanings) {
      expect(contrast(theme[meaning], theme.ground), meaning).toBeGreaterThanOrEqual(3);
    }
  });
  it("sets words off from the ground by 4.5:1 (WCAG 2.2, 1.4.3)", () => {
    for (const tone of [theme.ink, theme.inkSoft]) {
      expect(contrast(tone, theme.ground)).toBeGreaterThanOrEqual(4.5);
    }
  });
  it("keeps meanings apart in grey: 5 steps of L* between any two, 8 between heats", () => {
    for (const [a, b] of pairs) {
      const steps = Math.abs(lightness(theme[a]) - lightness(theme[b]));
      const least = heats.includes(a) && heats.includes(b) ? 8 : 5;
      expect(steps, `${a} and ${b}`).toBeGreaterThanOrEqual(least);
    }
  });
  it("keeps meanings apart for colour-blind readers: ΔE*ab of 10 or more between any two", () => {
    for (const [kind, matrix] of Object.entries(blindness)) {
      for (const [a, b] of pairs) {
        const seen = difference(seenBy(matrix, linearRgb(theme[a])), seenBy(matrix, linearRgb(theme[b])));
        expect(seen, `${a} and ${b}, ${kind}`).toBeGreaterThanOrEqual(10);
      }
    }
  });
});

describe("carpet colours", () => {
  const ramps = Object.entries(rampStops).flatMap(([name, { light: onLight, dark: onDark }]) => [
    [`${name} on light ground`, onLight, -1] as const,
    [`${name} on dark ground`, onDark, 1] as const,
  ]);
  it.each(ramps)("run one way in lightness: %s", (_, stops, way) => {
    const steps = rampColours(stops)
      .slice(1)
      .map((rgb) => lightnessOf(luminanceOf(rgb)));
    expect(steps).toHaveLength(255);
    for (let index = 1; index < steps.length; index += 1) {
      // Rounding to whole channels may hold a step back by a fraction.
      expect(way * (steps[index]! - steps[index - 1]!), `step ${index}`).toBeGreaterThan(-0.35);
    }
    expect(way * (steps.at(-1)! - steps[0]!)).toBeGreaterThan(55);
  });
});

describe("the style sheet", () => {
  const sheet = readFileSync(new URL("../../views/assets/palette.css", import.meta.url), "utf8");
  const [first = "", second = ""] = sheet.split("@media screen and (prefers-color-scheme: dark)");
  it("holds the colours of the palette for both themes", () => {
    for (const [key, variable] of Object.entries(variableNames)) {
      expect(first).toContain(`${variable}: ${light[key as keyof Theme]};`);
      expect(second).toContain(`${variable}: ${dark[key as keyof Theme]};`);
    }
  });
  it("colours fills and lines of every theme colour", () => {
    for (const [key, variable] of Object.entries(variableNames)) {
      expect(sheet).toMatch(new RegExp(`\\.chart-fill-${key} \\{\\s+fill: var\\(${variable}\\)`));
      expect(sheet).toMatch(new RegExp(`\\.chart-line-${key} \\{\\s+stroke: var\\(${variable}\\)`));
    }
  });
});
