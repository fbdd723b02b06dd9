import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { collectorYear } from "../../../src/core/collector/collector-year.ts";
import { improvements } from "../../../src/core/collector/improvements.ts";
import { pipeBody, pipeCapacity_kJ_mK, pipeLoss_W_mK } from "../../../src/core/collector/pipe-body.ts";
import { pipedHeat } from "../../../src/core/collector/piped-heat.ts";
import { constantYear, hoursPerYear, sum } from "../../../src/core/series.ts";
import type { FieldPipes } from "../../../src/core/study/schema/field-pipes.ts";
import type { Collector } from "../../../src/core/study/schema/study.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import { desert, desertSun, madeWeather, perfect } from "./support.ts";

const pipe: FieldPipes = {
  length_m: 150,
  forAperture_m2: 1000,
  outerDiameter_mm: 60.3,
  wall_mm: 2.9,
  insulation_mm: 60,
  insulation_W_mK: 0.045,
  fluid: "water",
};
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("pipeLoss_W_mK(pipe)", () => {
  // Çengel, Heat Transfer, ch. 3, example "Heat loss through an insulated steam pipe" (from memory, sure): pipe of 5.5 cm
  // outside, 3 cm of glass wool of 0.05 W/(m·K), 18 W/(m²·K) outside; printed R3 = 2.35 and R4 = 0.154 °C/W per metre.
  const steamPipe = { outerDiameter_mm: 55, insulation_mm: 30, insulation_W_mK: 0.05, surface_W_m2K: 18 };
  it("gives the printed resistances of a steam pipe's insulation and surface", () => {
    const all = 1 / pipeLoss_W_mK(steamPipe);
    const through = 1 / pipeLoss_W_mK({ ...steamPipe, surface_W_m2K: 1e12 });
    expectPrinted(through, "2.35");
    expectPrinted(all - through, "0.154");
  });

  // Incropera and DeWitt sec. 3.3, example of the critical radius (from memory, sure): tube of 5 mm radius, cellular
  // glass of 0.055 W/(m·K), 5 W/(m²·K) outside: the loss is greatest at the radius k/h = 0.011 m.
  it("loses most at the critical radius of insulation", () => {
    const at = (insulation_mm: number) =>
      pipeLoss_W_mK({ outerDiameter_mm: 10, insulation_mm, insulation_W_mK: 0.055, surface_W_m2K: 5 });
    expect(at(6)).toBeGreaterThan(at(5.9));
    expect(at(6)).toBeGreaterThan(at(6.1));
    expectPrinted(1 / at(0), "6.37");
  });

  // Apart from the closed form: thin shells from the pipe to the surface, each a plane of its own mean area.
  it("is the sum of thin shells' resistances", () => {
    fc.assert(
      fc.property(between(15, 600), between(1, 300), between(0.02, 0.2), (outerDiameter_mm, mm, k) => {
        const shells = 20_000;
        let resistance = 0;
        const first = outerDiameter_mm / 2000;
        const step = mm / 1000 / shells;
        for (let n = 0; n < shells; n += 1)
          resistance += step / (k * 2 * Math.PI * (first + (n + 0.5) * step));
        resistance += 1 / (25 * 2 * Math.PI * (first + mm / 1000));
        expectClose(
          pipeLoss_W_mK({ outerDiameter_mm, insulation_mm: mm, insulation_W_mK: k }),
          1 / resistance,
          1e-6,
        );
      }),
      { numRuns: 20 },
    );
  });
});

