import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { batchWindows } from "../../../../src/core/demand/loads/batch-drying.ts";
import { checkLoad, loadProblems } from "../../../../src/core/demand/loads/check-load.ts";
import { civilDays } from "../../../../src/core/demand/loads/civil-days.ts";
import {
  flashHeat_kJ_kg,
  waterHeat,
  waterOrder_m3_h,
} from "../../../../src/core/demand/loads/desalination.ts";
import { waterRemoved_kg_kg } from "../../../../src/core/demand/loads/drying.ts";
import { loadSupply_C } from "../../../../src/core/demand/loads/load-supply.ts";
import { resolveLoad } from "../../../../src/core/demand/loads/resolve-load.ts";
import type { FixedHeat } from "../../../../src/core/demand/resolved-load.ts";
import { constantYear, sum } from "../../../../src/core/series.ts";
import type { Load, LoadOf } from "../../../../src/core/study/schema/study.ts";
import { expectClose, expectPrinted } from "../../../support/close.ts";
import { calendarOf, loadInputs, madridClock, network, steadyWeather } from "../../../support/load-inputs.ts";

const constant = { from: "constant", level: 1 } as const;
const santiago = { utcOffset_h: -4, timeZone: "America/Santiago", calendarYear: 2024 };
const clocks = fc.constantFrom(
  madridClock,
  santiago,
  { utcOffset_h: 10, timeZone: "Australia/Sydney", calendarYear: 2024 },
  { utcOffset_h: 10.5, timeZone: "Australia/Lord_Howe", calendarYear: 2025 },
  { utcOffset_h: 5.5, timeZone: "Asia/Kolkata", calendarYear: 2024 },
  { utcOffset_h: 1, timeZone: "Africa/Casablanca", calendarYear: 2024 },
);

const steamLoad: LoadOf<"steam"> = {
  kind: "steam",
  id: "steam",
  name: "Steam",
  network: "heat",
  flow_kg_h: constant,
  pressure_bar: 10,
  pressureIs: "absolute",
  condensateReturn_C: 80,
  condensateReturnShare: 1,
  makeUp_C: 15,
};
const water: LoadOf<"desalination"> = {
  kind: "desalination",
  id: "water",
  name: "Water",
  network: "heat",
  order_m3_per_day: 1000,
  capacity_m3_h: 60,
  heatUse: { by: "performance-ratio", performanceRatio: 10, convention: "2326-kJ-per-kg" },
  electricity_kWh_per_m3: 2,
  tank_m3: 500,
};
const dryer: LoadOf<"drying"> = {
  kind: "drying",
  id: "dryer",
  name: "Dryer",
  network: "heat",
  wetProduct_kg_h: constant,
  moistureIn: 0.8,
  moistureOut: 0.13,
  heatUse: { by: "air", air_C: 60, exhaustRelativeHumidity: 0.8, heatLossShare: 0 },
};
const batch: LoadOf<"batch-drying"> = {
  kind: "batch-drying",
  id: "kiln",
  name: "Kiln",
  network: "heat",
  heat_kWh_per_batch: 900,
  opens_h: 22,
  lasts_h: 10,
  power_kW: 100,
  weekdays: [1, 2, 3, 4, 5],
};
const cold: LoadOf<"cooling"> = {
  kind: "cooling",
  id: "cold",
  name: "Cold",
  cold_kW: constant,
  coldSupply_C: 7,
  electricChiller: { cop: 4 },
};
const heatOf = (load: Load, inputs: ReturnType<typeof loadInputs>) =>
  (resolveLoad(load, inputs) as FixedHeat).heat_kW;

