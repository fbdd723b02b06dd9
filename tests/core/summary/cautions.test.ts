import { describe, expect, it } from "vitest";
import { collectorRecords } from "../../../src/core/collector/records.ts";
import type { Study } from "../../../src/core/study/schema/study.ts";
import { cautionsFor, deferenceSentence } from "../../../src/core/summary/cautions.ts";
import { smallStudy } from "../../support/small-study.ts";

const ids = (study: Study) => cautionsFor(study).map(({ id }) => id);

const cooling = (coldSupply_C: number): Study => {
  const study = smallStudy();
  study.loads.push({
    kind: "cooling",
    id: "cold-room",
    name: "Cold room",
    cold_kW: { from: "constant", level: 50 },
    coldSupply_C,
    electricChiller: { cop: 3 },
  });
  study.chillers.push({
    id: "absorber",
    name: "Absorber",
    load: "cold-room",
    network: "hot-water",
    effect: "single",
    cop: 0.7,
    drivingLeast_C: 80,
    electricity_kWh_per_kWh: 0.02,
    existing_kW: 0,
    size: { choice: "free" },
    parts: [],
  });
  return study;
};

/** Only what has no hazard of its own: a load without plant. */
const bare = (): Study => ({ ...smallStudy(), collectors: [], stores: [], backups: [] });

describe("cautionsFor(study)", () => {
  it("warns of fire for boilers, of refrigerants for heat pumps and of what waste heat carries", () => {
    const study = smallStudy();
    const [boiler] = study.backups;
    const of = (backup: Study["backups"][number]) =>
      ids({ ...bare(), backups: [backup] }).filter((id) =>
        ["boilers", "heat-pumps", "waste-heat"].includes(id),
      );
    const fuel = { price_per_kWh: 0, heatingValue: "net", escalation_per_year: 0 } as const;
    expect(of(boiler!)).toEqual(["boilers"]);
    expect(of({ ...boiler!, fuel: { kind: "waste-heat", ...fuel } })).toEqual(["waste-heat"]);
    const heatPump = {
      shareOfReversible: 0.5,
      source: { from: "outdoor-air" as const },
      sourceApproach_K: 5,
      sinkApproach_K: 5,
    };
    expect(of({ ...boiler!, fuel: { kind: "electricity", ...fuel }, heatPump })).toEqual(["heat-pumps"]);
  });

  it("warns of concentrated light, glare, film and height where there are film troughs", () => {
    expect(ids(smallStudy())).toEqual(
      expect.arrayContaining([
        "concentrated-light",
        "glare",
        "film-under-pressure",
        "electrical",
        "height",
        "tanks",
      ]),
    );
  });

  it("leaves out what the study does not have", () => {
    expect(ids(bare())).toEqual(["hot-surfaces"]);
    const found = ids(smallStudy());
    for (const absent of [
      "hot-oil",
      "molten-salt",
      "ammonia-chiller",
      "bromide-chiller",
      "product-water",
      "dryers",
    ])
      expect(found).not.toContain(absent);
  });

  it("has no caution of concentrated light or film for a flat plate, but one of glare", () => {
    const plate = collectorRecords.find(({ id }) => id.includes("flat-plate"));
    if (plate === undefined) throw new Error("the library has no flat plate");
    const study = smallStudy();
    study.collectors[0] = { ...study.collectors[0]!, ...plate.body };
    delete study.collectors[0].filmPart;
    expect(ids(study)).not.toContain("concentrated-light");
    expect(ids(study)).not.toContain("film-under-pressure");
    expect(ids(study)).toContain("glare");
  });

  it("warns of concentrated light for every film mirror of the library", () => {
    for (const record of collectorRecords.filter(({ id }) => /film|mirror/.test(id))) {
      const study = smallStudy();
      study.collectors[0] = { ...study.collectors[0]!, ...record.body };
      expect(ids(study), record.id).toContain("concentrated-light");
    }
  });

  it("warns of hot oil by carrier and by store", () => {
    const byCarrier = bare();
    byCarrier.networks[0]!.carrier = "thermal-oil";
    expect(ids(byCarrier)).toContain("hot-oil");
    for (const medium of ["thermal-oil", "oil-rock"] as const) {
      const byStore = smallStudy();
      byStore.stores[0]!.medium = medium;
      expect(ids(byStore)).toContain("hot-oil");
    }
  });

  // Water boils at 100 °C at sea level and at about 90 °C at 3000 m (IAPWS-IF97 with the ISO 2533 atmosphere).
  it("takes water for pressurised above the boiling point of the site", () => {
    const study = bare();
    study.networks[0] = { ...study.networks[0]!, supply_C: 92, exchangerApproach_K: 0 };
    study.site.elevation_m = 0;
    expect(ids(study)).not.toContain("steam-pressure");
    study.site.elevation_m = 3000;
    expect(ids(study)).toContain("steam-pressure");
  });

  it("counts the collector side too when it asks whether water is under pressure", () => {
    const study = bare();
    study.site.elevation_m = 0;
    study.networks[0] = { ...study.networks[0]!, supply_C: 98, exchangerApproach_K: 5 };
    expect(ids(study)).toContain("steam-pressure");
  });

  it("tells ammonia from bromide by the cold supply", () => {
    expect(ids(cooling(7))).toContain("bromide-chiller");
    expect(ids(cooling(7))).not.toContain("ammonia-chiller");
    expect(ids(cooling(-10))).toContain("ammonia-chiller");
    expect(ids(cooling(-10))).not.toContain("bromide-chiller");
  });

  it("warns of legionella in warm water and of cooling towers, not in a hot closed loop", () => {
    expect(ids(smallStudy())).not.toContain("legionella");
    const warm = smallStudy();
    warm.networks[0]!.return_C = 40;
    expect(ids(warm)).toContain("legionella");
    expect(ids(cooling(7))).toContain("legionella");
  });

  it("names what brings a caution, once each", () => {
    for (const caution of cautionsFor(cooling(7))) {
      expect(caution.appliesBecause).toMatch(/^The study has .+\.$/);
      expect(caution.sentence).toMatch(/\.$/);
      expect(caution.whoMustCheck).toMatch(/\.$/);
    }
    const all = ids(cooling(7));
    expect(new Set(all).size).toBe(all.length);
    expect(
      cautionsFor(smallStudy()).find(({ id }) => id === "film-under-pressure")?.appliesBecause,
    ).toContain("Film trough");
  });

  it("does not change the study", () => {
    const study = cooling(7);
    const before = structuredClone(study);
    cautionsFor(study);
    expect(study).toEqual(before);
  });
});

describe("deferenceSentence", () => {
  it("names those who must check", () => {
    for (const who of [
      "local codes",
      "licensed engineers",
      "pressure-equipment",
      "fire authority",
      "aviation",
    ])
      expect(deferenceSentence).toContain(who);
  });
});
