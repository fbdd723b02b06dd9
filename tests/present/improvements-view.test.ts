import { describe, expect, it } from "vitest";
import type { Result } from "../../src/core/study/result.ts";
import { improvementsView } from "../../src/present/improvements-view.ts";
import { smallStudy } from "../support/small-study.ts";

const step = {
  id: "reflectance",
  name: "Mirror reflectance",
  from: 0.88,
  to: 0.88 + 0.01,
  unit: "1",
  wholeHours: false,
  useful_kWh_per_m2: 12.345,
  worth_per_m2_year: 0.154,
  mayCost_per_m2: 0.278,
  everyYears: 2,
};
const storm = {
  ...step,
  id: "stowWind_m_s",
  name: "Wind that it stands (hourly mean)",
  from: 12,
  to: 13,
  unit: "m/s",
  wholeHours: true,
  worth_per_m2_year: 1.05,
  mayCost_per_m2: null,
  everyYears: null,
};

const withImprovements = (improvements: unknown) =>
  ({
    collectors: [{ id: "trough", network: "hot-water", improvements }],
    match: [{ collector: "trough", network: "hot-water", possible: true, meanFluid_C: 85 }],
    sizes: { collectors: [] },
  }) as unknown as Result;
const plain = (text: string) => text.replaceAll("\u202f", " ");

describe("what would make a collector better", () => {
  it("is a table of steps, with what each may cost and how often", () => {
    const { tables } = improvementsView(smallStudy(), withImprovements([storm, step]));
    expect(tables).toHaveLength(1);
    expect(tables[0]!.rows.map((row) => row.map(plain))).toEqual([
      ["wind that it stands (hourly mean) from 12 to 13 m/s", "12.3", "1.05", "–", "–"],
      ["mirror reflectance from 0.88 to 0.89", "12.3", "0.15", "0.28", "2 years"],
    ]);
  });

  it("does not put a step first that only brings stormy hours back", () => {
    const { sentences } = improvementsView(smallStudy(), withImprovements([storm, step]));
    expect(sentences).toHaveLength(1);
    expect(plain(sentences[0]!)).toMatch(
      /^Film trough on Hot water: the step worth most is mirror reflectance from 0\.88 to 0\.89, up to 0\.15 \w+ per m² and year\.$/,
    );
  });

  it("says nothing of an answer without prices, or of an earlier version", () => {
    for (const none of [null, undefined, []]) {
      expect(improvementsView(smallStudy(), withImprovements(none))).toEqual({ sentences: [], tables: [] });
    }
  });
});