describe("process heat and cooling", () => {
  it("stay as given, in arrays of their own", () => {
    const inputs = loadInputs(120, 90);
    const load: Load = { kind: "process-heat", id: "wash", name: "Wash", network: "heat", heat_kW: constant };
    expect(heatOf(load, inputs)).toEqual(inputs.profile);
    expect(heatOf(load, inputs)).not.toBe(inputs.profile);
    expect(resolveLoad(cold, inputs)).toMatchObject({ kind: "cold", electricLimit_kW: null });
    expect(resolveLoad({ ...cold, electricChiller: { cop: 3, existing_kW: 80 } }, inputs)).toMatchObject({
      electricLimit_kW: 80,
    });
  });

  it("refuse a missing profile", () => {
    expect(() => resolveLoad(cold, loadInputs(null, 90))).toThrow(/SERIES_LENGTH/);
  });
});

describe("steam", () => {
  // From the steam tables on IF97: 10 bar from feed at 80 °C takes 2441.4 kJ/kg = 678.2 kWh/t.
  it("takes the tabled heat per tonne", () => {
    const resolved = resolveLoad(steamLoad, loadInputs(1000, 190)) as FixedHeat;
    expectPrinted(resolved.heat_kW[0], "678.2");
    expect(resolved.basis).toContain(
      "1,000.0 kg/h of steam on average at 10.0 bar absolute, 2,441 kJ/kg from feed at 80 °C",
    );
  });

  it("counts gauge pressure from the atmosphere at the site", () => {
    const gauge = { ...steamLoad, pressure_bar: 10 - 1.01325, pressureIs: "gauge" as const };
    expectClose(heatOf(gauge, loadInputs(1000, 190))[0], heatOf(steamLoad, loadInputs(1000, 190))[0], 1e-9);
    // Standard atmosphere at 1000 m: 89.875 kPa.
    const high = { ...gauge, pressure_bar: 10 - 0.89875 };
    expectClose(
      heatOf(high, { ...loadInputs(1000, 190), elevation_m: 1000 })[0],
      heatOf(steamLoad, loadInputs(1000, 190))[0],
      1e-6,
    );
  });

  it("draws heat linear in the condensate returned, and less the more returns", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (condensateReturnShare) => {
        const at = (s: number) => heatOf({ ...steamLoad, condensateReturnShare: s }, loadInputs(1, 190))[0];
        const mixed = at(0) + condensateReturnShare * (at(1) - at(0));
        expectClose(at(condensateReturnShare), mixed, 1e-12);
        expect(at(condensateReturnShare)).toBeLessThanOrEqual(at(0));
      }),
      { numRuns: 20 },
    );
  });
});