describe("pipeBody(pipes, meanFluid_C)", () => {
  // By hand: bore of 54.5 mm holds 2.333 L/m; water of 80 °C has 971.8 kg/m³ and 4.196 kJ/(kg·K) (steam tables):
  // 9.512 kJ/(m·K). Steel π/4·(60.3² − 54.5²) = 523.0 mm² times 7854 kg/m³ times 0.487: 2.000 kJ/(m·K).
  it("holds the water in the bore and the steel round it", () => {
    expect(pipeCapacity_kJ_mK(pipe, 80)).toBeCloseTo(11.51, 2);
  });

  it("counts supply and return pipe, and as many metres per m² whatever the field's size", () => {
    const body = pipeBody(pipe, 80);
    expectClose(body.loss_W_m2K, 0.3 * pipeLoss_W_mK(pipe), 1e-12);
    expectClose(body.capacity_Wh_m2K, (0.3 * pipeCapacity_kJ_mK(pipe, 80)) / 3.6, 1e-12);
  });

  it("has properties for every fluid, and next to none for air", () => {
    for (const fluid of ["water", "thermal-oil", "molten-salt"] as const)
      expect(pipeCapacity_kJ_mK({ ...pipe, fluid }, 290)).toBeGreaterThan(4);
    expect(
      pipeCapacity_kJ_mK({ ...pipe, fluid: "air" }, 290) - pipeCapacity_kJ_mK({ ...pipe, fluid: "air" }, 600),
    ).toBeLessThan(0.01);
  });
});

