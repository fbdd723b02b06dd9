import { describe, expect, it } from "vitest";
import { notIncluded } from "../../../src/core/summary/not-included.ts";
import { smallStudy } from "../../support/small-study.ts";

const all = (study = smallStudy()) => notIncluded(study).join("\n");

describe("notIncluded(study)", () => {
  it("does not say that figures assume foresight, since the plant is run without it too", () => {
    expect(all()).not.toMatch(/replay|Perfect foresight/);
  });

  it("says of which equipment no rules of running are given, and that the sizing keeps to none", () => {
    expect(all()).toContain(
      "Minimum loads, start-up and dead bands: the study gives none of boilers and stores",
    );
    expect(all()).not.toContain("in the sizing");
    const study = smallStudy();
    study.backups[0]!.leastLoadShare = 0.3;
    expect(all(study)).toContain("Minimum loads, start-up and dead bands in the sizing");
    expect(all(study)).toContain("Minimum loads, start-up and dead bands: the study gives none of stores");
    study.stores[0]!.contentDeadBand = 0.05;
    expect(all(study)).not.toContain("the study gives none");
  });

  it("names minimum loads, pipes, permits, demand charges and part load", () => {
    for (const thing of ["Minimum loads", "Pipes", "Permits", "Demand charges", "Part load of boilers"])
      expect(all()).toContain(thing);
  });

  it("counts pipes where every collector has them given, and then says what of them is missing", () => {
    const study = smallStudy();
    const pipes = {
      length_m: 100,
      forAperture_m2: 1000,
      outerDiameter_mm: 60.3,
      wall_mm: 2.9,
      insulation_mm: 60,
      insulation_W_mK: 0.045,
      fluid: "water",
    } as const;
    study.collectors = [
      { ...study.collectors[0]!, pipes },
      { ...study.collectors[0]!, id: "other" },
    ];
    expect(all(study)).toContain("of collectors for which none are given: their heat loss");
    study.collectors[1]!.pipes = pipes;
    expect(all(study)).not.toContain("their heat loss");
    expect(all(study)).toContain("Field pipes: valves, supports");
  });

  it("counts frost where every collector is protected, and then only what its protection leaves", () => {
    expect(all()).toContain("heat or electricity that keeps collectors from freezing, and what happens");
    const study = smallStudy();
    const frost = { by: "electric", keepAbove_C: 5 } as const;
    study.collectors = [
      { ...study.collectors[0]!, frost },
      { ...study.collectors[0]!, id: "other" },
    ];
    expect(all(study)).toContain("of collectors without frost protection the heat");
    study.collectors[1]!.frost = frost;
    expect(all(study)).not.toContain("the heat that they need against frost");
    expect(all(study)).toContain("freezing when it fails");
  });

  it("speaks only of plant that the study has", () => {
    expect(all()).not.toContain("chillers: each chiller");
    expect(all()).not.toContain("desalination; only");
    const none = { ...smallStudy(), collectors: [], stores: [], backups: [] };
    expect(all(none)).not.toContain("Pipes");
    expect(all(none)).not.toContain("Temperatures inside stores");
    expect(all(none)).not.toContain("Part load of boilers");
  });

  it("says that electricity's CO2 is left out only where no factor is given", () => {
    expect(all()).not.toContain("CO2 of electricity");
    const study = smallStudy();
    delete study.electricity.co2_kg_per_kWh;
    expect(all(study)).toContain("CO2 of electricity");
  });

  it("says how dirt is counted, and of washing water that only the upkeep pays for it", () => {
    expect(all()).toContain("cleanliness is one figure for the year");
    expect(all()).not.toContain("Washing");
    const study = smallStudy();
    study.collectors[0]!.soiling = { lossPerDay: 0.004, washEvery_days: 14, water_L_per_m2: 0.7 };
    expect(all(study)).not.toContain("one figure for the year");
    expect(all(study)).toContain("every day brings the same dirt");
    expect(all(study)).toContain("Washing: its water is told");
  });

  it("counts days out for repair where every collector has them given", () => {
    expect(all()).toContain("days out for repair");
    const study = smallStudy();
    study.collectors[0]!.outages = [{ fromMonth: 8, fromDay: 1, days: 14 }];
    expect(all(study)).not.toContain("days out for repair");
  });

  it("counts blowers and drives without heat where every collector has a power for them", () => {
    expect(all()).toContain("blowers and drives in hours without useful heat");
    const study = smallStudy();
    study.collectors[0]!.blower_W_m2 = 0;
    expect(all(study)).not.toContain("blowers");
  });

  it("gives whole sentences, none twice", () => {
    const sentences = notIncluded(smallStudy());
    expect(new Set(sentences).size).toBe(sentences.length);
    for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].+\.$/s);
  });
});
