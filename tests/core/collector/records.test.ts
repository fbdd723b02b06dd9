import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import { collectorFaults, collectorProblems } from "../../../src/core/collector/collector-faults.ts";
import { canServe, collectorLevel } from "../../../src/core/collector/network-levels.ts";
import { opticalEfficiency } from "../../../src/core/collector/optical-efficiency.ts";
import {
  collectorFromRecord,
  collectorRecords,
  originOf,
  valuePaths,
} from "../../../src/core/collector/records.ts";
import { collectorRecordsPage } from "../../../src/core/collector/records-page.ts";
import { Collector } from "../../../src/core/study/schema/collector.ts";
import { ofRecord } from "./support.ts";

const ids = collectorRecords.map(({ id }) => id);

describe("library of collectors", () => {
  it.each(ids)("tells where every value of the %s comes from", (id) => {
    const record = collectorRecords.find((one) => one.id === id)!;
    const paths = valuePaths(record.body);
    expect(paths.length).toBeGreaterThan(15);
    expect(paths.filter((path) => originOf(record, path) === undefined)).toEqual([]);
    const { origins } = collectorFromRecord(id, { id: "mine", networks: ["oil"] });
    expect(origins.map(({ path }) => path)).toEqual(paths.map((path) => `collectors/mine/${path}`));
    for (const { status, source } of origins) {
      expect(source.length).toBeLessThanOrEqual(400);
      if (status !== "published")
        expect(source).toMatch(/^(assumption to replace: |common practice, no source: )/);
    }
  });

  it.each(ids)("has no origin in the %s that stands for nothing", (id) => {
    const { body, origins } = collectorRecords.find((one) => one.id === id)!;
    const paths = valuePaths(body);
    const idle = Object.keys(origins).filter(
      (key) => !paths.some((path) => path === key || path.startsWith(`${key}/`)),
    );
    expect(idle).toEqual([]);
  });

  it.each(ids)("makes a collector of the %s that a study accepts", (id) => {
    const { collector } = collectorFromRecord(id, { id: "mine", networks: ["oil"] });
    const validate = new Ajv2020({ strict: false, discriminator: true }).compile(Collector);
    validate(collector);
    expect(validate.errors ?? []).toEqual([]);
    expect(collectorFaults(collector, "collectors/0")).toEqual([]);
  });

  it("hands out copies", () => {
    const { collector } = collectorFromRecord("flat-plate", { id: "a", networks: ["n"] });
    collector.parts[0]!.price_per_unit = 1;
    expect(
      collectorFromRecord("flat-plate", { id: "a", networks: ["n"] }).collector.parts[0]!.price_per_unit,
    ).not.toBe(1);
    expect(() => collectorFromRecord("none", { id: "a", networks: [] })).toThrow(/UNKNOWN_ID/);
  });

  // Ranges from test reports, from memory (checks.md 3.5–3.7).
  it("keeps tested collectors within the usual ranges", () => {
    const eta = (id: string) => opticalEfficiency(ofRecord(id).optics);
    expect(eta("flat-plate")).toBeGreaterThanOrEqual(0.7);
    expect(eta("flat-plate")).toBeLessThanOrEqual(0.82);
    expect(eta("evacuated-tube")).toBeGreaterThanOrEqual(0.55);
    expect(eta("evacuated-tube")).toBeLessThanOrEqual(0.78);
    expect(eta("glass-mirror-trough")).toBeGreaterThanOrEqual(0.65);
    expect(eta("glass-mirror-trough")).toBeLessThanOrEqual(0.76);
  });

  it("makes its page with every record and value", () => {
    const page = collectorRecordsPage();
    for (const { id, body } of collectorRecords) {
      expect(page).toContain(`Record \`${id}\``);
      for (const path of valuePaths(body)) expect(page).toContain(`| \`${path}\` |`);
    }
    expect(page).not.toMatch(/undefined|NaN|\[object/);
  });
});

describe("faults of a collector", () => {
  it("names a film part that is not there, an uneven table and angles that fall", () => {
    const collector = ofRecord("evacuated-tube", {
      filmPart: "Skin",
      modifier: { type: "table", angles_deg: [0, 50, 40], longitudinal: [1, 0.9], transversal: [1, 1, 1] },
    });
    const faults = collectorFaults(collector, "collectors/2");
    expect(faults.map(({ code }) => code)).toEqual([
      "COLLECTOR_FILM_PART",
      "COLLECTOR_MODIFIER_LENGTH",
      "COLLECTOR_MODIFIER_ORDER",
    ]);
    expect(faults[2]!.place.path).toBe("collectors/2/modifier/angles_deg/2");
    for (const { code } of faults) expect(collectorProblems).toHaveProperty(code);
  });

  it("names ageing that leaves no light", () => {
    const faults = collectorFaults(ofRecord("inflated-film-dish", { ageing_per_year: 0.5 }), "collectors/0");
    expect(faults.map(({ code }) => code)).toEqual(["COLLECTOR_AGEING_LOST"]);
  });
});

describe("collector temperatures on a heat network", () => {
  const water = {
    id: "w",
    name: "Water",
    carrier: "water",
    supply_C: 90,
    return_C: 70,
    exchangerApproach_K: 5,
  } as const;

  it("lie above return and supply by the approach", () => {
    expect(collectorLevel(water)).toEqual({ collectorIn_C: 75, collectorOut_C: 95, meanFluid_C: 85 });
  });

  it("both lie above saturation on a steam network, whatever the condensate", () => {
    const steam = { ...water, carrier: "steam", supply_C: 165, return_C: 60 } as const;
    expect(collectorLevel(steam)).toEqual({ collectorIn_C: 170, collectorOut_C: 170, meanFluid_C: 170 });
  });

  it("are taken as given where given", () => {
    expect(collectorLevel({ ...water, collectorIn_C: 72, collectorOut_C: 110 }).meanFluid_C).toBe(91);
  });

  it("tell a collector that may not run so hot", () => {
    const plate = ofRecord("flat-plate");
    expect(canServe(plate, { collectorOut_C: 100 })).toEqual({ possible: true, remark: "" });
    const verdict = canServe(plate, { collectorOut_C: 101 });
    expect(verdict.possible).toBe(false);
    expect(verdict.remark).toContain("100 °C at most");
  });
});
