import { beforeAll, describe, expect, it } from "vitest";
import type { Study } from "../../../src/core/study/schema/study.ts";
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

const total = (series: Float64Array) => series.reduce((all, value) => all + value, 0);
const dot = (a: Float64Array, b: Float64Array) => a.reduce((all, value, t) => all + value * b[t]!, 0);

/** The small study with a cool room, an absorption chiller and dear electricity. */
function manyLoads(): Study {
  const study = smallStudy();
  study.loads.push({
    kind: "cooling",
    id: "cool-room",
    name: "Cool room",
    cold_kW: { from: "constant", level: 80 },
    coldSupply_C: 7,
    electricChiller: { cop: 3 },
  });
  study.chillers.push({
    id: "absorber",
    name: "Absorption chiller",
    load: "cool-room",
    network: "hot-water",
    effect: "single",
    cop: 0.7,
    drivingLeast_C: 75,
    electricity_kWh_per_kWh: 0.02,
    existing_kW: 0,
    size: { choice: "fixed", fixed: 80 },
    parts: [{ name: "Chiller", price_per_unit: 200, life_years: 20, upkeep_per_unit_year: 2 }],
  });
  study.electricity.price_per_kWh = 0.3;
  return study;
}

describe("a report", () => {
  let cooled: Sizing;
  let model: ReturnType<typeof plantOf>;
  beforeAll(() => {
    cooled = size(manyLoads());
    model = plantOf(manyLoads());
  });

  it("adds up its year from the written hours alone", () => {
    const { annual, networks } = cooled.result;
    const [hours] = cooled.plan.hours.networks;
    const [cold] = cooled.plan.hours.cold;
    expectClose(annual.demand_kWh, total(hours!.demand_kW), 1e-12);
    expectClose(annual.demand_kWh, 500 * 8760 + total(cold!.absorption_kW) / 0.7, 1e-9);
    expectClose(annual.backup_kWh, total(hours!.backup_kW), 1e-12);
    expectClose(annual.collected_kWh, total(hours!.solar_kW) + total(hours!.spill_kW), 1e-12);
    expectClose(annual.storageLoss_kWh, total(hours!.charge_kW) - total(hours!.discharge_kW), 1e-9);
    expectClose(networks[0]!.storageLoss_kWh, annual.storageLoss_kWh, 1e-12);
    expectClose(annual.coldAbsorption_kWh + annual.coldElectric_kWh, 80 * 8760, 1e-9);
    expect(annual.coldAbsorption_kWh).toBeGreaterThan(1000);
  });

  it("tells the water that washes the new and the existing aperture", () => {
    expect(cooled.result.annual.washingWater_m3).toBe(0);
    const study = smallStudy();
    const [collector] = study.collectors;
    Object.assign(collector!, {
      existing_m2: 200,
      size: { choice: "fixed", fixed: 300 },
      soiling: { lossPerDay: 0.004, washEvery_days: 7, water_L_per_m2: 0.5 },
    });
    const { annual, collectors } = size(study).result;
    expect(collectors[0]!.washingWater_L_per_m2).toBe(26.5);
    expectClose(annual.washingWater_m3!, (500 * 26.5) / 1000, 1e-9);
  });

  it("delivers through the pipes, and says where the field is far from the size they are given for", () => {
    const of = (forAperture_m2: number | null) => {
      const study = smallStudy();
      Object.assign(study.collectors[0]!, { size: { choice: "fixed", fixed: 400 } });
      study.stores[0]!.size = { choice: "fixed", fixed: 1000 };
      if (forAperture_m2 !== null)
        study.collectors[0]!.pipes = {
          length_m: forAperture_m2 / 10,
          forAperture_m2,
          outerDiameter_mm: 60.3,
          wall_mm: 2.9,
          insulation_mm: 60,
          insulation_W_mK: 0.045,
          fluid: "water",
        };
      return size(study).result;
    };
    const none = of(null);
    const near = of(300);
    const [bare, piped] = [none.collectors[0]!, near.collectors[0]!];
    expectClose(
      bare.useful_kWh_per_m2,
      piped.useful_kWh_per_m2 + piped.losses.pipes + piped.losses.pipeWarmUp,
      1e-12,
    );
    expect(piped.losses.pipeWarmUp).toBeGreaterThan(0);
    const collected = ({ networks }: typeof none) => networks[0]!.solar_kWh + networks[0]!.spill_kWh;
    expectClose(
      collected(none) - collected(near),
      400 * (piped.losses.pipes + piped.losses.pipeWarmUp),
      1e-6,
    );
    expect(near.findings.join()).not.toContain("pipes of");
    expect(of(900).findings.join()).toContain(
      "The pipes of Film trough are given for 900 m² and the answer has 400 m²",
    );
    expect(of(150).findings.join()).toContain("are given for 150 m²");
  });

  // By hand: an exchanger of 5 K puts a collector on a network of 90/70 °C at 75 to 95 °C, of 15 K at 85 to 105 °C;
  // with a1 = 1 W/(m²·K) alone every hour that runs at both loses 10 W/m² more.
  it("takes the exchanger's approach off the collectors and their pipes, in the program and in the report", () => {
    const of = (exchangerApproach_K: number) => {
      const study = smallStudy();
      study.networks[0]!.exchangerApproach_K = exchangerApproach_K;
      Object.assign(study.collectors[0]!, {
        heatLoss: { by: "iso-9806", a1_W_m2K: 1, a2_W_m2K2: 0 },
        size: { choice: "fixed", fixed: 400 },
      });
      study.stores[0]!.size = { choice: "fixed", fixed: 1000 };
      return { model: plantOf(study), result: size(study).result };
    };
    const [near, far] = [of(5), of(15)];
    const [five, fifteen] = [near, far].map(({ model }) => model.problem.fields[0]!.yield_kW_per_m2);
    let both = 0;
    for (let t = 0; t < 8760; t += 1) {
      if (!(fifteen![t]! > 0)) continue;
      both += 1;
      expectClose(five![t]! - fifteen![t]!, 0.01, 1e-12);
    }
    expect(both).toBeGreaterThan(1500);
    expect([near, far].map(({ result }) => result.match[0]!.meanFluid_C)).toEqual([85, 95]);
    expectClose(far.result.collectors[0]!.useful_kWh_per_m2, total(fifteen!), 1e-9);
  });

  it("charges the electricity against frost in the sizing and in the report", () => {
    const of = (changes: Partial<Study["collectors"][number]>) => {
      const study = smallStudy();
      Object.assign(study.collectors[0]!, { size: { choice: "fixed", fixed: 400 }, ...changes });
      study.stores[0]!.size = { choice: "fixed", fixed: 1000 };
      return { model: plantOf(study), result: size(study).result };
    };
    // No air here freezes water: what must stay above 60 °C does.
    const [plainly, guarded] = [of({}), of({ frost: { by: "electric", keepAbove_C: 60 } })];
    const heating = guarded.result.collectors[0]!.frost!.heating_kWh_per_m2;
    expect(heating).toBeGreaterThan(50);
    expect(plainly.result.collectors[0]!.frost).toBeNull();
    const night = guarded.model.problem.fields[0]!.parasitic_kW_per_m2[2]!;
    expect(night).toBeGreaterThan(0.01);
    expectClose(
      guarded.result.annual.electricity_kWh - plainly.result.annual.electricity_kWh,
      400 * heating,
      1e-9,
    );
    expect(guarded.result.levelised.solarHeat_per_kWh!).toBeGreaterThan(
      plainly.result.levelised.solarHeat_per_kWh!,
    );
  });

  it("charges blower and drives in hours without heat, in the sizing, the report and the runs alike", () => {
    const of = (changes: Partial<Study["collectors"][number]>) => {
      const study = smallStudy();
      Object.assign(study.collectors[0]!, {
        size: { choice: "fixed", fixed: 400 },
        storm: { stowWind_m_s: 60, backAfter_h: 0 },
        ...changes,
      });
      study.stores[0]!.size = { choice: "fixed", fixed: 1000 };
      return { model: plantOf(study), sizing: size(study) };
    };
    const plainly = of({});
    const blown = of({ blower_W_m2: 0.5, tracking_W_m2: 1.2 });
    const { model, sizing } = blown;
    const price = model.prices.electricity.objective_per_kWh;
    let more_kWh = 0;
    let more = 0;
    for (let t = 0; t < 8760; t += 1) {
      const extra_kW = 0.0005 + 0.0012 * model.sun.sunlitShare[t]!;
      more_kWh += extra_kW;
      more += extra_kW * price[t]!;
    }
    expectClose(
      model.problem.fields[0]!.parasitic_kW_per_m2[0]! -
        plainly.model.problem.fields[0]!.parasitic_kW_per_m2[0]!,
      0.0005,
      1e-12,
    );
    const [before, after] = [plainly.sizing.result, sizing.result];
    expectClose(after.annual.parasitic_kWh - before.annual.parasitic_kWh, 400 * more_kWh, 1e-9);
    expectClose(after.annual.electricity_kWh - before.annual.electricity_kWh, 400 * more_kWh, 1e-9);
    expectClose(
      after.collectors[0]!.parasitic_kWh_per_m2 - before.collectors[0]!.parasitic_kWh_per_m2,
      more_kWh,
      1e-9,
    );
    const match = (result: typeof after) =>
      result.match[0]!.cost_per_kWh! * result.match[0]!.useful_kWh_per_m2;
    expectClose(match(after) - match(before), more, 1e-9);
    expectClose(after.levelised.annualCost - before.levelised.annualCost, 400 * more, 1e-6);
    const [runBefore, runAfter] = [before.replay!.simple, after.replay!.simple];
    expectClose(runAfter.annual.parasitic_kWh - runBefore.annual.parasitic_kWh, 400 * more_kWh, 1e-9);
    expectClose(runAfter.programCost - runBefore.programCost, 400 * more, 1e-6);
  });

  it("charges parasitics and chillers to the plant with solar", () => {
    const { annual } = cooled.result;
    const [cold] = cooled.plan.hours.cold;
    const running = model.problem.fields[0]!.yield_kW_per_m2.filter((heat) => heat > 0).length;
    const area = cooled.result.sizes.collectors[0]!.aperture_m2;
    expectClose(annual.parasitic_kWh, 0.002 * area * running, 1e-9);
    expectClose(
      annual.electricity_kWh,
      annual.parasitic_kWh + total(cold!.electric_kW) / 3 + 0.02 * total(cold!.absorption_kW),
      1e-9,
    );
    const heat_per_kWh = 0.07 / 0.85;
    expectClose(
      annual.fuelCostWithSolar,
      annual.backup_kWh * heat_per_kWh +
        dot(cooled.plan.hours.electricity_kW, new Float64Array(8760).fill(0.3)),
      1e-9,
    );
    // Today all cold is made by the electric chiller.
    expectClose(annual.fuelCostBaseline, 500 * 8760 * heat_per_kWh + ((80 * 8760) / 3) * 0.3, 1e-9);
  });

  it("counts saved energy and CO2 in what is bought, not in heat", () => {
    const { annual, baseline } = cooled.result;
    const now_kWh = (500 * 8760) / 0.85 + (80 * 8760) / 3;
    expectClose(baseline.fuel_kWh + baseline.electricity_kWh, now_kWh, 1e-9);
    expectClose(
      annual.fractionalEnergySaving,
      1 - (annual.backup_kWh / 0.85 + annual.electricity_kWh) / now_kWh,
      1e-9,
    );
    // Gas oil 74 100 kg/TJ net (IPCC 2006 vol. 2 table 2.2), electricity as the study says.
    expectClose(
      annual.co2WithSolar_kg,
      (annual.backup_kWh / 0.85) * 74_100 * 3.6e-6 + annual.electricity_kWh * 0.4,
      1e-9,
    );
  });

  it("splits each month's heat into direct, from store and backup", () => {
    const { months, annual } = cooled.result;
    expect(months.map(({ month }) => month)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    for (const month of months)
      expectClose(month.direct_kWh + month.fromStore_kWh + month.backup_kWh, month.demand_kWh, 1e-9);
    expectClose(
      months.reduce((all, { spill_kWh }) => all + spill_kWh, 0),
      annual.spilled_kWh,
      1e-9,
    );
  });

  it("leaves chillers out of the price of solar heat", () => {
    const { levelised, money, annual } = cooled.result;
    const solarParts = money.parts.filter(({ item }) => item === "Film trough" || item === "Water tank");
    const factor = levelised.backupHeat[0]!.levelised_per_kWh / levelised.backupHeat[0]!.firstYear_per_kWh;
    expect(factor).toBeGreaterThan(1);
    const capital = solarParts.reduce((all, part) => all + part.annualCost, 0);
    const price = model.prices.electricity.levelised_per_kWh[0]!;
    expectClose(levelised.annualSolarPlant, capital + annual.parasitic_kWh * price, 1e-9);
    expectClose(levelised.solarHeat_per_kWh!, levelised.annualSolarPlant / annual.solarUsed_kWh, 1e-12);
    expect(levelised.annualCapital).toBeGreaterThan(capital + 80 * 10);
  });

  it("names what could be saved without a collector apart", () => {
    const { withoutCollectors, annual } = cooled.result;
    // No heat but the boiler's: the chiller of 80 kW is there and runs only where its cold is cheaper.
    expectClose(withoutCollectors.backup_kWh, withoutCollectors.heatDemand_kWh, 1e-9);
    expect(withoutCollectors.fuelCost + withoutCollectors.electricityCost).toBeGreaterThan(
      annual.fuelCostWithSolar,
    );
  });

  it("calls a least solar fraction binding where it shaped the plant", () => {
    const study = smallStudy();
    const free = size(study).result.typicalDays!.solarFraction;
    study.limits = { leastSolarFraction: Math.min(0.98, free + 0.03) };
    const tight = size(study).result;
    expect(tight.limits[0]).toMatchObject({ binding: true, limit: Math.min(0.98, free + 0.03) });
    expect(tight.limits[0]!.valuePerUnit!).toBeGreaterThan(0);
    study.limits = { leastSolarFraction: free - 0.1 };
    expect(size(study).result.limits[0]).toMatchObject({ binding: false, valuePerUnit: 0 });
  });
});
