import { beforeAll, describe, expect, it } from "vitest";
import { sum } from "../../../src/core/series.ts";
import type { Calendar, LoadOf, Study } from "../../../src/core/study/schema/study.ts";
import { type Sizing, sizePlant } from "../../../src/core/study/size-plant.ts";
import type { Solvers } from "../../../src/core/study/sizing/solvers.ts";
import { loadSolvers } from "../../../src/solver/solvers.ts";
import { expectClose } from "../../support/close.ts";
import { plantOf } from "../../support/small-plant.ts";
import { smallStudy } from "../../support/small-study.ts";

let solvers: Solvers;
beforeAll(async () => {
  solvers = await loadSolvers();
});
const size = (study: Study): Sizing =>
  sizePlant(plantOf(study), { method: "typical-days", solvers, version: "0", remarks: [] });

const shift = [...new Array<number>(6).fill(0), ...new Array<number>(16).fill(1), 0, 0];
const days: Calendar = {
  id: "days",
  name: "Days",
  week: { by: "hours", weekday: shift, saturday: shift, sunday: shift },
};
function washing(tank_m3: number): Study {
  const load: LoadOf<"hot-water"> = {
    kind: "hot-water",
    id: "wash",
    name: "Washing",
    network: "hot-water",
    draw_m3_h: { from: "calendar", level: 8, calendar: "days" },
    use_C: 60,
    coldWater_C: 20,
    tank_m3,
    heater_kW: 800,
  };
  return { ...smallStudy(), calendars: [days], loads: [load] };
}

describe("hot water in the plant", () => {
  it("without a tank is the process heat of the same hours", () => {
    const plain = size(washing(0));
    const level = 8 * plantOf(washing(0)).problem.water[0]!.heat_kWh_per_m3[0]!;
    const heat = size({
      ...smallStudy(),
      calendars: [days],
      loads: [
        {
          kind: "process-heat",
          id: "wash",
          name: "Washing",
          network: "hot-water",
          heat_kW: { from: "calendar", level, calendar: "days" },
        },
      ],
    });
    expectClose(plain.result.annual.demand_kWh, heat.result.annual.demand_kWh, 1e-9);
    expectClose(plain.result.proof.objective, heat.result.proof.objective, 1e-6);
    expectClose(plain.result.annual.solarFraction, heat.result.annual.solarFraction, 1e-3);
  });

  it("with a tank costs no more, makes what is drawn, and counts as no desalinated water", () => {
    const without = size(washing(0));
    const { result, plan } = size(washing(60));
    expect(result.proof.objective).toBeLessThan(without.result.proof.objective);
    expectClose(result.annual.demand_kWh, without.result.annual.demand_kWh, 1e-6);
    const [water] = plan.hours.water;
    expectClose(sum(water!.made_m3_h), sum(water!.order_m3_h), 1e-6);
    expect(Math.max(...water!.tank_m3)).toBeLessThanOrEqual(60 * (1 + 1e-9));
    expect(result.annual.water_m3).toBe(0);
    expect(result.annual.unmetWater_m3).toBeCloseTo(0, 6);
    expect(result.loads[0]).toMatchObject({ kind: "hot-water", supply_C: 60 });
    // 8 m³/h in 16 hours of every day.
    expect(result.loads[0]!.products).toMatchObject([{ what: "hot water", unit: "m³" }]);
    expectClose(result.loads[0]!.products![0]!.amount, 8 * 16 * 365, 1e-6);
    expect(result.replay!.simple.annual.unmetWater_m3).toBeLessThan(1);
  });
});
