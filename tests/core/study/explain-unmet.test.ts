import { beforeAll, describe, expect, it } from "vitest";
import { hourIndex } from "../../../src/core/calendar.ts";
import type { DispatchCase } from "../../../src/core/dispatch/case.ts";
import type { LpSolver } from "../../../src/core/dispatch/program.ts";
import { unmetConflicts } from "../../../src/core/study/explain-unmet.ts";
import type { PlantModel } from "../../../src/core/study/plant-model.ts";
import type { Conflict } from "../../../src/core/study/result.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { expectClose } from "../../support/close.ts";
import {
  backup,
  dispatchCase,
  existingSize,
  freeSize,
  network,
  store,
} from "../../support/dispatch-cases.ts";
import { namedModel, priceCase } from "../../support/priced-case.ts";

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadHighs();
});

/** A constant demand with some hours of another. */
function demand(level_kW: number, ...hours: readonly (readonly [number, number, number, number])[]) {
  const series = new Float64Array(8760).fill(level_kW);
  for (const [month, day, hour, kW] of hours) series[hourIndex(month, day, hour)] = kW;
  return series;
}

function explain(problem: DispatchCase): Conflict[] {
  const { formulation, plan, duals } = priceCase(problem, solver);
  const named = namedModel(problem);
  const site = { utcOffset_h: 2, timeZone: "Europe/Athens", calendarYear: 2026 };
  const loads = [...problem.cold, ...problem.water, ...problem.batches].map(({ id }) => ({ id, name: id }));
  const model = { ...named, study: { ...named.study, site, loads } } as unknown as PlantModel;
  return unmetConflicts({ model, plan, formulation, rowDual: duals.rowDual });
}

/** The lack that is left once a limit is one unit larger. */
const leftOf = (problem: DispatchCase) => explain(problem)[0]?.by ?? 0;

