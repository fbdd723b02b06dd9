import { beforeAll, describe, expect, it } from "vitest";
import type { Study } from "../../src/core/study/schema/study.ts";
import { sizePlant } from "../../src/core/study/size-plant.ts";
import type { Solvers } from "../../src/core/study/sizing/solvers.ts";
import { loadMatchTable } from "../../src/present/load-match-table.ts";
import { loadSolvers } from "../../src/solver/solvers.ts";
import { plantOf } from "../support/small-plant.ts";
import { smallStudy } from "../support/small-study.ts";

let solvers: Solvers;
beforeAll(async () => {
  solvers = await loadSolvers();
});

/** A hot network that steps down to a warm one, with a still, a dryer, a batch and cold on them. */
function works(): Study {
  const study = smallStudy();
  const [warm] = study.networks;
  const hot = {
    ...warm!,
    id: "hot",
    name: "Hot",
    carrier: "thermal-oil" as const,
    supply_C: 180,
    return_C: 140,
  };
  const [trough] = study.collectors;
  return {
    ...study,
    networks: [warm!, hot],
    collectors: [
      { ...trough!, networks: ["hot-water"] },
      { ...trough!, id: "oil-trough", name: "Oil trough", networks: ["hot"] },
    ],
    stepDowns: [
      {
        id: "down",
        from: "hot",
        to: "hot-water",
        approach_K: 5,
        efficiency: 1,
        existing_kW: 0,
        size: { choice: "free" },
        parts: [],
      },
    ],
    loads: [
      ...study.loads,
      {
        kind: "desalination",
        id: "still",
        name: "Still",
        network: "hot-water",
        order_m3_per_day: 20,
        capacity_m3_h: 2,
        heatUse: { by: "specific-heat", heat_kWh_per_m3: 65 },
        topBrine_C: 68,
        electricity_kWh_per_m3: 2,
        tank_m3: 10,
      },
      {
        kind: "cooling",
        id: "cold",
        name: "Cold rooms",
        cold_kW: { from: "constant", level: 30 },
        coldSupply_C: 7,
        electricChiller: { cop: 3.5 },
      },
    ],
    chillers: [
      {
        id: "chiller",
        name: "Chiller",
        load: "cold",
        network: "hot",
        effect: "single",
        cop: 0.7,
        drivingLeast_C: 85,
        electricity_kWh_per_kWh: 0.03,
        existing_kW: 0,
        size: { choice: "free" },
        parts: [],
      },
    ],
    backups: [...study.backups, { ...study.backups[0]!, id: "heater", network: "hot" }],
  };
}

describe("loadMatchTable(study, result)", () => {
  it("tells what each load needs and who can serve it, directly, by step-down and by chiller", () => {
    const study = works();
    const { result } = sizePlant(plantOf(study), {
      method: "typical-days",
      solvers,
      version: "0",
      remarks: [],
      replays: "none",
    });
    const { rows, columns } = loadMatchTable(study, result);
    expect(columns.map(({ title }) => title)).toEqual([
      "Load",
      "Energy a year",
      "Needs heat at",
      "Heat network",
      "Collectors that reach it",
    ]);
    const of = (name: string) => rows.find(([load]) => load === name)!.slice(2);
    const both = `${study.collectors[0]!.name}, Oil trough (by a hotter network)`;
    expect(of("Still")).toEqual(["73 °C", "Hot water, 90 °C", both]);
    expect(of("Cold rooms")).toEqual(["85 °C in Chiller", "Hot, 180 °C", "Oil trough"]);
  });
});