describe("pipedHeat(heat, ambient, mean fluid, body)", () => {
  const everyDay = (hours: Readonly<Record<number, number>>) =>
    Float64Array.from({ length: hoursPerYear }, (_, i) => hours[i % 24] ?? 0);

  // By hand: U = 0.1 W/(m²·K), C = 0.5 Wh/(m²·K), 100 °C over 20 °C: 8 W/m². Hot until noon ends, 22 h of cooling leave
  // 80·exp(−22·0.2) = 0.98 K, so the day's debt is 0.5·79.02 = 39.51 Wh/m².
  it("takes the loss, then the night's cooling, and lets the rest arrive", () => {
    const heat = everyDay({ 11: 0.03, 12: 0.6 });
    const piped = pipedHeat(heat, constantYear(20), 100, { loss_W_m2K: 0.1, capacity_Wh_m2K: 0.5 });
    const debt = 0.5 * 80 * (1 - Math.exp(-22 * 0.2));
    const day = 24 * 200;
    expect(piped.yield_kW_per_m2[day + 11]).toBe(0);
    expectClose(1000 * piped.yield_kW_per_m2[day + 12]!, 600 - 8 - (debt - 22), 1e-9);
    expectClose(piped.pipes_kWh_per_m2, (365 * 16) / 1000, 1e-12);
    expect(piped.runningHours).toBe(365);
  });

  // By hand: 4 W/m² cover half the loss of 8 W/m²: the pipes end at 20 + 4/0.1 = 60 °C.
  it("lets heat that is too little warm the pipes part of the way, and counts it as lost", () => {
    const heat = Float64Array.from({ length: hoursPerYear }, (_, i) =>
      i < 200 ? 0.004 : i === 200 ? 0.6 : 0,
    );
    const piped = pipedHeat(heat, constantYear(20), 100, { loss_W_m2K: 0.1, capacity_Wh_m2K: 0.5 });
    expectClose(piped.pipeWarmUp_kWh_per_m2, (0.5 * 40) / 1000, 1e-9);
    expectClose(piped.pipes_kWh_per_m2, (200 * 4 + 8) / 1000, 1e-12);
  });

  it("neither loses nor warms in air as hot as the fluid", () => {
    const piped = pipedHeat(everyDay({ 12: 0.5 }), constantYear(45), 40, {
      loss_W_m2K: 0.1,
      capacity_Wh_m2K: 0.5,
    });
    expectClose(piped.useful_kWh_per_m2, 365 * 0.5, 1e-12);
  });

  it("gives back all the heat it took: arrived + lost + warming, hour by hour within bounds", () => {
    fc.assert(
      fc.property(
        between(0.001, 2),
        between(0.001, 20),
        between(20, 350),
        fc.array(between(0, 0.9), { minLength: 5, maxLength: 31 }),
        (loss_W_m2K, capacity_Wh_m2K, mean_C, pattern) => {
          const heat = Float64Array.from({ length: hoursPerYear }, (_, i) =>
            i % 24 < 8 || i % 24 > 17 ? 0 : pattern[i % pattern.length]!,
          );
          const air = Float64Array.from({ length: hoursPerYear }, (_, i) => 15 + 20 * Math.sin(i / 900));
          const piped = pipedHeat(heat, air, mean_C, { loss_W_m2K, capacity_Wh_m2K });
          const into = sum(heat);
          const out = piped.useful_kWh_per_m2 + piped.pipes_kWh_per_m2 + piped.pipeWarmUp_kWh_per_m2;
          expect(Math.abs(into - out)).toBeLessThanOrEqual(1e-9 * Math.max(1, into));
          expectClose(sum(piped.yield_kW_per_m2), piped.useful_kWh_per_m2, 1e-9);
          for (let i = 0; i < hoursPerYear; i += 1) {
            const arrives = piped.yield_kW_per_m2[i]!;
            if (!(arrives >= 0 && arrives <= heat[i]! + 1e-15))
              expect.fail(`hour ${i}: ${arrives} of ${heat[i]}`);
          }
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe("a collector with pipes", () => {
  const climate = { latitude_deg: desert.latitude_deg, sun: desertSun, weather: madeWeather() };
  const plain: Collector = {
    ...perfect({ type: "two-axes" }),
    heatLoss: { by: "iso-9806", a1_W_m2K: 1, a2_W_m2K2: 0 },
  };
  const at = [{ collectorIn_C: 70, collectorOut_C: 90 }];
  const year = (changes: Partial<Collector>) =>
    collectorYear({ ...plain, ...changes }, climate, at).levels[0]!;

  it("delivers what its pipes leave, and everything where it has none", () => {
    const none = year({});
    const piped = year({ pipes: pipe });
    expect(none.losses.pipes).toBe(0);
    expect(none.losses.pipeWarmUp).toBe(0);
    expect(piped.losses.pipes).toBeGreaterThan(0);
    expect(piped.losses.pipeWarmUp).toBeGreaterThan(0);
    expectClose(
      none.useful_kWh_per_m2,
      piped.useful_kWh_per_m2 + piped.losses.pipes + piped.losses.pipeWarmUp,
      1e-12,
    );
  });

  it("keeps the pipes of the whole field warm, also for the share of it that is in use", () => {
    const whole = year({ pipes: pipe });
    const half = year({ pipes: pipe, availability: 0.5 });
    expectClose(half.losses.pipes, whole.losses.pipes, 1e-2);
    expect(half.useful_kWh_per_m2).toBeLessThan(0.5 * whole.useful_kWh_per_m2);
  });

  it("pumps in hours whose heat only warms the pipes", () => {
    const cold = year({ pipes: { ...pipe, length_m: 3000 }, parasitic_W_m2: 10 });
    expect(cold.parasitic_kWh_per_m2).toBe(year({ parasitic_W_m2: 10 }).parasitic_kWh_per_m2);
    expect(cold.runningHours).toBeLessThan(year({}).runningHours);
  });

  it("can be improved by insulation that conducts a tenth less, which brings heat", () => {
    const found = (collector: Collector) => improvements(collector).find(({ id }) => id === "pipeInsulation");
    expect(found(plain)).toBeUndefined();
    const better = found({ ...plain, pipes: pipe })!;
    expectClose(better.changed.pipes!.insulation_W_mK, 0.9 * pipe.insulation_W_mK, 1e-12);
    expect(year(better.changed).useful_kWh_per_m2).toBeGreaterThan(year({ pipes: pipe }).useful_kWh_per_m2);
  });

  it("loses less with thicker insulation", () => {
    const lost = (insulation_mm: number) => year({ pipes: { ...pipe, insulation_mm } }).losses.pipes;
    expect(lost(100)).toBeLessThan(lost(50));
    expect(lost(50)).toBeLessThan(lost(20));
  });
});
