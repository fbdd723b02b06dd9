import { describe, expect, it } from "vitest";
import { dryingRemarkCodes, dryingRemarks } from "../../../src/core/study/checks/drying-remarks.ts";
import type { Load } from "../../../src/core/study/schema/study.ts";
import { smallStudy } from "../../support/small-study.ts";

const dryer = (heat_kWh_per_kgWater: number): Load => ({
  kind: "drying",
  id: "dry",
  name: "Dryer",
  network: "hot-water",
  wetProduct_kg_h: { from: "constant", level: 10 },
  moistureIn: 0.5,
  moistureOut: 0.1,
  heatUse: { by: "specific-heat", heat_kWh_per_kgWater },
});
const told = (load: Load) => dryingRemarks({ ...smallStudy(), loads: [load] });

describe("the heat of a kg of water", () => {
  it("is remarked on below its evaporation and beyond usual dryers", () => {
    // 4 to 6 MJ/kg: common convective dryers (Mujumdar, from memory).
    for (const heat of [4 / 3.6, 6 / 3.6, 0.7, 3]) expect(told(dryer(heat))).toEqual([]);
    expect(told(dryer(0.3))).toMatchObject([
      { code: "REMARK_DRYING_HEAT", place: { path: "loads/0/heatUse/heat_kWh_per_kgWater" } },
    ]);
    // MJ taken for kWh: 4.5.
    expect(told(dryer(4.5))[0]!.message).toContain("more than usual dryers use");
    expect(Object.keys(dryingRemarkCodes)).toHaveLength(1);
  });

  it("is watched for a batch's product too", () => {
    const batch: Load = {
      kind: "batch-drying",
      id: "kiln",
      name: "Kiln",
      network: "hot-water",
      product: { name: "wood", wet_kg: 100, moistureIn: 0.5, moistureOut: 0.1, heat_kWh_per_kgWater: 0.2 },
      opens_h: 6,
      lasts_h: 8,
      power_kW: 100,
      weekdays: [1],
    };
    expect(told(batch).map(({ place }) => place.path)).toEqual(["loads/0/product/heat_kWh_per_kgWater"]);
  });
});
