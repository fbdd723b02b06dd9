import { beforeAll, describe, expect, it } from "vitest";
import { studyCalendar } from "../../../src/core/calendar.ts";
import { backupAvailability } from "../../../src/core/demand/backup-availability.ts";
import { backupEfficiency } from "../../../src/core/economics/backup-efficiency.ts";
import { efficiencyAt, heatAtOneEfficiency } from "../../../src/core/economics/part-load.ts";
import { dot, sum } from "../../../src/core/series.ts";
import {
  backupProblems,
  backupRemarkCodes,
  backupRemarks,
  checkBackups,
} from "../../../src/core/study/checks/backups.ts";
import { costsOf } from "../../../src/core/study/report/costs.ts";
import type { Backup, Calendar, Study } from "../../../src/core/study/schema/study.ts";
import { type Sizing, sizePlant } from "../../../src/core/study/size-plant.ts";
import type { Solvers } from "../../../src/core/study/sizing/solvers.ts";
import { loadSolvers } from "../../../src/solver/solvers.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import { calendarOf, madridClock, steadyWeather } from "../../support/load-inputs.ts";
import { plantOf } from "../../support/small-plant.ts";
import { smallStudy } from "../../support/small-study.ts";

let solvers: Solvers;
beforeAll(async () => {
  solvers = await loadSolvers();
});
const size = (study: Study): Sizing =>
  sizePlant(plantOf(study), { method: "full-year", solvers, version: "0", remarks: [], replays: "simple" });

const halfDays: Calendar = {
  id: "half",
  name: "Half days",
  week: {
    by: "shifts",
    shifts: [{ name: "Day", weekdays: [1, 2, 3, 4, 5, 6, 7], starts_h: 6, ends_h: 18, share: 1 }],
    between: 0.2,
  },
};
const withBackups = (...backups: Partial<Backup>[]): Study => {
  const study = smallStudy();
  const [boiler] = study.backups;
  return {
    ...study,
    calendars: [halfDays],
    backups: [boiler!, ...backups.map((more, i) => ({ ...boiler!, id: `b${i}`, name: `B${i}`, ...more }))],
  };
};
const wasteHeat: Partial<Backup> = {
  fuel: { kind: "waste-heat", price_per_kWh: 0, heatingValue: "net", escalation_per_year: 0 },
  efficiency: 1,
  existing_kW: 100,
  comesAt_C: 110,
  calendar: "half",
};

describe("backupEfficiency(backup, supply, clock, weather)", () => {
  const clock = calendarOf(madridClock);
  const pump = (more: Partial<NonNullable<Backup["heatPump"]>> = {}): NonNullable<Backup["heatPump"]> => ({
    shareOfReversible: 0.5,
    source: { from: "by-month", months_C: new Array<number>(12).fill(30) },
    sourceApproach_K: 5,
    sinkApproach_K: 5,
    ...more,
  });
  it("is half of Carnot's between condenser and evaporator, worked by hand", () => {
    // 363.15 K over 298.15 K: 363.15/65 = 5.587, half of it 2.793.
    const cop = backupEfficiency({ efficiency: 1, heatPump: pump() }, 85, clock, steadyWeather());
    expectPrinted(cop[0]!, "2.793");
    expect(new Set(cop).size).toBe(1);
  });

  it("follows the outdoor air and the months, and stops at 10", () => {
    const air = backupEfficiency(
      { efficiency: 1, heatPump: pump({ source: { from: "outdoor-air" } }) },
      85,
      clock,
      { ambient_C: Float64Array.from({ length: 8760 }, (_, t) => (t < 4380 ? 0 : 25)) },
    );
    expect(air[0]!).toBeLessThan(air[8000]!);
    const months_C = [10, 10, 10, 10, 10, 20, 20, 20, 10, 10, 10, 84];
    const monthly = backupEfficiency(
      { efficiency: 1, heatPump: pump({ source: { from: "by-month", months_C }, sourceApproach_K: 0 }) },
      85,
      clock,
      steadyWeather(),
    );
    expect(monthly[4380]!).toBeGreaterThan(monthly[0]!);
    expect(monthly[8700]).toBe(10);
    expect(backupEfficiency({ efficiency: 0.9 }, 85, clock, steadyWeather())[0]).toBe(0.9);
  });
});