describe("heat that cannot be met", () => {
  it("is told with its hours, its worst hour and the boiler that is too small", () => {
    const problem = dispatchCase(8760, {
      networks: [
        network(
          "Dye house",
          demand(1500, [12, 3, 6, 2400], [12, 4, 7, 2300], [1, 17, 7, 2830], [12, 9, 8, 2500]),
        ),
      ],
      backups: [backup(0.06, { id: "Oil boiler", size: existingSize(2000) })],
    });
    const [conflict, ...others] = explain(problem);
    expect(others).toEqual([]);
    expectClose(conflict!.by, 400 + 300 + 830 + 500, 1e-9);
    expect(conflict).toMatchObject({ network: "Dye house", unit: "kWh", what: "Heat of Dye house" });
    expect(conflict!.hours).toEqual({
      count: 4,
      first: "2026-01-17T07:00+02:00",
      last: "2026-12-09T08:00+02:00",
    });
    expect(conflict!.worst!.at).toBe("2026-01-17T07:00+02:00");
    expectClose(conflict!.worst!.lacks, 830, 1e-9);
    expect(conflict!.sentence).toBe(
      "Dye house lacks 2,030 kWh a year, in 4 hours, up to 830 kW at once (worst 17 Jan 07:00), " +
        "most on mornings in December and January; Oil boiler gives 2,000 kW at most: " +
        "give a backup of that power or lower the demand.",
    );
    // One more kW serves one kWh in each of the four hours, but for the fuel that it takes.
    const [boiler] = conflict!.causes!;
    expectClose(boiler!.relief_per_unit!, 4 * (1 - 0.06 / 100), 1e-9);
    const larger = { ...problem, backups: [backup(0.06, { id: "Oil boiler", size: existingSize(2001) })] };
    expectClose(conflict!.by - leftOf(dispatchCase(8760, larger)), 4, 1e-9);
  });

  it("names a step-down that passes too little, and not the boiler of the hot side", () => {
    const warm = demand(200, [7, 1, 12, 400], [7, 2, 12, 500]);
    const problem = dispatchCase(8760, {
      networks: [network("Steam", demand(100)), network("Wash", warm)],
      stepDowns: [{ id: "to-wash", from: 0, to: 1, efficiency: 0.9, size: existingSize(300) }],
      backups: [backup(0.06)],
    });
    const [conflict] = explain(problem);
    expectClose(conflict!.by, 400 - 270 + 500 - 270, 1e-9);
    expect(conflict!.network).toBe("Wash");
    expect(conflict!.sentence).toContain("it has no backup, the step-down from Steam passes 300 kW at most");
    const exchanger = conflict!.causes!.find(({ limit }) => limit === "step-down to-wash")!;
    expect(exchanger.at).toBe(300);
    // 0.9 kWh arrive for each in two hours; the other hours' worth is fuel, and does not count.
    expectClose(exchanger.relief_per_unit!, 2 * (0.9 - 0.06 / 100), 1e-9);
  });

  it("names a store that is too small, or gives too little at once", () => {
    // Each noon wants 300 kW more than the boiler has; nights could fill a larger store.
    const noon = Array.from({ length: 8760 }, (_, t) => (t % 24 === 12 ? 800 : 300));
    const plant = (capacity_kWh: number, dischargeLimit_kW: number) =>
      dispatchCase(8760, {
        networks: [network("Wash", Float64Array.from(noon))],
        backups: [backup(0.06, { mayCharge: true, size: existingSize(500) })],
        stores: [store(existingSize(capacity_kWh), { id: "Tank", dischargeLimit_kW })],
      });
    const [small] = explain(plant(120, Number.POSITIVE_INFINITY));
    expectClose(small!.by, 365 * 180, 1e-9);
    expect(small!.sentence).toContain("Tank holds 120 kWh at most");
    expectClose(
      small!.causes!.find(({ limit }) => limit === "capacity of Tank")!.relief_per_unit!,
      365,
      2e-3,
    );

    const [slow] = explain(plant(1000, 250));
    expectClose(slow!.by, 365 * 50, 1e-9);
    expect(slow!.sentence).toContain("Tank gives 250 kW at most");
    expect(slow!.sentence).not.toContain("holds");
    const power = slow!.causes!.find(({ limit }) => limit === "discharge power of Tank")!;
    expectClose(power.relief_per_unit!, 365, 2e-3);
  });

  it("names the budget where it stops a boiler from growing", () => {
    const problem = dispatchCase(8760, {
      networks: [network("Wash", demand(300, [2, 1, 12, 500]))],
      backups: [backup(0.06, { id: "New boiler", size: freeSize(5, 60) })],
      limits: { land_m2: null, budget: 24_000, leastSolarFraction: null },
    });
    const [conflict] = explain(problem);
    expectClose(conflict!.by, 100, 1e-6);
    expect(conflict!.sentence).toMatch(
      /New boiler gives 400 kW at most, the budget of 24,000 XTS allows no more: give/,
    );
  });

  it("is told of cold, water and batches likewise", () => {
    const heat = demand(0);
    const problem = dispatchCase(8760, {
      networks: [network("Steam", heat)],
      backups: [backup(0.06)],
      cold: [
        {
          id: "Cool room",
          demand_kW: demand(50, [8, 1, 15, 90]),
          electricCop: demand(3),
          electricLimit_kW: 70,
        },
      ],
      water: [
        {
          id: "Drinking water",
          network: 0,
          heat_kWh_per_m3: demand(60),
          electricity_kWh_per_m3: 1,
          order_m3_h: demand(2, [5, 1, 3, 9]),
          capacity_m3_h: 3,
          tank_m3: 4,
        },
      ],
      batches: [{ id: "Dryer", network: 0, power_kW: 40, heat_kWh: 100, windows: [Int32Array.of(8759, 0)] }],
    });
    const [cold, water, batch] = explain(problem);
    expectClose(cold!.by, 20, 1e-9);
    expect(cold!.sentence).toMatch(
      /^Cool room lacks 20 kWh a year, in 1 hour, up to 20 kW at once \(1 Aug 16:00\); the electric chiller gives 70 kW at most/,
    );
    expectClose(water!.by, 9 - 3 - 4, 1e-9);
    expect(water!.sentence).toContain("the plant makes 3 m³/h at most and its tank holds 4 m³");
    expectClose(batch!.by, 20, 1e-9);
    expect(batch!.sentence).toContain(
      "Dryer lacks 20 kWh a year, in 1 batch, up to 20 kWh at once (31 Dec 23:00)",
    );
  });

  it("is the boiler's fault where a batch or a water order could take more than it gives", () => {
    const plant = (what: Partial<DispatchCase>) =>
      explain(
        dispatchCase(8760, {
          networks: [network("Steam", demand(0))],
          backups: [backup(0.06, { id: "Oil boiler", size: existingSize(30) })],
          ...what,
        }),
      )[0]!.sentence;
    const batches = [
      { id: "Dryer", network: 0, power_kW: 80, heat_kWh: 100, windows: [Int32Array.of(10, 11)] },
    ];
    expect(plant({ batches })).toMatch(
      /^Dryer lacks 40 kWh a year, in 1 batch.*; Oil boiler gives 30 kW at most/,
    );
    const water = [
      {
        id: "Drinking water",
        network: 0,
        heat_kWh_per_m3: demand(60),
        electricity_kWh_per_m3: 0,
        order_m3_h: demand(0, [5, 1, 3, 2]),
        capacity_m3_h: 3,
        tank_m3: 0,
      },
    ];
    expect(plant({ water })).toMatch(
      /^(Steam lacks 90 kWh|Drinking water lacks 1.5 m³) a year.*; Oil boiler gives 30 kW at most/,
    );
  });

  it("is nothing where all is met", () => {
    const problem = dispatchCase(8760, {
      networks: [network("Wash", demand(300))],
      backups: [backup(0.06, { size: existingSize(300) })],
    });
    expect(explain(problem)).toEqual([]);
  });
});
