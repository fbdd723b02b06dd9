import { describe, expect, it } from "vitest";
import { breakEvenFilmPrice_per_m2, filmLifeCosts } from "../../../src/core/economics/film-life-costs.ts";
import { expectClose } from "../../support/close.ts";

const film = { name: "Film", price_per_unit: 2.5, life_years: 2, upkeep_per_unit_year: 0 };
const frame = { name: "Frame", price_per_unit: 49, life_years: 15, upkeep_per_unit_year: 1 };
const lives = [1, 2, 4, 8];
const input = {
  parts: [frame, film],
  film,
  rate: 0,
  running_per_m2_year: 0,
  life_years: lives,
  useful_kWh_per_m2: lives.map((life) => 1000 * (1 - (0.05 * life) / 2)),
};

describe("cost of heat by the life of the film", () => {
  // By hand without interest: (49/15 + 1 + price/life) / useful.
  it("is the annual cost over the heat at that life", () => {
    const [curve] = filmLifeCosts(input, [2.5]);
    lives.forEach((life, i) => {
      expectClose(curve!.cost_per_kWh[i]!, (49 / 15 + 1 + 2.5 / life) / (1000 * (1 - 0.025 * life)), 1e-12);
    });
    expect(curve!.best.life_years).toBe(4);
  });

  // Common practice, no source: a film of about 2.5 a m² is changed about every 2 years; a dear film is kept longer.
  it("keeps a dear film longer than a cheap one", () => {
    const best = filmLifeCosts(input, [0.2, 2.5, 20]).map((curve) => curve.best.life_years);
    expect(best).toEqual([1, 4, 8]);
  });

  it("breaks even at the price that gives the same cost", () => {
    const today = filmLifeCosts(input, [2.5])[0]!.cost_per_kWh[1]!;
    const price = breakEvenFilmPrice_per_m2(input, today, 2);
    expectClose(filmLifeCosts(input, [price])[0]!.cost_per_kWh[2]!, today, 1e-12);
    expect(price).toBeGreaterThan(2.5);
    const interest = { ...input, rate: 0.08, running_per_m2_year: 0.3 };
    const dearer = filmLifeCosts(interest, [2.5])[0]!.cost_per_kWh[1]!;
    const allowed = breakEvenFilmPrice_per_m2(interest, dearer, 3);
    expectClose(filmLifeCosts(interest, [allowed])[0]!.cost_per_kWh[3]!, dearer, 1e-12);
  });
});
