import { describe, expect, it } from "vitest";
import { sum } from "../../../src/core/series.ts";
import { sunYear } from "../../../src/core/sun/sun-year.ts";
import { closureOf } from "../../../src/core/sun/weather-figures.ts";
import { readWeather } from "../../../src/formats/weather/read-weather.ts";
import { writePlainWeather } from "../../../src/formats/weather/write-plain-weather.ts";
import { clearYear, epwLines, phoenix } from "./clear-year.ts";
import { bytesOf, read, wellRead } from "./support.ts";

const year = clearYear();
const missing = new Float64Array(8760).fill(Number.NaN);
const globalOnly = without(writePlainWeather(year), ["dni_W_m2", "dhi_W_m2"]);

/** A plain CSV without some of its columns. */
function without(text: string, titles: readonly string[]): string {
  const lines = text.trimEnd().split("\n");
  const head = lines.findIndex((line) => line.startsWith("month"));
  const kept = lines[head]!.split(",").map((title) => !titles.includes(title));
  return lines
    .map((line, i) =>
      i < head
        ? line
        : line
            .split(",")
            .filter((_, place) => kept[place])
            .join(","),
    )
    .join("\n");
}

describe("a file that holds global radiation only", () => {
  it("is split by Erbs unless the study says otherwise, and this is said with its worth", () => {
    const byErbs = wellRead(read(globalOnly));
    expect(byErbs.year.ghi_W_m2).toEqual(year.ghi_W_m2);
    expect(closureOf(byErbs.year, sunYear(phoenix)).meanAbsolute_W_m2).toBeLessThan(1e-9);
    expect(byErbs.findings.join()).toContain("was estimated from it by Erbs");
    expect(byErbs.findings.join()).toContain(`${Math.round(sum(byErbs.year.dni_W_m2) / 1000)} kWh/m²`);
    const asked = (diffuseBy: "erbs" | "persistence") =>
      wellRead(readWeather(bytesOf(globalOnly), { file: "w", site: phoenix, diffuseBy }));
    expect(asked("erbs").year).toEqual(byErbs.year);
    const other = asked("persistence");
    expect(other.findings.join()).toContain("by Ridley, Boland and Lauret");
    expect(sum(other.year.dni_W_m2)).not.toBe(sum(byErbs.year.dni_W_m2));
  });

  it("may be an EPW file whose direct and diffuse fields are all missing", () => {
    const lines = epwLines({ ...year, dni_W_m2: missing.map(() => 9999), dhi_W_m2: missing.map(() => 9999) });
    const got = wellRead(read(lines));
    expect(got.findings.join()).toContain("global radiation only");
    expect(sum(got.year.dni_W_m2)).toBeGreaterThan(1e6);
  });

  it("is told as such after it was written in full, as a summary does", () => {
    const first = wellRead(read(globalOnly));
    const again = wellRead(
      readWeather(bytesOf(writePlainWeather(first.year)), {
        ...{ file: "w", site: phoenix },
        diffuseBy: "erbs",
      }),
    );
    expect(again.year).toEqual(first.year);
    expect(again.findings.filter((line) => line.includes("global radiation only"))).toEqual(
      first.findings.filter((line) => line.includes("global radiation only")),
    );
    expect(again.findings.join()).not.toContain("which was taken");
  });

  it("tells a choice that changes nothing", () => {
    const text = writePlainWeather(year);
    const got = wellRead(readWeather(bytesOf(text), { file: "w", site: phoenix, diffuseBy: "persistence" }));
    expect(got.findings.join()).toContain("the file holds beam or diffuse itself, which was taken");
    expect(got.year.dni_W_m2).toEqual(year.dni_W_m2);
  });
});