describe("desalination", () => {
  // 1000 Btu/lb convention (El-Dessouky and Ettouney 2002, from memory, sure): GOR 8 is 80.8, 10 is 64.6 kWh/m³.
  it("takes the conventional heat of a performance ratio", () => {
    const of = (performanceRatio: number) =>
      waterHeat(
        { heatUse: { by: "performance-ratio", performanceRatio, convention: "2326-kJ-per-kg" } },
        network(70),
      ).months_kWh_m3[0]!;
    expectPrinted(of(8), "80.8");
    expectPrinted(of(10), "64.6");
    // MED of 1000 m³/d at GOR 10, worked: 2692 kW.
    expectPrinted((of(10) * 1000) / 24, "2692");
  });

  // Steam tables: latent heat at 70 °C is 2333.1 kJ/kg, so 233.3 kJ/kg at GOR 10.
  it("takes the latent heat at the steam, or at the network where no steam is given", () => {
    const heatUse = { by: "performance-ratio", performanceRatio: 10, convention: "latent-heat" } as const;
    expectPrinted(
      waterHeat({ heatUse: { ...heatUse, steam_C: 70 } }, network(90)).months_kWh_m3[0]! * 3.6,
      "233.3",
    );
    expectPrinted(waterHeat({ heatUse }, network(70)).months_kWh_m3[0]! * 3.6, "233.3");
  });

  // El-Dessouky and Ettouney 2002, from memory: plants of 20 to 24 stages from 90 to 110 °C have ratios near 8.
  it("gives flash stages the performance ratios of such plants, and more in a colder sea", () => {
    const ratio = (stages: number, top_C: number, last_C: number, losses_K = 4) =>
      2326 / flashHeat_kJ_kg({ stages, losses_K }, top_C, last_C);
    for (const [stages, top_C] of [
      [20, 90],
      [24, 106],
      [24, 110],
    ] as const) {
      expect(ratio(stages, top_C, 38)).toBeGreaterThan(7);
      expect(ratio(stages, top_C, 38)).toBeLessThan(11);
    }
    // By hand: 2333 kJ/kg at the mean of 70 °C, 60 K of range, 20 stages, 4 K lost: 2333·(1/20 + 4/60).
    expectPrinted(flashHeat_kJ_kg({ stages: 20, losses_K: 4 }, 100, 40), "272.2");
    expect(ratio(24, 106, 30)).toBeGreaterThan(ratio(24, 106, 40));
    // With endless stages and no losses a kg of steam would make all the water that it likes.
    expect(flashHeat_kJ_kg({ stages: 1e9, losses_K: 1e-9 }, 100, 40)).toBeLessThan(1e-5);
  });

  it("follows the sea by the month: by flash stages, by a given slope, or not at all", () => {
    const months_C = [18, 18, 19, 21, 24, 27, 29, 30, 29, 26, 23, 20];
    const flash = { by: "flash-stages", stages: 20, losses_K: 4, lastStageAboveSea_K: 8 } as const;
    const byFlash = waterHeat({ heatUse: flash, topBrine_C: 100, seawater: { months_C } }, network(120));
    months_C.forEach((sea_C, month) => {
      expectClose(byFlash.months_kWh_m3[month]! * 3.6, flashHeat_kJ_kg(flash, 100, sea_C + 8), 1e-9);
    });
    const given = { by: "specific-heat", heat_kWh_per_m3: 60 } as const;
    const slope = { months_C, reference_C: 20, heatChange_per_K: -0.01 };
    const bySlope = waterHeat({ heatUse: given, seawater: slope }, network(90));
    expectClose(bySlope.months_kWh_m3[7]!, 60 * 0.9, 1e-9);
    expectClose(bySlope.months_kWh_m3[11]!, 60, 1e-9);
    // Without a reference, the mean of the months is where the heat is as given.
    const mean = waterHeat({ heatUse: given, seawater: { months_C, heatChange_per_K: 0.01 } }, network(90));
    expectClose(mean.months_kWh_m3.reduce((total, heat) => total + heat, 0) / 12, 60, 1e-9);
    expect(new Set(waterHeat({ heatUse: given, seawater: { months_C } }, network(90)).months_kWh_m3)).toEqual(
      new Set([60]),
    );
  });

  it("needs its heat hotter than the top brine, by 5 K or what is said", () => {
    const load = (more: object) =>
      ({ kind: "desalination", heatUse: { by: "specific-heat" }, ...more }) as never;
    expect(loadSupply_C(load({ topBrine_C: 68 }), network(90))).toBe(73);
    expect(loadSupply_C(load({ topBrine_C: 68, topBrineApproach_K: 2 }), network(90))).toBe(70);
    expect(loadSupply_C(load({}), network(90))).toBe(90);
  });

  it("draws every day of the factory's clock its order exactly, whatever the clock does", () => {
    const weights = fc.array(fc.double({ min: 0, max: 5, noNaN: true }), { minLength: 24, maxLength: 24 });
    fc.assert(
      fc.property(clocks, weights, (clock, drawShares) => {
        fc.pre(Math.max(...drawShares) > 0.01);
        const calendar = calendarOf(clock);
        const orderMonths = [1, 1, 1, 1, 1, 2, 2, 2, 1, 1, 0.5, 1];
        const order = waterOrder_m3_h({ order_m3_per_day: 240, orderMonths, drawShares }, calendar);
        for (const { month, hours } of civilDays(calendar))
          expectClose(
            hours.reduce((total, i) => total + order[i], 0),
            240 * orderMonths[month - 1],
            1e-12,
          );
        expectClose(sum(order), 240 * (365 + 92 - 15), 1e-11);
      }),
      { numRuns: 30 },
    );
  });

  it("spreads a day evenly where its only drawing hour is the one missing in spring", () => {
    const drawShares = new Array<number>(24).fill(0);
    drawShares[2] = 1;
    const calendar = calendarOf(madridClock);
    const order = waterOrder_m3_h({ order_m3_per_day: 24, drawShares }, calendar);
    const spring = civilDays(calendar).find(({ hours }) => hours.length === 23);
    expect(spring?.month).toBe(3);
    for (const hour of spring!.hours) expectClose(order[hour], 24 / 23, 1e-12);
    expectClose(sum(order), 24 * 365, 1e-12);
  });

  it("keeps the plant's capacity and tank", () => {
    expect(resolveLoad(water, loadInputs(null, 70))).toMatchObject({
      kind: "water",
      capacity_m3_h: 60,
      tank_m3: 500,
      electricity_kWh_per_m3: 2,
    });
  });
});

