import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { collectorFaults } from "../../../src/core/collector/collector-faults.ts";
import { collectorYear } from "../../../src/core/collector/collector-year.ts";
import { filmChanges_years, filmStatesByMonth } from "../../../src/core/collector/film-history.ts";
import { filmState, meanFilmState } from "../../../src/core/collector/film-state.ts";
import { renewal } from "../../../src/core/economics/replacements.ts";
import type { Collector } from "../../../src/core/study/schema/study.ts";
import { expectClose } from "../../support/close.ts";
import { desert, desertSun, madeWeather, ofRecord } from "./support.ts";

const dish = (changes: Partial<Collector> = {}, filmLife_years = 2): Collector => {
  const collector = ofRecord("inflated-film-dish", changes);
  return {
    ...collector,
    parts: collector.parts.map((part) =>
      part.name === "Film" ? { ...part, life_years: filmLife_years } : part,
    ),
  };
};

describe("the state of a film", () => {
  // By hand: two passes of 0.97 and reflectance 0.96 after one year, beside 0.99 of the rest.
  it("loses transmittance for each pass, reflectance once, and what is given for the whole", () => {
    const collector = dish({
      ageing_per_year: 0.01,
      filmAgeing: { transmittanceLost_per_year: 0.03, reflectanceLost_per_year: 0.04 },
    });
    expectClose(filmState(collector, 1), 0.99 * 0.97 ** 2 * 0.96, 1e-15);
    expect(filmState(collector, 0)).toBe(1);
    expect(filmState(collector, 50)).toBe(0);
  });

  // By hand: the mean over two years of (1 − 0.1·a)·(1 − 0.2·a) is 1 − 0.3 + 0.02·4/3.
  it("has as its mean the integral over the life", () => {
    const collector = dish({ ageing_per_year: 0.1, filmAgeing: { reflectanceLost_per_year: 0.2 } });
    expectClose(meanFilmState(collector), 1 - 0.3 + (0.02 * 4) / 3, 1e-12);
    expectClose(meanFilmState(dish({ ageing_per_year: 0.05, filmAgeing: {} })), 0.95, 1e-12);
  });

  it("takes the mean of its months over whole lives for the mean of the life, but for the steps of months", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 6 }),
        fc.double({ min: 0, max: 0.1, noNaN: true }),
        (life, lost) => {
          const collector = dish({ ageing_per_year: lost }, life);
          const months = filmStatesByMonth(collector, life).flatMap((year) => [...year]);
          const mean = months.reduce((all, each) => all + each, 0) / months.length;
          expectClose(mean, meanFilmState(collector), 1e-12);
        },
      ),
    );
  });
});

describe("film changes", () => {
  it("fall at the end of each life, the last before the period's end", () => {
    expect(filmChanges_years(dish({}, 2), 6)).toEqual([2, 4]);
    expect(filmChanges_years(dish({}, 2.5), 6)).toEqual([2.5, 5]);
    expect(filmChanges_years(dish({}, 7), 6)).toEqual([]);
  });

  it("fall into their month of the year in which the life ends", () => {
    const inMay = (life: number) => filmChanges_years(dish({ filmAgeing: { changeMonth: 5 } }, life), 6);
    expect(inMay(2)).toEqual([1 + 4 / 12, 3 + 4 / 12]);
    expect(inMay(2.5)).toEqual([2 + 4 / 12, 4 + 4 / 12]);
  });

  it("are made in the years in which the cash flow pays for them", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 80 }).map((tenths) => tenths / 10),
        fc.integer({ min: 5, max: 25 }),
        fc.integer({ min: 1, max: 12 }),
        (life, years, changeMonth) => {
          const paid = [...renewal(life, years, 0.05).replacements].flatMap((amount, year) =>
            amount > 0 ? [year] : [],
          );
          const made = filmChanges_years(dish({ filmAgeing: { changeMonth } }, life), years).map(Math.floor);
          expect(made).toEqual(paid);
        },
      ),
    );
  });

  it("make the film new: states fall from month to month but at a change", () => {
    const years = filmStatesByMonth(dish({ ageing_per_year: 0.06, filmAgeing: { changeMonth: 7 } }, 1), 3);
    const flat = years.flatMap((year) => [...year]);
    expectClose(flat[0]!, 1 - (0.06 * 0.5) / 12, 1e-12);
    expectClose(flat[5]!, 1 - (0.06 * 5.5) / 12, 1e-12);
    expectClose(flat[6]!, 1 - (0.06 * 0.5) / 12, 1e-12);
    expectClose(flat[17]!, 1 - (0.06 * 11.5) / 12, 1e-12);
    expectClose(flat[18]!, 1 - (0.06 * 0.5) / 12, 1e-12);
  });
});

describe("a year with the film at its age", () => {
  const climate = { latitude_deg: desert.latitude_deg, sun: desertSun, weather: madeWeather() };
  const level = [{ collectorIn_C: 190, collectorOut_C: 210 }];

  it("is that of one state where all months have it", () => {
    const one = collectorYear(dish(), climate, level, { filmState: 0.93 });
    const months = collectorYear(dish(), climate, level, { filmState: new Float64Array(12).fill(0.93) });
    expect(months).toEqual(one);
  });

  it("absorbs in each month what its state leaves", () => {
    const state = Float64Array.from({ length: 12 }, (_, month) => 1 - month / 24);
    const fresh = collectorYear(dish(), climate, level, { filmState: 1 }).absorbed_W_m2;
    const aged = collectorYear(dish(), climate, level, { filmState: state }).absorbed_W_m2;
    const noon = (month: number) =>
      new Date(Date.UTC(2025, month, 15) - Date.UTC(2025, 0, 1)).getTime() / 3_600_000 + 12;
    for (let month = 0; month < 12; month += 1) {
      expectClose(aged[noon(month)]! / fresh[noon(month)]!, state[month]!, 1e-12);
    }
  });
});

describe("faults of a film's ageing", () => {
  const codes = (collector: Collector) =>
    collectorFaults(collector, "c").map(({ code, place }) => `${code} ${place.path}`);

  it("are none of a sound one", () => {
    expect(codes(dish({ filmAgeing: { transmittanceLost_per_year: 0.02, changeMonth: 4 } }))).toEqual([]);
  });

  it("name what is missing or cannot be, all at once", () => {
    const { filmPart: _, ...unnamed } = dish({
      optics: { by: "measured", opticalEfficiency: 0.7 },
      filmAgeing: { transmittanceLost_per_year: 0.02, reflectanceLost_per_year: 0.02 },
    });
    expect(codes(unnamed)).toEqual([
      "COLLECTOR_FILM_AGEING c/filmPart",
      "COLLECTOR_FILM_AGEING c/filmAgeing/transmittanceLost_per_year",
      "COLLECTOR_FILM_AGEING c/filmAgeing/reflectanceLost_per_year",
    ]);
    expect(codes(dish({ filmAgeing: { changeMonth: 3 } }, 0.5))).toEqual([
      "COLLECTOR_FILM_AGEING c/filmAgeing/changeMonth",
    ]);
    expect(codes(dish({ filmAgeing: { reflectanceLost_per_year: 0.5 } }, 2))).toEqual([
      "COLLECTOR_AGEING_LOST c/filmAgeing/reflectanceLost_per_year",
    ]);
  });
});
