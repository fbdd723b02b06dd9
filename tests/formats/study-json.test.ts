import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { tell } from "../../src/core/problem.ts";
import type { Study } from "../../src/core/study/schema/study.ts";
import { readSoundStudy, readStudyJson } from "../../src/formats/study-json.ts";
import { smallStudy } from "../support/small-study.ts";

// biome-ignore lint/suspicious/noExplicitAny: a study that a test breaks has no type
type Loose = Record<string, any>;

/** The sentences for a small study after a change. */
function told(change: (study: Loose) => void): string[] {
  const study = smallStudy() as Loose;
  change(study);
  const outcome = readStudyJson(JSON.stringify(study), "study.json");
  return outcome.ok ? [] : outcome.problems.map(tell);
}

describe("a study file", () => {
  it("reads back what was written", () => {
    const outcome = readSoundStudy(`\ufeff${JSON.stringify(smallStudy(), null, 2)}`, "study.json");
    expect(outcome).toEqual({ ok: true, value: smallStudy(), findings: [] });
  });

  it.each<[string, (study: Loose) => void, string]>([
    [
      "a number out of range",
      (s) => {
        s.networks[0].supply_C = 700;
      },
      "study.json, networks/0/supply_C: Supply is 700 °C; a number from 20 to 600 °C is allowed.",
    ],
    [
      "a number at an open end",
      (s) => {
        s.collectors[0].groundCover = 0;
      },
      "study.json, collectors/0/groundCover: Aperture per m² of land is 0 m²/m²; a number above 0 and up to 1 m²/m² is allowed.",
    ],
    [
      "a missing property",
      (s) => {
        delete s.networks[0].return_C;
      },
      'study.json, networks/0/return_C: "return_C" (Return) is missing; a number from 0 to 600 °C is needed.',
    ],
    [
      "a misspelt property",
      (s) => {
        s.weather.formt = "csv";
      },
      'study.json, weather/formt: "formt" is not a property of Weather; "format" is the nearest that is known.',
    ],
    [
      "a property without its unit",
      (s) => {
        s.limits.land = 5;
      },
      'study.json, limits/land: "land" is not a property of Limits; "land_m2" is the nearest that is known.',
    ],
    [
      "a property far from any",
      (s) => {
        s.weather.xyz = 1;
      },
      'study.json, weather/xyz: "xyz" is not a property of Weather; known are file, format, year, distanceAccepted_km, diffuseBy.',
    ],
    [
      "text for a number",
      (s) => {
        s.site.latitude_deg = "33";
      },
      'study.json, site/latitude_deg: Latitude is the text "33"; a number from -90 to 90 ° north positive is allowed.',
    ],
    [
      "a fraction for a whole number",
      (s) => {
        s.money.years = 2.5;
      },
      "study.json, money/years: Period of analysis is 2.5; a whole number from 1 to 60 years is allowed.",
    ],
    [
      "an unknown choice",
      (s) => {
        s.networks[0].carrier = "brine";
      },
      'study.json, networks/0/carrier: Carrier is the text "brine"; "water", "thermal-oil", "steam", "molten-salt" or "hot-air" is allowed.',
    ],
    [
      "an unknown variant",
      (s) => {
        s.loads[0].kind = "bath";
      },
      'study.json, loads/0/kind: "kind" of Load is the text "bath"; "process-heat", "steam", "hot-water", "thermal-oil", "desalination", "drying", "batch-drying" or "cooling" is allowed.',
    ],
    [
      "a missing tag",
      (s) => {
        delete s.collectors[0].optics.by;
      },
      'study.json, collectors/0/optics/by: "by" of Optical efficiency is missing; "measured", "computed" or "shape" is allowed.',
    ],
    [
      "an empty list",
      (s) => {
        s.loads = [];
      },
      "study.json, loads: Loads has 0 entries; a list of 1 to 30 is allowed.",
    ],
    [
      "a long text",
      (s) => {
        s.title = "x".repeat(161);
      },
      "study.json, title: Title has 161 characters; text of up to 160 characters is allowed.",
    ],
    [
      "an id with a space",
      (s) => {
        s.stores[0].id = "A b";
      },
      'study.json, stores/0/id: Id is the text "A b"; allowed is lower-case letters, digits and hyphens, starting with a letter; unique in the study.',
    ],
    [
      "null for an object",
      (s) => {
        s.stores[0] = null;
      },
      "study.json, stores/0: Store is null; an object is allowed.",
    ],
    [
      "a later version",
      (s) => {
        s.formatVersion = 3;
      },
      "study.json, formatVersion: The study has format version 3, from a later version of the program; up to 2 can be read.",
    ],
    [
      "a version that never was",
      (s) => {
        s.formatVersion = 0;
      },
      "study.json, formatVersion: There is no format version 0; 1 to 2 can be read.",
    ],
    [
      "a missing version",
      (s) => {
        delete s.formatVersion;
      },
      'study.json, formatVersion: "formatVersion" is missing; 2 is needed.',
    ],
  ])("tells of %s", (_, change, sentence) => {
    expect(told(change)).toEqual([sentence]);
  });

  it("tells all faults at once", () => {
    const sentences = told((s) => {
      s.networks[0].supply_C = 700;
      s.site.latitude_deg = 91;
      delete s.money.currency;
      s.extra = true;
    });
    expect(sentences).toHaveLength(4);
  });

  it("refuses both ways of giving the optical efficiency together", () => {
    expect(
      told((s) => {
        s.collectors[0].optics.reflectance = 0.9;
      }),
    ).toHaveLength(1);
  });

  it("refuses a number too large to be held", () => {
    const text = JSON.stringify(smallStudy()).replace('"level":500', '"level":1e999');
    const outcome = readStudyJson(text, "study.json");
    expect(outcome.ok ? [] : outcome.problems.map(tell)).toEqual([
      "study.json, loads/0/heat_kW/level: Level is a number too large to be held; a number of 0 or more is allowed.",
    ]);
  });

  it("tells of faults across the parts where a sound study is asked for", () => {
    const study = smallStudy() as Loose;
    study.backups[0].network = "nowhere";
    const outcome = readSoundStudy(JSON.stringify(study), "study.json");
    expect(outcome.ok ? [] : outcome.problems.map(({ code }) => code)).toEqual(["STUDY_REFERENCE"]);
  });

  it("tells where text is not JSON", () => {
    const outcome = readStudyJson('{\n  "title": "x",\n  "site": ,\n}', "study.json");
    expect(outcome.ok ? [] : outcome.problems).toEqual([
      {
        code: "STUDY_JSON_SYNTAX",
        message: "The text is not JSON at line 3, column 11; a value is expected there.",
        place: { file: "study.json", row: 3 },
      },
    ]);
  });

  it("never throws on any text", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        const outcome = readStudyJson(text, "study.json");
        expect(outcome.ok).toBe(false);
        if (!outcome.ok) expect(outcome.problems.length).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
  });

  it("never throws on a study with random changes, and gives sentences with a path", () => {
    const places = pathsOf(smallStudy());
    const change = fc.tuple(
      fc.constantFrom(...places),
      fc.oneof(fc.constant(undefined), fc.jsonValue({ maxDepth: 2 })),
    );
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        const study = smallStudy() as Loose;
        for (const [path, value] of changes) setAt(study, path, value);
        const outcome = readSoundStudy(JSON.stringify(study), "study.json");
        if (outcome.ok) return;
        expect(outcome.problems.length).toBeGreaterThan(0);
        for (const problem of outcome.problems) {
          expect(problem.place.path).toBeTruthy();
          expect(problem.message).toMatch(/^\S.{15,}\.$/s);
          expect(problem.message).not.toMatch(/undefined|NaN|\[object/);
        }
      }),
      { numRuns: 1500 },
    );
  });
});

function pathsOf(value: unknown, path: readonly string[] = []): string[][] {
  if (typeof value !== "object" || value === null) return [[...path]];
  const own = path.length === 0 ? [] : [[...path]];
  return [
    ...own,
    ...Object.entries(value as Study).flatMap(([key, child]) => pathsOf(child, [...path, key])),
  ];
}

/** Sets or deletes; a path that an earlier change took away is left alone. */
function setAt(study: Loose, path: readonly string[], value: unknown): void {
  let node: Loose = study;
  for (const key of path.slice(0, -1)) {
    node = node?.[key];
    if (typeof node !== "object" || node === null) return;
  }
  const last = path.at(-1)!;
  if (value === undefined) delete node[last];
  else node[last] = value;
}
