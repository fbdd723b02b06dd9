import { beforeAll, describe, expect, it } from "vitest";
import {
  desalinationFaults,
  desalinationProblems,
} from "../../../src/core/demand/loads/check-desalination.ts";
import {
  desalinationRemarkCodes,
  desalinationRemarks,
} from "../../../src/core/study/checks/desalination-remarks.ts";
import type { LoadOf, Study } from "../../../src/core/study/schema/study.ts";
import { type Sizing, sizePlant } from "../../../src/core/study/size-plant.ts";
import type { Solvers } from "../../../src/core/study/sizing/solvers.ts";
import { loadSolvers } from "../../../src/solver/solvers.ts";
import { expectClose } from "../../support/close.ts";
import { network } from "../../support/load-inputs.ts";
import { plantOf } from "../../support/small-plant.ts";
import { smallStudy } from "../../support/small-study.ts";

type Water = LoadOf<"desalination">;

const months_C = [16, 16, 17, 19, 22, 25, 28, 29, 27, 24, 21, 18];
const water = (more: Partial<Water> = {}): Water => ({
  kind: "desalination",
  id: "still",
  name: "Still",
  network: "hot-water",
  order_m3_per_day: 100,
  capacity_m3_h: 8,
  heatUse: { by: "specific-heat", heat_kWh_per_m3: 65 },
  electricity_kWh_per_m3: 2,
  tank_m3: 60,
  ...more,
});
const studyOf = (load: Water): Study => ({ ...smallStudy(), loads: [load] });

let solvers: Solvers;
beforeAll(async () => {
  solvers = await loadSolvers();
});
const size = (load: Water): Sizing =>
  sizePlant(plantOf(studyOf(load)), {
    method: "full-year",
    solvers,
    version: "0",
    remarks: [],
    replays: "simple",
  });

describe("desalination by the sea's temperature in the plant", () => {
  it("draws in every hour the heat of the water made in it", () => {
    const { result, plan } = size(
      water({ seawater: { months_C, reference_C: 20, heatChange_per_K: -0.008 } }),
    );
    const { heat_kWh_per_m3 } = plantOf(
      studyOf(water({ seawater: { months_C, reference_C: 20, heatChange_per_K: -0.008 } })),
    ).problem.water[0]!;
    const { made_m3_h } = plan.hours.water[0]!;
    const heat = made_m3_h.reduce((total, made, t) => total + made * heat_kWh_per_m3[t]!, 0);
    expectClose(result.annual.demand_kWh, heat, 1e-6 * heat);
    expect(heat_kWh_per_m3[0]).toBeGreaterThan(heat_kWh_per_m3[5000]!);
  });

  it("is the plain load where the sea has one temperature", () => {
    const plain = size(water());
    const even = size(water({ seawater: { months_C: new Array(12).fill(20), heatChange_per_K: 0.02 } }));
    expectClose(
      even.result.proof.objective,
      plain.result.proof.objective,
      1e-9 * plain.result.proof.objective,
    );
  });

  it("costs less in a sea that is always better for it", () => {
    const cost = (reference_C: number) =>
      size(water({ seawater: { months_C, reference_C, heatChange_per_K: -0.01 } })).result.proof.objective;
    expect(cost(10)).toBeLessThan(cost(20));
  });
});

describe("faults and remarks of desalination", () => {
  const flash = { by: "flash-stages", stages: 20, losses_K: 4, lastStageAboveSea_K: 8 } as const;
  const faults = (load: Water) =>
    desalinationFaults(load, { network: network(90) }, "loads/0").map(
      ({ code, place }) => `${code} ${place.path}`,
    );
  it.each<[string, Water, string[]]>([
    ["a sound plant", water({ heatUse: flash, topBrine_C: 100, seawater: { months_C } }), []],
    [
      "flash stages without brine and sea",
      water({ heatUse: flash }),
      ["LOAD_FLASH_STAGES loads/0/topBrine_C", "LOAD_FLASH_STAGES loads/0/seawater/months_C"],
    ],
    [
      "a top brine that the losses use up",
      water({ heatUse: flash, topBrine_C: 40, seawater: { months_C } }),
      ["LOAD_FLASH_STAGES loads/0/topBrine_C"],
    ],
    [
      "a slope that leaves no heat",
      water({ seawater: { months_C, reference_C: 0, heatChange_per_K: -0.05 } }),
      ["LOAD_SEAWATER loads/0/seawater/heatChange_per_K"],
    ],
    [
      "no hour that draws",
      water({ drawShares: new Array(24).fill(0) }),
      ["LOAD_DRAW_SHARES loads/0/drawShares"],
    ],
    ["too small a plant", water({ capacity_m3_h: 1 }), ["LOAD_WATER_CAPACITY loads/0/capacity_m3_h"]],
  ])("tell of %s", (_, load, expected) => {
    expect(faults(load)).toEqual(expected);
  });

  const remarks = (load: Water) => desalinationRemarks(studyOf(load)).map(({ code }) => code);
  it.each<[string, Water, string[]]>([
    ["nothing of a usual multi-effect plant", water({ plant: "multi-effect", topBrine_C: 65 }), []],
    [
      "a top brine on which scale forms",
      water({ plant: "multi-effect", topBrine_C: 85 }),
      ["REMARK_TOP_BRINE"],
    ],
    [
      "heat and power beyond those of flash",
      water({
        plant: "multi-stage-flash",
        heatUse: { by: "specific-heat", heat_kWh_per_m3: 120 },
        electricity_kWh_per_m3: 12,
      }),
      ["REMARK_WATER_HEAT", "REMARK_WATER_POWER"],
    ],
    [
      // checks.md 5.18: "10 to 15 kWh/m³ thermal" are electricity equivalents.
      "an electricity equivalent called heat",
      water({ heatUse: { by: "specific-heat", heat_kWh_per_m3: 12 } }),
      ["REMARK_ELECTRIC_EQUIVALENT"],
    ],
    [
      "nothing of membrane distillation with its own heat",
      water({ plant: "membrane-distillation", heatUse: { by: "specific-heat", heat_kWh_per_m3: 250 } }),
      [],
    ],
  ])("remark on %s", (_, load, expected) => {
    expect(remarks(load)).toEqual(expected);
  });

  it("have meanings for every code", () => {
    expect(Object.keys(desalinationProblems)).toHaveLength(5);
    expect(Object.keys(desalinationRemarkCodes)).toHaveLength(4);
  });
});
