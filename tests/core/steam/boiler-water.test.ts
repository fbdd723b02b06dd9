import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type BoilerWaterCase, boilerWater } from "../../../src/core/steam/boiler-water.ts";
import {
  liquidEnthalpy_kJ_kg,
  saturatedLiquidEnthalpy_kJ_kg,
  saturatedVapourEnthalpy_kJ_kg,
  saturationTemperature_C,
} from "../../../src/core/steam/if97.ts";
import {
  flashShare,
  superheatedEnthalpy_kJ_kg,
  wetSteamEnthalpy_kJ_kg,
} from "../../../src/core/steam/steam-enthalpy.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const vapour = (bar: number) => saturatedVapourEnthalpy_kJ_kg(saturationTemperature_C(bar));
const boiling = (bar: number) => saturatedLiquidEnthalpy_kJ_kg(saturationTemperature_C(bar));

const plain = (pressure_bar: number, more: Partial<BoilerWaterCase> = {}): BoilerWaterCase => ({
  pressure_bar,
  steam_kJ_kg: vapour(pressure_bar),
  condensateShare: 0.8,
  condensate_C: 80,
  makeUp_C: 15,
  condensateFlash: null,
  blowDown: null,
  vent: null,
  ...more,
});

const share = (most: number) => fc.double({ min: 0, max: most, noNaN: true });
const cases: fc.Arbitrary<BoilerWaterCase> = fc
  .record({
    pressure_bar: fc.double({ min: 3, max: 60, noNaN: true }),
    lower: fc.double({ min: 0.4, max: 0.9, noNaN: true }),
    condensateShare: share(1),
    condensate_C: fc.integer({ min: 20, max: 99 }),
    makeUp_C: fc.integer({ min: 5, max: 30 }),
    flashes: fc.constantFrom("no", "recovered", "vented"),
    blowDown: fc.option(
      fc.record({ shareOfFeed: fc.double({ min: 0.005, max: 0.15, noNaN: true }), flashes: fc.boolean() }),
    ),
    drain_C: fc.option(fc.integer({ min: 35, max: 95 })),
    vent: fc.option(share(0.02)),
  })
  .map(({ pressure_bar, lower, flashes, blowDown, drain_C, vent, ...rest }) => ({
    ...plain(pressure_bar),
    ...rest,
    condensateFlash:
      flashes === "no"
        ? null
        : { pressure_bar: Math.max(1.1, lower * pressure_bar), recovered: flashes === "recovered" },
    blowDown:
      blowDown === null
        ? null
        : {
            shareOfFeed: blowDown.shareOfFeed,
            flash_bar: blowDown.flashes ? Math.max(1.1, lower * pressure_bar) : null,
            drain_C,
          },
    vent: vent === null ? null : { shareOfFeed: vent, pressure_bar: 1.01325 },
  }));

describe("flashShare(pressure, lower)", () => {
  // Steam tables on IF97: (762.7 - 561.46) / 2163.4; checks.md 4.13, derived from 4.9 and 4.11.
  it("lets 9.30 % of boiling water of 10 bar flash at 3 bar", () => {
    expectPrinted(100 * flashShare(10, 3), "9.30");
  });

  it("keeps mass and heat of the water that flashes, and flashes nothing where the pressure does not fall", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        (high, low) => {
          const y = flashShare(high, low);
          if (low >= high) expect(y).toBe(0);
          else expectClose(y * vapour(low) + (1 - y) * boiling(low), boiling(high), 1e-9);
        },
      ),
    );
  });
});

describe("enthalpy of steam that is not dry and saturated", () => {
  // Steam tables at 10 bar: 2943.1 at 250 °C, 3051.6 at 300 °C to 0.2 kJ/kg, from memory (IAPWS-95 and IF97 differ
  // in the last digit; pre-1984 tables print 2942.6 and 3051.2). The release's own points hold region 2.
  it("is that of the steam tables for superheated steam of 10 bar", () => {
    const boiling_C = saturationTemperature_C(10);
    expect(Math.abs(superheatedEnthalpy_kJ_kg(10, 250 - boiling_C) - 2943.1)).toBeLessThan(0.2);
    expect(Math.abs(superheatedEnthalpy_kJ_kg(10, 300 - boiling_C) - 3051.6)).toBeLessThan(0.2);
  });

  it("meets that of dry saturated steam from both sides", () => {
    for (const bar of [1, 6, 10, 40]) {
      expectClose(superheatedEnthalpy_kJ_kg(bar, 0), vapour(bar), 1e-9);
      expectClose(wetSteamEnthalpy_kJ_kg(bar, 1), vapour(bar), 1e-12);
    }
  });

  // Steam tables at 10 bar: 762.7 + 0.95 · 2014.4 (checks.md 4.11).
  it("lacks the latent heat of the water in wet steam", () => {
    expect(Math.abs(wetSteamEnthalpy_kJ_kg(10, 0.95) - (762.7 + 0.95 * 2014.4))).toBeLessThan(0.1);
  });
});