describe("backupAvailability(backup, calendars, clock)", () => {
  it("is nothing on the days of an outage by the factory's clock, and the calendar's share on others", () => {
    const clock = studyCalendar(madridClock);
    const available = backupAvailability(
      { calendar: "half", outages: [{ from: "12-30", to: "01-02" }] },
      [halfDays],
      clock,
    )!;
    for (let t = 0; t < 8760; t += 1) {
      const date = clock.civilMonth[t]! * 100 + clock.civilDay[t]!;
      const works = clock.civilHour[t]! >= 6 && clock.civilHour[t]! < 18;
      expect(available[t]).toBe(date >= 1230 || date <= 102 ? 0 : works ? 1 : 0.2);
    }
    expect(backupAvailability({}, [halfDays], clock)).toBeUndefined();
  });
});

describe("backups in the plant", () => {
  it("give nothing in an outage, which costs more and leaves heat unmet where nothing else is there", () => {
    const fixed = (): Study => {
      const study = smallStudy();
      study.collectors[0]!.size = { choice: "fixed", fixed: 400 };
      study.stores[0]!.size = { choice: "fixed", fixed: 0 };
      return study;
    };
    const plain = size(fixed());
    const study = fixed();
    study.backups[0]!.outages = [{ from: "02-03", to: "02-16" }];
    const { result, plan } = size(study);
    const days = Array.from({ length: 14 * 24 }, (_, h) => (31 + 2) * 24 + h);
    for (const hour of days) expect(plan.backup_kW[0]![hour]).toBe(0);
    expect(result.proof.objective).toBeGreaterThan(plain.result.proof.objective);
    expect(result.annual.unmet_kWh).toBeGreaterThan(0);
    expect(result.conflicts[0]!.sentence).toContain(
      "Oil boiler is out of use in 336 of these hours by outages or calendar: give another backup for these hours",
    );
  });

  it("never cost less for an outage that another boiler can bridge, and bridge it", () => {
    const dear: Partial<Backup> = {
      fuel: { kind: "gas-oil", price_per_kWh: 0.2, heatingValue: "net", escalation_per_year: 0.02 },
    };
    const plain = size(withBackups(dear));
    const study = withBackups(dear);
    study.backups[0]!.outages = [{ from: "11-01", to: "11-30" }];
    const { result, plan } = size(study);
    expect(result.proof.objective).toBeGreaterThan(plain.result.proof.objective);
    expect(result.annual.unmet_kWh).toBeLessThan(1e-6);
    expect(sum(plan.backup_kW[1]!)).toBeGreaterThan(0);
  });

  it("are the same where the calendar is always on", () => {
    const always = { ...halfDays, week: { ...halfDays.week, between: 1 } as Calendar["week"] };
    const study = { ...smallStudy(), calendars: [always] };
    study.backups[0]!.calendar = "half";
    const plain = size(smallStudy()).result.proof.objective;
    expectClose(size(study).result.proof.objective, plain, 1e-6 * plain);
  });

  it("take waste heat as far as its calendar and power reach, in plan and replay, without fuel or CO2", () => {
    const { result, plan } = size(withBackups(wasteHeat));
    const available = plantOf(withBackups(wasteHeat)).problem.backups[1]!.available!;
    plan.backup_kW[1]!.forEach((heat, t) => {
      expect(heat).toBeLessThanOrEqual(100 * available[t]! + 1e-6);
    });
    expect(sum(plan.backup_kW[1]!)).toBeGreaterThan(0.8 * 100 * sum(available));
    const plain = size(smallStudy());
    expect(result.baseline.fuelCost).toBeLessThan(plain.result.baseline.fuelCost);
    expect(result.baseline.co2_kg).toBeLessThan(plain.result.baseline.co2_kg);
    expect(result.replay?.simple.annual.unmet_kWh).toBeLessThan(1e-6);
  });

  it("pay for a heat pump's electricity by the hour's coefficient of performance, with the study's CO2", () => {
    const pumped: Partial<Backup> = {
      fuel: { kind: "electricity", price_per_kWh: 0.1, heatingValue: "net", escalation_per_year: 0 },
      efficiency: 1,
      existing_kW: 300,
      heatPump: {
        shareOfReversible: 0.5,
        source: { from: "outdoor-air" },
        sourceApproach_K: 5,
        sinkApproach_K: 5,
      },
    };
    const study = withBackups(pumped);
    const model = plantOf(study);
    const { result, plan } = size(study);
    const cop = backupEfficiency(study.backups[1]!, 90, studyCalendar(study.site), model.weather);
    const electricity_kWh = dot(
      plan.backup_kW[1]!,
      cop.map((each) => 1 / each),
    );
    expect(electricity_kWh).toBeGreaterThan(0);
    const oil_kWh = sum(plan.backup_kW[0]!) / 0.85;
    const costs = costsOf(model, plan);
    expectClose(costs.fuel_kWh, electricity_kWh + oil_kWh, 1e-9);
    const oilCost = (sum(plan.backup_kW[0]!) / 0.85) * 0.07;
    expectClose(costs.fuelCost, electricity_kWh * 0.1 + oilCost, 1e-9);
    // 0.4 kg/kWh of the study's electricity; gas oil 74.1 kg/GJ (IPCC 2006).
    expectClose(costs.co2_kg, oil_kWh * 0.0741 * 3.6 + 0.4 * (electricity_kWh + costs.electricity_kWh), 1e-9);
    expect(result.status).toBe("optimal");
  });
});

