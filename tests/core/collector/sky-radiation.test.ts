import { describe, expect, it } from "vitest";
import { heatLoss_W_m2, lossFunction, seesSky } from "../../../src/core/collector/heat-loss.ts";
import { dewPoint_C, skyEmissivity, skyExcess_W_m2 } from "../../../src/core/collector/sky-radiation.ts";
import { usefulHeat } from "../../../src/core/collector/useful-heat.ts";
import { constantYear } from "../../../src/core/series.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import { madeWeather } from "./support.ts";

const plain = { by: "iso-9806" as const, a1_W_m2K: 3, a2_W_m2K2: 0.01 };

describe("heat radiation of the sky", () => {
  // ASHRAE Fundamentals, psychrometric chart (from memory): 25 °C at 50 % has its dew point at 13.9 °C.
  it("knows the dew point", () => {
    expectPrinted(dewPoint_C(25, 0.5), "13.9");
    expectClose(dewPoint_C(10, 1), 10, 1e-12);
  });

  // Martin & Berdahl 1984 (from memory), at a dew point of 0 °C and 1000 hPa: 0.711, at midnight 0.013 more.
  it("gives the emissivity of the clear sky", () => {
    expectPrinted(skyEmissivity(0, 6, 100_000), "0.711");
    expectPrinted(skyEmissivity(0, 0, 100_000), "0.724");
    expectPrinted(skyEmissivity(10, 6, 100_000), "0.774");
  });

  // D&B sec. 3.9 (from memory): the sky is some 5 K colder than the air in hot moist climates, 30 K in cold dry ones.
  it("is 5 to 30 K colder than the air, least where it is hot and moist", () => {
    const colder = (air_C: number, humidity: number) =>
      (air_C + 273.15) * (1 - skyEmissivity(dewPoint_C(air_C, humidity), 6, 100_000) ** 0.25);
    expect(colder(30, 0.85)).toBeGreaterThan(4);
    expect(colder(30, 0.85)).toBeLessThan(colder(20, 0.5));
    expect(colder(20, 0.5)).toBeLessThan(colder(0, 0.3));
    expect(colder(0, 0.3)).toBeLessThan(31);
  });

  // ISO 9806:2017 cl. 24 (from memory): q = … + a4·(E_L − σ·Ta⁴) − a7·u′·(E_L − σ·Ta⁴), u′ = u − 3 m/s.
  it("adds a4 and a7 to the loss under a cold sky", () => {
    const at = (wind: number, more: object, sky?: number) =>
      lossFunction({ ...plain, ...more })(70, 20, wind, 800, sky);
    const before = 3 * 50 + 0.01 * 2500;
    expectClose(at(3, { a4: 0.5 }, -100), before + 50, 1e-12);
    expectClose(at(5, { a7_s_m: 0.02 }, -100), before - 0.02 * 2 * 100, 1e-12);
    expectClose(at(3, { a4: 0.5 }), before, 1e-12);
    expect(heatLoss_W_m2({ ...plain, a4: 0.5 }, 70, { ambient_C: 20, wind_m_s: 3, onAperture_W_m2: 0 })).toBe(
      before,
    );
    expect(seesSky(plain)).toBe(false);
    expect(seesSky({ ...plain, a7_s_m: 0.01 })).toBe(true);
  });

  it("takes heat from a year's yield in proportion to a4", () => {
    const weather = madeWeather();
    const light = { absorbed_W_m2: constantYear(700), onAperture_W_m2: constantYear(900) };
    const useful = (a4: number) =>
      usefulHeat({ heatLoss: { ...plain, a4 } }, light, weather, 70).useful_kWh_per_m2;
    const sky_kWh = skyExcess_W_m2(weather).reduce((sum, value) => sum + value, 0) / 1000;
    expect(sky_kWh).toBeLessThan(-300);
    expectClose(useful(0.4) - useful(0), 0.4 * sky_kWh, 1e-9);
  });
});