describe("the factory's days", () => {
  it("are 365 and hold each hour of the year once", () => {
    fc.assert(
      fc.property(clocks, (clock) => {
        const days = civilDays(calendarOf(clock));
        expect(days.length).toBe(365);
        const hours = days.flatMap((day) => day.hours).sort((a, b) => a - b);
        expect(hours).toEqual(Array.from({ length: 8760 }, (_, i) => i));
      }),
    );
  });

  it("close the ring in the south: the last hour is the first of 1 January, with that day's weekday", () => {
    const [first] = civilDays(calendarOf(santiago));
    expect(first.hours[0]).toBe(8759);
    expect(first.hours.length).toBe(24);
    expect(first.weekday).toBe(1); // 1 January 2024 was a Monday
  });
});

describe("drying", () => {
  // Mass balance worked by hand: 100 kg from 80 to 13 %, 1000 kg from 87.5 to 10 %, wet basis.
  it("removes the water of the mass balance", () => {
    expectPrinted(100 * waterRemoved_kg_kg(0.8, 0.13), "77.01");
    expectPrinted(1000 * waterRemoved_kg_kg(0.875, 0.1), "861.1");
    expect(() => waterRemoved_kg_kg(0.1, 0.2)).toThrow(/OUT_OF_RANGE/);
  });

  // Own derivation from the ASHRAE equations: 3.13 MJ/kg for 60 °C and 80 % exhaust from 25 °C, 60 %.
  it("heats once-through air by the psychrometric floor times its losses", () => {
    const perKg_MJ = (heatLossShare: number) => {
      const load = {
        ...dryer,
        heatUse: { by: "air", air_C: 60, exhaustRelativeHumidity: 0.8, heatLossShare } as const,
      };
      return (heatOf(load, loadInputs(100, 70))[0] * 3.6) / 77.0115;
    };
    expectPrinted(perKg_MJ(0), "3.13");
    expectClose(perKg_MJ(0.5), 1.5 * perKg_MJ(0), 1e-12);
  });

  it("counts the electricity of fans: given per kg of water, or by pressure and efficiency", () => {
    const of = (heatUse: LoadOf<"drying">["heatUse"]) =>
      (resolveLoad({ ...dryer, heatUse }, loadInputs(100, 120)) as FixedHeat).electricity_kW?.[0];
    const given = { by: "specific-heat", heat_kWh_per_kgWater: 1.3 } as const;
    expect(of(given)).toBeUndefined();
    expectClose(of({ ...given, electricity_kWh_per_kgWater: 0.1 })!, 7.70115, 1e-5);
    const air = { by: "air", air_C: 60, exhaustRelativeHumidity: 0.8, heatLossShare: 0 } as const;
    // By hand: a kg of water takes 1/(W_exhaust − W_outside) = 87.3 kg of dry air, 0.9621 m³/kg at 60 °C, so
    // 84.0 m³; 500 Pa at 0.6 are 70.0 kJ or 0.0194 kWh.
    expectClose(of({ ...air, fan: { pressure_Pa: 500, efficiency: 0.6 } })! / 77.0115, 0.0194, 2e-4);
    const back = of({ ...air, recirculatedShare: 0.7, fan: { pressure_Pa: 500, efficiency: 0.6 } })!;
    expect(back).toBeGreaterThan(1.2 * of({ ...air, fan: { pressure_Pa: 500, efficiency: 0.6 } })!);
  });

  it("takes a given specific heat use per kg of water", () => {
    const load = { ...dryer, heatUse: { by: "specific-heat", heat_kWh_per_kgWater: 1.3 } as const };
    expectClose(heatOf(load, loadInputs(100, 70))[0], 77.0115 * 1.3, 1e-5);
  });

  it("needs more heat the wetter the outside air", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 35, noNaN: true }),
        fc.double({ min: 0.05, max: 0.9, noNaN: true }),
        (ambient_C, humidity_share) => {
          const heat = (rh: number) =>
            heatOf(dryer, {
              ...loadInputs(1, 70),
              weather: steadyWeather({ ambient_C, humidity_share: rh }),
            })[0];
          expect(heat(humidity_share + 0.1)).toBeGreaterThan(heat(humidity_share));
        },
      ),
      { numRuns: 15 },
    );
  });

  it("refuses to run on air too humid, and says so first as a problem; idle hours do not count", () => {
    const load = {
      ...dryer,
      heatUse: { by: "air", air_C: 32, exhaustRelativeHumidity: 0.7, heatLossShare: 0 } as const,
    };
    const inputs = { ...loadInputs(10, 70), weather: steadyWeather({ ambient_C: 30, humidity_share: 0.95 }) };
    expect(() => resolveLoad(load, inputs)).toThrow(/OUT_OF_RANGE/);
    const [problem] = checkLoad(load, inputs, "loads/0");
    expect(problem.code).toBe("LOAD_AIR_TOO_HUMID");
    expect(problem.message).toContain("8,760 h");
    const idle = { ...inputs, profile: constantYear(0) };
    expect(sum(heatOf(load, idle))).toBe(0);
    expect(checkLoad(load, idle, "loads/0")).toEqual([]);
  });
});

