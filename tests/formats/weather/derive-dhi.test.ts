import { describe, expect, it } from "vitest";
import { sum } from "../../../src/core/series.ts";
import { writePlainWeather } from "../../../src/formats/weather/write-plain-weather.ts";
import { clearYear, epwLines } from "./clear-year.ts";
import { faults, read, wellRead } from "./support.ts";

const year = clearYear();
const full = writePlainWeather(year);

/** A plain CSV without its diffuse light. */
function withoutDiffuse(text: string, change: (cells: string[], hour: number) => void = () => {}): string {
  const lines = text.trimEnd().split("\n");
  const head = lines.findIndex((line) => line.startsWith("month"));
  const titles = lines[head]!.split(",");
  const place = titles.indexOf("dhi_W_m2");
  return lines
    .map((line, i) => {
      if (i < head) return line;
      const cells = line.split(",");
      if (i > head) change(cells, i - head - 1);
      return cells.filter((_, n) => n !== place).join(",");
    })
    .join("\n");
}
const dniOf = full
  .split("\n")
  .find((line) => line.startsWith("month"))!
  .split(",")
  .indexOf("dni_W_m2");

describe("a file with global and direct radiation, without diffuse", () => {
  it("gets its diffuse back in every hour, those of sunrise and sunset too, and this is said", () => {
    // The made year's GHI is DHI + DNI·cos θz exactly, the sun at the middle of the lit part.
    const got = wellRead(read(withoutDiffuse(full)));
    expect(sum(got.year.dhi_W_m2)).toBeGreaterThan(1e5);
    for (let hour = 0; hour < 8760; hour += 1)
      expect(Math.abs(got.year.dhi_W_m2[hour]! - year.dhi_W_m2[hour]!)).toBeLessThan(1e-6);
    expect(got.findings.join()).toContain("Diffuse radiation was computed as GHI − DNI·cos θz");
    expect(got.findings.join()).not.toContain("below 0");
  });

  it("may be an EPW file whose diffuse field is missing throughout", () => {
    const got = wellRead(read(epwLines({ ...year, dhi_W_m2: year.dhi_W_m2.map(() => 9999) })));
    expect(sum(got.year.dhi_W_m2) / sum(year.dhi_W_m2)).toBeCloseTo(1, 2);
  });

  it("is told where diffuse comes out below zero, with the rows and the lowest", () => {
    const hour = 24 * 180 + 12;
    const got = wellRead(
      read(
        withoutDiffuse(full, (cells, i) => {
          if (i === hour) cells[dniOf] = String(Number(cells[dniOf]) + 300);
        }),
      ),
    );
    expect(got.year.dhi_W_m2[hour]).toBe(0);
    expect(got.findings.join()).toMatch(
      /It came out below 0 in row \d+, down to -\d+\.\d W\/m², and was taken as 0/,
    );
  });

  it("is refused where direct and global do not fit together at all", () => {
    const wrong = withoutDiffuse(full, (cells) => {
      cells[dniOf] = String(Math.min(1300, 2 * Number(cells[dniOf])));
    });
    expect(faults(read(wrong)).join()).toContain("differs from diffuse plus direct times cos θz");
  });
});