describe("efficiency at part load and standby", () => {
  const partLoad = [
    { load: 0.2, efficiency: 0.7 },
    { load: 0.6, efficiency: 0.9 },
    { load: 1, efficiency: 0.85 },
  ];
  const boiler = (more: Partial<Backup> = {}): Study => {
    const study = smallStudy();
    study.backups[0] = { ...study.backups[0]!, existing_kW: 600, ...more };
    return study;
  };

  it("takes the line between points and holds beyond their ends, by hand", () => {
    expectClose(efficiencyAt(partLoad, 0.4), 0.8, 1e-12);
    expectClose(efficiencyAt(partLoad, 0.8), 0.875, 1e-12);
    expect(efficiencyAt(partLoad, 0.05)).toBe(0.7);
    expect(efficiencyAt(partLoad, 1)).toBe(0.85);
    const heat = Float64Array.of(120, 0, 240, 0);
    const available = Float64Array.of(1, 1, 1, 0);
    const one = new Float64Array(4).fill(0.85);
    const asFired = heatAtOneEfficiency(
      { efficiency: 0.85, partLoad, standby_kW: 10 },
      heat,
      600,
      available,
      one,
    );
    // 120 of 600 kW at 0.7 take 171.4 kW of fuel; standby 10; 240 at 0.8 take 300; nothing while out of use.
    const fuel = [120 / 0.7, 10, 240 / 0.8, 0];
    asFired.forEach((value, t) => {
      expectClose(value / 0.85, fuel[t]!, 1e-9);
    });
    expect(heatAtOneEfficiency({ efficiency: 0.85 }, heat, 600, undefined, one)).toBe(heat);
  });

  it("count in the year's fuel, cost and CO2 of the plan, today's plant and the replay, summed again by hour", () => {
    const study = boiler({ partLoad, standby_kW: 12 });
    const { result, plan } = size(study);
    const model = plantOf(study);
    const heat = plan.backup_kW[0]!;
    const fuel_kWh = heat.reduce(
      (all, each) => all + (each > 0 ? each / efficiencyAt(partLoad, each / 600) : 12),
      0,
    );
    const costs = costsOf(model, plan);
    expectClose(costs.fuel_kWh, fuel_kWh, 1e-6);
    expectClose(costs.fuelCost, 0.07 * fuel_kWh, 1e-6);
    expectClose(result.annual.fuelCostWithSolar, costs.fuelCost + costs.electricityCost, 1e-6);
    // The constant 500 kW of today's plant are 0.833 of its power.
    expectClose(result.baseline.fuel_kWh, (500 * 8760) / efficiencyAt(partLoad, 500 / 600), 1e-6);
  });

  it("with one efficiency at all loads are the plain boiler, to the last bit of the answer", () => {
    const flat = partLoad.map(({ load }) => ({ load, efficiency: 0.85 }));
    const [plain, curved] = [size(boiler()).result, size(boiler({ partLoad: flat })).result];
    expect(curved.proof.objective).toBe(plain.proof.objective);
    expectClose(curved.annual.fuelCostAvoided, plain.annual.fuelCostAvoided, 1e-9);
  });

  it("avoid less fuel where the boiler then runs at a worse load", () => {
    const low = [
      { load: 0.1, efficiency: 0.5 },
      { load: 0.8, efficiency: 0.85 },
      { load: 1, efficiency: 0.85 },
    ];
    // Today's plant runs at 0.833 of the boiler's power all year.
    const avoided = (study: Study) => size(study).result.annual.fuelCostAvoided;
    expect(avoided(boiler({ partLoad: low }))).toBeLessThan(avoided(boiler()));
  });
});

