import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gunzipSync, gzipSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exampleBundle } from "../../src/app/example.ts";
import { resolveStudy } from "../../src/app/resolve-study.ts";
import type { ResolvedStudy, StudyBundle } from "../../src/app/types.ts";
import type { Outcome } from "../../src/core/problem.ts";
import { hoursPerYear } from "../../src/core/series.ts";
import { writeHourlyCsv } from "../../src/formats/demand/write-hourly-csv.ts";
import {
  embeddedStudyId,
  embeddedStudyType,
  embedStudy,
  extractStudy,
} from "../../src/formats/summary-study.ts";
import { exampleDefinition } from "../../src/store/example-files.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { smallStudy } from "../support/small-study.ts";

const shared = process.env.NOONKEEP_SHARED ?? fileURLToPath(new URL("../../../shared", import.meta.url));
/** A file of the shared real data, or null where the data is not there. */
function sharedFile(name: string): string | null {
  const path = join(shared, "data", name);
  return existsSync(path) ? path : null;
}

const pageOf = (base64: string) =>
  `<!doctype html><title>t</title><script type="${embeddedStudyType}" id="${embeddedStudyId}">${base64}</script>`;
const packed = (value: unknown) => gzipSync(JSON.stringify(value)).toString("base64");
const codesOf = (outcome: Outcome<unknown>) => (outcome.ok ? [] : outcome.problems.map(({ code }) => code));

function soundValue<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join("\n"));
  return outcome.value;
}

/** Resolves, embeds, extracts and resolves again. */
function roundTrip(bundle: StudyBundle): { before: ResolvedStudy; after: ResolvedStudy } {
  const before = soundValue(resolveStudy(bundle));
  const after = soundValue(resolveStudy(soundValue(extractStudy(pageOf(embedStudy(bundle, before))))));
  return { before, after };
}

const sameBits = (a: Float64Array, b: Float64Array) =>
  a.length === b.length && a.every((v, i) => Object.is(v + 0, b[i]! + 0));

/** Every bit of every hourly series, −0 taken as 0. */
function expectSameHours({ before, after }: { before: ResolvedStudy; after: ResolvedStudy }) {
  const { description, station: _, madeFrom, beamEstimatedBy, ...series } = before.weather;
  expect(after.weather.beamEstimatedBy).toBe(beamEstimatedBy);
  expect(after.weather.madeFrom).toBe(madeFrom);
  expect(after.weather.description).toBe(description.replace(/\s+/g, " ").trim());
  for (const [name, values] of Object.entries(series)) {
    expect([name, sameBits(values, after.weather[name as keyof typeof series])]).toEqual([name, true]);
  }
  expect(after.loads).toEqual(before.loads);
  expect(after.electricityPrice_per_kWh).toEqual(before.electricityPrice_per_kWh);
  expect(after.fuelPrices_per_kWh).toEqual(before.fuelPrices_per_kWh);
}

const example = exampleBundle(exampleDefinition());

