import { describe, expect, it } from "vitest";
import { stormSpells } from "../../src/core/collector/storm-spells.ts";
import { monthStarts } from "../../src/core/sun/monthly-means.ts";
import { sunYear } from "../../src/core/sun/sun-year.ts";
import { weatherSpans } from "../../src/core/sun/weather-sheet.ts";
import { weatherSheet } from "../../src/present/weather-sheet.ts";
import { sunnyWeather } from "../support/small-plant.ts";
import { smallStudy } from "../support/small-study.ts";

const study = smallStudy();
const weather = sunnyWeather(study);
const sun = sunYear(study.site);

describe("the data sheet of a weather year", () => {
  it("adds its months up to the year, and knows the coldest and the hottest hour", () => {
    const { months, year } = weatherSpans(weather, sun, study.site.latitude_deg);
    for (const key of ["dni_kWh_m2", "ghi_kWh_m2", "dhi_kWh_m2"] as const) {
      expect(months.reduce((all, month) => all + month[key], 0)).toBeCloseTo(year[key], 6);
    }
    expect(year.leastAmbient_C).toBe(Math.min(...weather.ambient_C));
    expect(year.mostAmbient_C).toBe(Math.max(...weather.ambient_C));
    expect(year.mostWind_m_s).toBe(Math.max(...weather.wind_m_s));
    // The made-up year was asked for a clearness of 0.68 in every month.
    for (const { clearness } of months) expect(Math.abs(clearness - 0.68)).toBeLessThan(0.01);
  });

  it("has a table for radiation, one for the air and a row of storms for each collector", () => {
    const sheet = weatherSheet(study, weather, sun);
    expect(sheet.light.rows).toHaveLength(13);
    expect(sheet.air.rows).toHaveLength(13);
    expect(sheet.light.rows.at(-1)![0]).toBe("Year");
    expect(sheet.storms!.rows).toHaveLength(study.collectors.length);
    expect(weatherSheet({ ...study, collectors: [] }, weather, sun)).toMatchObject({
      storms: null,
      stormMonths: null,
    });
  });

  it("counts the storm hours of every month by each collector's limit", () => {
    const wind_m_s = new Float64Array(8760);
    for (const hour of [10, 11, 12, 5000]) wind_m_s[hour] = 15;
    const [first] = study.collectors;
    const collectors = [
      { ...first!, name: "Low", storm: { stowWind_m_s: 12, backAfter_h: 2 } },
      { ...first!, name: "High", storm: { stowWind_m_s: 20, backAfter_h: 2 } },
    ];
    const table = weatherSheet({ ...study, collectors }, { ...weather, wind_m_s }, sun).stormMonths!;
    expect(table.columns.map(({ title }) => title)).toEqual(["", "Low, above 12 m/s", "High, above 20 m/s"]);
    expect(table.rows).toHaveLength(13);
    expect(table.rows[0]).toEqual(["January", "3 (5)", "0 (0)"]);
    expect(table.rows[1]).toEqual(["February", "0 (0)", "0 (0)"]);
    expect(table.rows[6]).toEqual(["July", "1 (3)", "0 (0)"]);
    expect(table.rows[12]).toEqual(["Year", "4 (8)", "0 (0)"]);
  });

  it("tells how far from the site and how much higher the station is", () => {
    const { latitude_deg, longitude_deg, elevation_m } = study.site;
    const at = (north_deg: number, up_m: number) => {
      const station = {
        name: "Field",
        latitude_deg: latitude_deg + north_deg,
        longitude_deg,
        elevation_m: elevation_m + up_m,
        utcOffset_h: study.site.utcOffset_h,
      };
      const { rows } = weatherSheet(study, { ...weather, station }, sun).source;
      return rows.find(([what]) => what === "Station from the site")?.[1];
    };
    // A degree of latitude is 111.2 km on a sphere of 6371 km.
    expect(at(0.1, 250)).toBe("11.1 km away, 250 m higher");
    expect(at(0, -40)).toBe("0.0 km away, 40 m lower");
    expect(at(0, 0)).toBe("0.0 km away, at the same height");
    expect(
      weatherSheet(study, { ...weather, station: null }, sun).source.rows.map(([what]) => what),
    ).not.toContain("Station from the site");
  });
});

describe("the storms of a year", () => {
  // By hand: 15 m/s in hours 10–12, 5000 and 8759; a limit of 12 and two hours until back, round New Year.
  const wind_m_s = new Float64Array(8760);
  for (const hour of [10, 11, 12, 5000, 8759]) wind_m_s[hour] = 15;
  const dni_W_m2 = new Float64Array(8760).fill(100);
  const storms = (more: object = {}) =>
    stormSpells(
      { ...weather, wind_m_s, dni_W_m2 },
      sun,
      { stowWind_m_s: 12, backAfter_h: 2, ...more },
      monthStarts,
    );

  it("are counted in hours, spells and beam missed, the last one running into January", () => {
    const found = storms();
    expect(found.hoursAbove).toBe(5);
    expect(found.stowedHours).toBe(5 + 3 + 3);
    expect(found.spells).toBe(3);
    expect(found.longest_h).toBe(5);
    expect(found.dniMissed_kWh_m2).toBeCloseTo(1.1, 12);
    expect(found.hoursAboveByMonth).toEqual([3, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1]);
    expect(found.stowedHoursByMonth).toEqual([2 + 5, 0, 0, 0, 0, 0, 3, 0, 0, 0, 0, 1]);
  });

  it("are one where the wind never falls, and none where it never rises", () => {
    expect(storms({ stowWind_m_s: 12, backAfter_h: 8760 })).toMatchObject({ spells: 1, longest_h: 8760 });
    expect(storms({ stowWind_m_s: 20 })).toMatchObject({ spells: 0, longest_h: 0, stowedHours: 0 });
  });
});