describe("boilerWater(case)", () => {
  it("is steam less feed, to the last bit, where nothing is blown down, flashed or vented", () => {
    fc.assert(
      fc.property(fc.double({ min: 1.5, max: 60, noNaN: true }), share(1), (bar, returned) => {
        const back =
          (returned > 0 ? returned * liquidEnthalpy_kJ_kg(80, bar) : 0) +
          (returned < 1 ? (1 - returned) * liquidEnthalpy_kJ_kg(15, bar) : 0);
        const water = boilerWater(plain(bar, { condensateShare: returned }));
        expect(water.heat_kJ).toBe(vapour(bar) - back);
        expect(water.feed_kJ_kg).toBe(back);
      }),
    );
  });

  it("closes water and heat round the feed tank, round the boiler and round both", () => {
    fc.assert(
      fc.property(cases, (given) => {
        const w = boilerWater(given);
        const { pressure_bar, condensateFlash, blowDown } = given;
        const flash_bar = blowDown?.flash_bar ?? pressure_bar;
        // Feed tank: what comes in is feed water and vent.
        expectClose(
          w.returned_kg + w.makeUp_kg + w.flashRecovered_kg + w.blowDownFlash_kg,
          w.feed_kg + w.vented_kg,
          1e-12,
        );
        const in_kJ =
          w.returned_kg * liquidEnthalpy_kJ_kg(given.condensate_C, pressure_bar) +
          w.makeUp_kg * liquidEnthalpy_kJ_kg(given.makeUp_C, pressure_bar) +
          w.flashRecovered_kg * vapour(condensateFlash?.pressure_bar ?? 1) +
          (w.blowDownFlash_kg > 0 ? w.blowDownFlash_kg * vapour(flash_bar) : 0) +
          w.drainHeat_kJ;
        expectClose(w.feed_kg * w.feed_kJ_kg + w.vented_kg * w.vented_kJ_kg, in_kJ, 1e-9);
        // Boiler: feed and heat become steam and boiling blow-down.
        expectClose(w.feed_kg, 1 + w.blowDown_kg, 1e-12);
        expectClose(
          w.feed_kg * w.feed_kJ_kg + w.heat_kJ,
          given.steam_kJ_kg + w.blowDown_kg * boiling(pressure_bar),
          1e-9,
        );
        // Blow-down vessel.
        expectClose(w.blowDown_kg, w.blowDownFlash_kg + w.drain_kg, 1e-12);
        expect(w.blowDown_kg).toBeCloseTo((blowDown?.shareOfFeed ?? 0) * w.feed_kg, 12);
        // Condensate: what flashes was condensate.
        expectClose(w.returned_kg + w.flashRecovered_kg + w.flashVented_kg, given.condensateShare, 1e-12);
      }),
    );
  });

  it("needs more heat with blow-down, less again with its flash steam and its exchanger", () => {
    const heat = (blowDown: BoilerWaterCase["blowDown"]) => boilerWater(plain(10, { blowDown })).heat_kJ;
    const none = heat(null);
    const open = heat({ shareOfFeed: 0.05, flash_bar: null, drain_C: null });
    const flashed = heat({ shareOfFeed: 0.05, flash_bar: 1.2, drain_C: null });
    const both = heat({ shareOfFeed: 0.05, flash_bar: 1.2, drain_C: 40 });
    // By hand from the tables: 0.05/0.95 · (762.7 - 63.9) kJ with make-up of 15 °C at 10 bar.
    expect(Math.abs(open - none - (0.05 / 0.95) * (762.7 - 63.9))).toBeLessThan(0.1);
    expect(open).toBeGreaterThan(flashed);
    expect(flashed).toBeGreaterThan(both);
    expect(both).toBeGreaterThan(none);
  });

  it("saves with recovered flash steam what venting loses", () => {
    const heat = (recovered: boolean) =>
      boilerWater(plain(10, { condensateShare: 1, condensateFlash: { pressure_bar: 3, recovered } })).heat_kJ;
    // By hand: 0.0930 · (2724.9 - 63.9) kJ/kg.
    expect(Math.abs(heat(false) - heat(true) - 0.093 * (2724.9 - 63.9))).toBeLessThan(0.5);
  });
});
