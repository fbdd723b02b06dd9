import { describe, expect, it } from "vitest";
import type { Result } from "../../src/core/study/result.ts";
import {
  builtYears,
  collectorYears,
  collectorYearsTable,
  standstillSentences,
} from "../../src/present/collector-losses.ts";
import { frostLines } from "../../src/present/frost-lines.ts";
import { expectClose } from "../support/close.ts";
import { sampleLosses } from "../support/sample-charts.ts";
import { smallStudy } from "../support/small-study.ts";

const study = smallStudy();
const collector = study.collectors[0]!;
const network = study.networks[0]!;

function resultWith(aperture_m2: number, possible = true): Result {
  const { chain } = sampleLosses()[0]!;
  const figures = {
    id: collector.id,
    network: network.id,
    ...chain,
    parasitic_kWh_per_m2: 9.5,
    stowedHours: 40,
    runningHours: 2900,
    stagnation_C: 412.4,
  };
  const match = { collector: collector.id, network: network.id, meanFluid_C: 88, possible };
  const size = { id: collector.id, network: network.id, aperture_m2, existing_m2: 0 };
  return {
    collectors: [figures],
    match: [match],
    sizes: { collectors: [size] },
    networks: [{ id: network.id, spill_kWh: 100 * chain.useful_kWh_per_m2 }],
  } as unknown as Result;
}

describe("the year of each collector for reading", () => {
  it("bears the study's names and the network's temperature", () => {
    const [year] = collectorYears(study, resultWith(500));
    expect(year).toMatchObject({ collector: collector.name, network: network.name, meanFluid_C: 88 });
  });
  it("leaves out a heat network that the collector is not hot enough for, and answers without losses", () => {
    expect(collectorYears(study, resultWith(500, false))).toEqual([]);
    const { collectors: _, ...older } = resultWith(500) as Result & { collectors: unknown };
    expect(collectorYears(study, older as Result)).toEqual([]);
    expect(collectorYearsTable(study, older as Result)).toBeNull();
  });
  it("shares the spill of the result's own networks among the built", () => {
    const result = resultWith(500);
    const [year] = builtYears(study, result);
    const { useful_kWh_per_m2, spilled_kWh_per_m2, used_kWh_per_m2 } = year!.figures;
    // The network spills what a fifth of the field gives.
    expectClose(spilled_kWh_per_m2, useful_kWh_per_m2 / 5, 1e-12);
    expectClose(used_kWh_per_m2! + spilled_kWh_per_m2, useful_kWh_per_m2, 1e-12);
    expect(builtYears(study, resultWith(0))).toEqual([]);
  });
  it("tells washing water where there is any, by the m² and in all", () => {
    const titles = (result: Result) => collectorYearsTable(study, result)!.columns.map(({ title }) => title);
    const dry = resultWith(500);
    expect(titles(dry)).not.toContain("Washing water");
    const collectors = dry.collectors!.map((figures) => ({ ...figures, washingWater_L_per_m2: 26.5 }));
    const washed = { ...dry, collectors } as Result;
    const cell = collectorYearsTable(study, washed)!.rows[0]![titles(washed).indexOf("Washing water")];
    expect(cell).toMatch(/^26\.5 L\/m², 13\.\d.*m³$/);
  });
  it("gives the electricity against frost a column and a sentence of its own, and drainings theirs", () => {
    const titles = (result: Result) => collectorYearsTable(study, result)!.columns.map(({ title }) => title);
    const plain = resultWith(500);
    expect(titles(plain)).not.toContain("of it against frost");
    expect(frostLines(study, collectorYears(study, plain))).toEqual([]);
    const guarded = (by: "electric" | "drain", heating_kWh_per_m2: number): [typeof study, Result] => [
      {
        ...study,
        collectors: [{ ...collector, frost: { by, keepAbove_C: 5, refill_h: 1 } }],
      } as typeof study,
      {
        ...plain,
        collectors: plain.collectors!.map((figures) => ({
          ...figures,
          frost: { heating_kWh_per_m2, heatedHours: 1234, drainings: 1 },
          losses: { ...figures.losses, frost: 2 },
        })),
      } as Result,
    ];
    const [heatedStudy, heated] = guarded("electric", 12.3);
    const cell = collectorYearsTable(heatedStudy, heated)!.rows[0]![
      titles(heated).indexOf("of it against frost")
    ];
    expect(cell).toBe("12.3");
    const [line] = frostLines(heatedStudy, collectorYears(heatedStudy, heated));
    expect(line).toMatch(
      /takes 12\.3 kWh\/m² of electricity a year, 6,150.kWh for its field, in 1,?234 hours/,
    );
    const [drainedStudy, drained] = guarded("drain", 0);
    expect(titles(drained)).not.toContain("of it against frost");
    expect(frostLines(drainedStudy, collectorYears(drainedStudy, drained))[0]).toMatch(
      /is drained 1 time a year; filling it again loses 2\.00 kWh\/m² of heat, 1,000.kWh for its field/,
    );
  });
  it("says of a collector that is not built not what it used", () => {
    const cells = collectorYearsTable(study, resultWith(0))!.rows[0]!;
    expect(cells.filter((cell) => cell === "not built")).toHaveLength(1);
  });
  it("tells how hot it stands still, once a collector and with a caution", () => {
    const result = resultWith(500);
    const twice = [...collectorYears(study, result), ...collectorYears(study, result)];
    const [sentence, ...others] = standstillSentences(study, twice);
    expect(others).toEqual([]);
    expect(sentence).toMatch(/^Caution:.*412 °C\./);
    expect(sentence!.match(/412/g)).toHaveLength(1);
    expect(standstillSentences(study, [])).toEqual([]);
    const [year] = collectorYears(study, result);
    const beyond = { ...year!, figures: { ...year!.figures, stagnation_C: null } };
    expect(standstillSentences(study, [beyond])[0]).toContain(
      `${collector.name} hotter than its loss relation can tell`,
    );
  });
});
