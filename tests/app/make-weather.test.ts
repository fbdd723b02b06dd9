import { describe, expect, it } from "vitest";
import { exampleBundle } from "../../src/app/example.ts";
import { readSeed, readTurbidity, weatherFromMeans, weatherOfClearSky } from "../../src/app/make-weather.ts";
import { resolveStudy } from "../../src/app/resolve-study.ts";
import { sum } from "../../src/core/series.ts";
import { monthlyMeans } from "../../src/core/sun/monthly-means.ts";
import { readWeather } from "../../src/formats/weather/read-weather.ts";
import { exampleDefinition } from "../../src/store/example-files.ts";

const { study, means } = exampleDefinition();
const { site } = study;
const made = (seed: number) => {
  const outcome = weatherFromMeans(site, means, seed, "made.csv");
  if (!outcome.ok) throw new Error("the year must be made");
  return outcome;
};

describe("weatherFromMeans(site, means, seed, file)", () => {
  it("writes a file that says how it was made and is the same year for the same seed", () => {
    const { text, weather } = made(7).value;
    expect(made(7).value.text).toBe(text);
    expect(made(8).value.text).not.toBe(text);
    expect(text).toContain("# made_from: monthly-means\n");
    expect(text).toContain("# seed: 7\n");
    expect(text).toContain(`# mean_clearness: ${means.clearness.join(" ")}\n`);
    expect(weather.madeFrom).toBe("monthly-means");
    monthlyMeans(weather.ambient_C).forEach((mean, month) => {
      expect(Math.abs(mean - means.ambient_C[month]!)).toBeLessThan(0.02);
    });
  });

  it("makes the worked example's own weather from its means and seed", () => {
    const lines = (text: string) => text.split("\n").filter((line) => !line.startsWith("#"));
    const own = new TextDecoder().decode(exampleBundle({ study, means }).files.get("weather.csv"));
    expect(lines(made(means.seed).value.text)).toEqual(lines(own));
  });

  it("is known as made up when it is read again, and refused for another place", () => {
    const bytes = new TextEncoder().encode(made(7).value.text);
    const again = readWeather(bytes, { file: "made.csv", site });
    if (!again.ok) throw new Error("the file must be read");
    expect(again.findings.map(({ code }) => code)).toContain("WEATHER_MADE_UP");
    const elsewhere = { ...site, latitude_deg: site.latitude_deg + 4 };
    const refusal = readWeather(bytes, { file: "made.csv", site: elsewhere });
    expect(refusal.ok ? [] : refusal.problems.map(({ code }) => code)).toContain("WEATHER_STATION_FAR");
  });

  it("says so among the remarks of the study that uses it", () => {
    const resolved = resolveStudy(exampleBundle({ study, means }));
    if (!resolved.ok) throw new Error("the example must be sound");
    expect(resolved.findings.map(({ message }) => message).join()).toContain(
      "made from twelve monthly means",
    );
  });
});

describe("weatherOfClearSky(site, air, turbidity, file)", () => {
  it("has more light the clearer the air, the air of the other year, and says what it is", () => {
    const { weather: air } = made(7).value;
    const clear = [2, 4, 6].map((turbidity) => {
      const outcome = weatherOfClearSky(site, air, turbidity, "clear.csv");
      if (!outcome.ok) throw new Error("the year must be made");
      expect(outcome.findings.map(({ code }) => code)).toContain("WEATHER_MADE_UP");
      expect(outcome.findings.map(({ code }) => code)).not.toContain("WEATHER_CLOSURE");
      expect(outcome.value.weather.ambient_C).toEqual(air.ambient_C);
      return sum(outcome.value.weather.dni_W_m2);
    });
    expect(clear[0]).toBeGreaterThan(clear[1]!);
    expect(clear[1]).toBeGreaterThan(clear[2]!);
    expect(clear[2]).toBeGreaterThan(sum(air.dni_W_m2) / 2);
  });
});

describe("what is typed beside the means", () => {
  it("is a whole seed and a turbidity of real air, or told", () => {
    expect(readSeed(" 42 ")).toMatchObject({ ok: true, value: 42 });
    expect(readTurbidity("3,5")).toMatchObject({ ok: true, value: 3.5 });
    for (const typed of ["", "-1", "1.5", "1e3", "100000"]) expect(readSeed(typed).ok).toBe(false);
    for (const typed of ["", "1.9", "9", "clear"]) expect(readTurbidity(typed).ok).toBe(false);
  });
});