describe("batch drying", () => {
  it("takes the heat of its product's water, and tells the water removed in the year", () => {
    const { heat_kWh_per_batch: _, ...bare } = batch;
    const product = {
      name: "kelp",
      wet_kg: 1000,
      moistureIn: 0.875,
      moistureOut: 0.1,
      heat_kWh_per_kgWater: 1.1,
    };
    const load = { ...bare, power_kW: 200, product };
    const resolved = resolveLoad(load, loadInputs(null, 90));
    if (resolved.kind !== "batch") throw new Error(resolved.kind);
    // 861.1 kg of water by the mass balance above.
    expectClose(resolved.heat_kWh_per_batch, 861.111 * 1.1, 1e-3);
    expectClose(resolved.products![0]!.amount, (resolved.windows.length * 861.111) / 1000, 1e-3);
    expect(resolved.basis).toContain("1,000 kg of wet kelp, 861 kg of water at 1.10 kWh per kg");
    const codes = (other: object) =>
      checkLoad(
        { ...load, ...other } as Load,
        { profile: null, network: null, elevation_m: 0 },
        "loads/0",
      ).map(({ code, place }) => `${code} ${place.path}`);
    expect(codes({})).toEqual([]);
    expect(codes({ power_kW: 90 })).toEqual(["LOAD_BATCH_POWER loads/0/power_kW"]);
    expect(codes({ heat_kWh_per_batch: 5 })).toEqual(["LOAD_BATCH_HEAT loads/0/heat_kWh_per_batch"]);
    expect(codes({ product: undefined })).toEqual(["LOAD_BATCH_HEAT loads/0/heat_kWh_per_batch"]);
    expect(codes({ product: { ...product, moistureOut: 0.9 } })).toEqual([
      "LOAD_MOISTURE loads/0/product/moistureOut",
    ]);
  });

  it("opens one window a working day at the civil hour, and never on a closed day", () => {
    fc.assert(
      fc.property(clocks, fc.integer({ min: 0, max: 23 }), (clock, opens_h) => {
        const calendar = calendarOf(clock);
        const closed = [{ from: "12-20", to: "01-10" }];
        const windows = batchWindows({ ...batch, opens_h, closed }, calendar);
        const days = new Set(windows.map(({ opens }) => Math.floor(opens / 24)));
        expect(windows.length).toBeGreaterThan(230);
        expect(days.size).toBeGreaterThan(225);
        let moved = 0;
        for (const { opens } of windows) {
          if (calendar.civilHour[opens] !== opens_h) moved += 1;
          const date = calendar.civilMonth[opens] * 100 + calendar.civilDay[opens];
          expect(date > 110 && date < 1220).toBe(true);
        }
        expect(moved).toBeLessThanOrEqual(1); // only where spring leaves the opening hour out
      }),
      { numRuns: 40 },
    );
  });

  it("lets the last window of the year run over its end", () => {
    const windows = batchWindows({ ...batch, weekdays: [1, 2, 3, 4, 5, 6, 7] }, calendarOf(madridClock));
    expect(windows.length).toBe(365);
    expect(windows[364]).toEqual({ opens: 8758, lasts_h: 10 });
  });
});