describe("faults and remarks of backups", () => {
  const codes = (study: Study) => checkBackups(study).map(({ code, place }) => `${code} ${place.path}`);
  it.each<[string, Partial<Backup>, string[]]>([
    ["sound waste heat", wasteHeat, []],
    ["a boiler better than its fuel", { efficiency: 3 }, ["BACKUP_EFFICIENCY backups/1/efficiency"]],
    [
      "a heat pump on gas",
      {
        heatPump: {
          shareOfReversible: 0.5,
          source: { from: "outdoor-air" },
          sourceApproach_K: 5,
          sinkApproach_K: 5,
        },
      },
      ["BACKUP_HEAT_PUMP backups/1/fuel/kind"],
    ],
    [
      "a boiler whose heat comes at a temperature",
      { comesAt_C: 80 },
      ["BACKUP_WASTE_HEAT backups/1/comesAt_C"],
    ],
    ["waste heat too cool", { ...wasteHeat, comesAt_C: 60 }, ["BACKUP_WASTE_HEAT backups/1/comesAt_C"]],
    [
      "waste heat in short supply of figures",
      { fuel: wasteHeat.fuel!, efficiency: 1 },
      ["BACKUP_WASTE_HEAT backups/1/comesAt_C", "BACKUP_WASTE_HEAT backups/1/existing_kW"],
    ],
    [
      "one point of part load, and no power",
      { partLoad: [{ load: 0.5, efficiency: 0.8 }] },
      ["BACKUP_PART_LOAD backups/1/partLoad", "BACKUP_PART_LOAD backups/1/existing_kW"],
    ],
    [
      "a load with two efficiencies",
      {
        existing_kW: 100,
        partLoad: [
          { load: 0.5, efficiency: 0.8 },
          { load: 0.5, efficiency: 0.9 },
        ],
      },
      ["BACKUP_PART_LOAD backups/1/partLoad/1/load"],
    ],
    [
      "an outage on no day",
      { outages: [{ from: "02-30", to: "03-01" }] },
      ["STUDY_DATE backups/1/outages/0/from"],
    ],
  ])("tell of %s", (_, more, expected) => {
    expect(codes(withBackups(more))).toEqual(expected);
  });

  it("remark on a heat pump that is to deliver steam", () => {
    const study = withBackups({
      fuel: { kind: "electricity", price_per_kWh: 0.1, heatingValue: "net", escalation_per_year: 0 },
      heatPump: {
        shareOfReversible: 0.5,
        source: { from: "outdoor-air" },
        sourceApproach_K: 5,
        sinkApproach_K: 5,
      },
    });
    expect(backupRemarks(study)).toEqual([]);
    study.networks[0]!.supply_C = 180;
    expect(backupRemarks(study).map(({ code }) => code)).toEqual(["REMARK_HEAT_PUMP_HOT"]);
    expect(Object.keys(backupProblems)).toHaveLength(4);
    expect(Object.keys(backupRemarkCodes)).toHaveLength(2);
  });

  it("remark on a dear boiler that is called before a cheap one", () => {
    const fuel = {
      kind: "gas-oil",
      price_per_kWh: 0.2,
      heatingValue: "net",
      escalation_per_year: 0,
    } as const;
    const told = (orders: (number | undefined)[]) => {
      const study = withBackups({ fuel });
      study.backups.forEach((backup, i) => {
        const order = orders[i];
        if (order !== undefined) backup.order = order;
      });
      return backupRemarks(study).map(({ code, place }) => `${code} ${place.path}`);
    };
    expect(told([undefined, undefined])).toEqual([]);
    expect(told([1, 2])).toEqual([]);
    expect(told([undefined, 1])).toEqual(["REMARK_BACKUP_ORDER backups/1/order"]);
    expect(told([2, 1])).toEqual(["REMARK_BACKUP_ORDER backups/1/order"]);
  });
});
