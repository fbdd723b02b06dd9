import { describe, expect, it } from "vitest";
import { resolveStudy } from "../../src/app/resolve-study.ts";
import { filesOf } from "../../src/app/study-files.ts";
import type { StudyBundle } from "../../src/app/types.ts";
import { hoursPerYear } from "../../src/core/series.ts";
import { writeHourlyCsv } from "../../src/formats/demand/write-hourly-csv.ts";
import { smallBundle } from "../support/small-bundle.ts";

/** The small study with a fuel whose price is in a file. */
function withFile(price: (t: number) => number): StudyBundle {
  const { study, files } = smallBundle();
  study.backups[0]!.fuel.priceFile = "fuel.csv";
  const hourly = Float64Array.from({ length: hoursPerYear }, (_, t) => price(t));
  return {
    study,
    files: new Map([...files, ["fuel.csv", new TextEncoder().encode(writeHourlyCsv(hourly))]]),
  };
}
const codes = (bundle: StudyBundle) => {
  const outcome = resolveStudy(bundle);
  return outcome.ok ? [] : outcome.problems.map(({ code, place }) => `${code} ${place.path ?? ""}`);
};

describe("the price of a fuel", () => {
  it("is one price in every hour where nothing else is said", () => {
    const outcome = resolveStudy(smallBundle());
    if (!outcome.ok) throw new Error("the small study resolves");
    expect(outcome.value.fuelPrices_per_kWh).toEqual([new Float64Array(hoursPerYear).fill(0.07)]);
  });

  it("follows the civil hour by factors", () => {
    const bundle = smallBundle();
    bundle.study.backups[0]!.fuel.hourFactors = Array.from({ length: 24 }, (_, hour) => 1 + hour);
    const outcome = resolveStudy(bundle);
    if (!outcome.ok) throw new Error("the small study resolves");
    // Phoenix keeps standard time all year, so civil hours are hours of the year modulo 24.
    outcome.value.fuelPrices_per_kWh[0]!.forEach((price, t) => {
      expect(price).toBe(0.07 * (1 + (t % 24)));
    });
  });

  it("is read from a file, which is one of the study's files", () => {
    const price = (t: number) => 0.05 + (t % 100) / 1000;
    const bundle = withFile(price);
    expect(filesOf(bundle.study)).toContainEqual({ file: "fuel.csv", path: "backups/0/fuel/priceFile" });
    const outcome = resolveStudy(bundle);
    if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join("\n"));
    outcome.value.fuelPrices_per_kWh[0]!.forEach((found, t) => {
      expect(found).toBeCloseTo(price(t), 12);
    });
  });

  it("may be negative in a file only where the boiler's power is finite", () => {
    const price = (t: number) => (t === 4000 ? -0.01 : 0.05);
    expect(codes(withFile(price))).toEqual(["STUDY_BACKUP_LIMIT backups/0/existing_kW"]);
    const bundle = withFile(price);
    bundle.study.backups[0]!.existing_kW = 600;
    expect(codes(bundle)).toEqual([]);
  });

  it("is missed where the study names a file that is not there", () => {
    const { study, files } = smallBundle();
    study.backups[0]!.fuel.priceFile = "gone.csv";
    expect(codes({ study, files })).toEqual(["STUDY_FILE_MISSING backups/0/fuel/priceFile"]);
  });
});