describe("a study inside an HTML file", () => {
  const resolved = soundValue(resolveStudy(example));
  const embedded = embedStudy(example, resolved);

  it("gives the worked example the same hours again, bit for bit", () => {
    expectSameHours({
      before: resolved,
      after: soundValue(resolveStudy(soundValue(extractStudy(pageOf(embedded))))),
    });
  });

  it("brings the hourly prices of fuel and electricity along", () => {
    const { study, files } = smallBundle();
    const hourly = Float64Array.from({ length: hoursPerYear }, (_, t) => 0.05 + 0.001 * (t % 24));
    study.backups[0]!.fuel.priceFile = "gas.csv";
    study.electricity.priceFile = "power.csv";
    const bytes = (series: Float64Array) => new TextEncoder().encode(writeHourlyCsv(series));
    const { before, after } = roundTrip({
      study,
      files: new Map([
        ...files,
        ["gas.csv", bytes(hourly)],
        ["power.csv", bytes(hourly.map((price) => 2 * price))],
      ]),
    });
    expect(before.fuelPrices_per_kWh[0]).toEqual(hourly);
    expectSameHours({ before, after });
  });

  it("is the same bytes for the same study", () => {
    expect(embedStudy(example, resolved)).toBe(embedded);
  });

  it("keeps everything else of the study as it was", () => {
    const { study } = soundValue(extractStudy(pageOf(embedded)));
    const { weather, loads, ...rest } = study;
    const { weather: _, loads: given, ...asGiven } = example.study;
    expect(rest).toEqual(asGiven);
    expect(weather).toEqual({ file: "weather-year.csv", format: "csv" });
    expect(loads.slice(1)).toEqual(given.slice(1));
  });

  it("may be embedded again with the same result", () => {
    const again = soundValue(extractStudy(pageOf(embedded)));
    const second = embedStudy(again, resolved);
    expect(
      gunzipSync(Buffer.from(second, "base64")).equals(gunzipSync(Buffer.from(embedded, "base64"))),
    ).toBe(true);
  });

  const phoenix = sharedFile("weather/USA_AZ_Phoenix_722780_TMY3.csv");
  const epw = sharedFile("weather/USA_AZ_Phoenix_722780_TMY3.epw");
  const gas = sharedFile("demand/Cambridge_b2_gas_2013.csv");

  // The file's own clock is UTC−7; the site's is an hour behind, so its rows must move once and not twice.
  it.skipIf(phoenix === null)("keeps a TMY3 year on a site of another clock", () => {
    const study = smallStudy();
    const bundle: StudyBundle = {
      study: {
        ...study,
        site: { ...study.site, utcOffset_h: -8, timeZone: "Etc/GMT+8" },
        weather: { file: "w" },
      },
      files: new Map([["w", readFileSync(phoenix!)]]),
    };
    expectSameHours(roundTrip(bundle));
  });

  it.skipIf(epw === null)("keeps an EPW year", () => {
    const bundle: StudyBundle = {
      study: { ...smallStudy(), weather: { file: "w.epw" } },
      files: new Map([["w.epw", readFileSync(epw!)]]),
    };
    expectSameHours(roundTrip(bundle));
  });

  it.skipIf(phoenix === null || gas === null)("keeps a real gas meter's half hours and their unit", () => {
    const study = smallStudy();
    const load = {
      ...study.loads[0]!,
      heat_kW: { from: "file", file: "gas.csv" },
    } as (typeof study.loads)[0];
    const bundle: StudyBundle = {
      study: { ...study, weather: { file: "w.csv" }, loads: [load] },
      files: new Map([
        ["w.csv", readFileSync(phoenix!)],
        ["gas.csv", readFileSync(gas!)],
      ]),
    };
    expectSameHours(roundTrip(bundle));
  });
});

describe("a file with no sound study inside", () => {
  it("is told from one with a study", () => {
    expect(codesOf(extractStudy("<!doctype html><p>hello"))).toEqual(["SUMMARY_STUDY_MISSING"]);
  });

  it("is called damaged where the block was changed, cut or doubled", () => {
    const good = packed({ formatVersion: 1, study: {}, files: {} });
    for (const bad of [
      "",
      "%%%%",
      good.slice(0, -8),
      good.slice(4),
      packed([1]),
      packed({ formatVersion: 1 }),
    ]) {
      expect(codesOf(extractStudy(pageOf(bad)))).toEqual(["SUMMARY_STUDY_DAMAGED"]);
    }
    expect(codesOf(extractStudy(pageOf(good) + pageOf(good)))).toEqual(["SUMMARY_STUDY_DAMAGED"]);
  });

  it("tells a wrapping of a later version, and the faults of the study itself", () => {
    expect(codesOf(extractStudy(pageOf(packed({ formatVersion: 2 }))))).toEqual(["SUMMARY_STUDY_VERSION"]);
    const faulty = extractStudy(pageOf(packed({ formatVersion: 1, study: { formatVersion: 1 }, files: {} })));
    expect(codesOf(faulty).length).toBeGreaterThan(5);
  });

  it("is not unpacked beyond 64 MiB", () => {
    const bomb = gzipSync(Buffer.alloc(65 * 2 ** 20)).toString("base64");
    expect(codesOf(extractStudy(pageOf(bomb)))).toEqual(["SUMMARY_STUDY_TOO_LARGE"]);
  });

  it("never throws, whatever the block holds", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.base64String(),
          fc.json().map((json) => packed(json)),
        ),
        (text) => {
          expect(extractStudy(pageOf(text)).ok).toBe(false);
        },
      ),
    );
  });
});