describe("loadSupply_C(load, network)", () => {
  it("is what each kind needs", () => {
    expectPrinted(loadSupply_C(steamLoad, network(190))!, "179.89"); // steam tables at 10 bar
    expect(loadSupply_C(dryer, network(70))).toBe(60);
    expect(loadSupply_C(water, network(72))).toBe(72);
    expect(loadSupply_C(batch, network(85))).toBe(85);
    expect(loadSupply_C(cold, null)).toBeNull();
  });
});

describe("checkLoad(load, inputs, path)", () => {
  const codes = (load: Load, supply_C = 200) =>
    checkLoad(load, loadInputs(1, supply_C), "loads/0").map(({ code }) => code);

  it("is silent about sound loads", () => {
    for (const load of [steamLoad, water, dryer, batch, cold]) expect(codes(load)).toEqual([]);
  });

  it("finds each fault of the catalogue", () => {
    expect(codes({ ...steamLoad, pressure_bar: 0 })).toEqual(["LOAD_STEAM_PRESSURE"]);
    expect(
      codes({
        ...steamLoad,
        condensateReturn_C: 200,
        condensateReturnShare: 0.5,
        pressure_bar: 0.5,
        makeUp_C: 90,
      }),
    ).toEqual(["LOAD_CONDENSATE_TEMPERATURE", "LOAD_CONDENSATE_TEMPERATURE"]);
    expect(codes(steamLoad, 170)).toEqual(["LOAD_NETWORK_TOO_COLD"]);
    expect(codes({ ...dryer, moistureOut: 0.8 })).toEqual(["LOAD_MOISTURE"]);
    expect(codes({ ...water, drawShares: new Array<number>(24).fill(0), capacity_m3_h: 40 })).toEqual([
      "LOAD_DRAW_SHARES",
      "LOAD_WATER_CAPACITY",
    ]);
    const latent = { by: "performance-ratio", performanceRatio: 10, convention: "latent-heat" } as const;
    expect(codes({ ...water, heatUse: latent }, 390)).toEqual(["LOAD_STEAM_TEMPERATURE"]);
    expect(codes({ ...batch, power_kW: 80 })).toEqual(["LOAD_BATCH_POWER"]);
    expect(Object.keys(loadProblems)).toHaveLength(7);
  });
});
