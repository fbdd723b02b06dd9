import {
  liquidEnthalpy_kJ_kg,
  saturatedLiquidEnthalpy_kJ_kg,
  saturatedVapourEnthalpy_kJ_kg,
  saturationTemperature_C,
} from "./if97.ts";
import { flashShare } from "./steam-enthalpy.ts";

/** Water and steam round a boiler; pressures are absolute, shares by mass. */
export interface BoilerWaterCase {
  readonly pressure_bar: number;
  /** Enthalpy of the steam that is delivered. */
  readonly steam_kJ_kg: number;
  /** Of the steam delivered, what comes back as condensate, before any of it flashes. */
  readonly condensateShare: number;
  /** As it reaches the feed tank. */
  readonly condensate_C: number;
  readonly makeUp_C: number;
  /** Condensate leaves the process boiling at the steam's pressure and flashes at this one; null: it does not. */
  readonly condensateFlash: { readonly pressure_bar: number; readonly recovered: boolean } | null;
  /** Share of feed water; its flash steam goes to the feed, its water may warm make-up down to `drain_C`. */
  readonly blowDown: {
    readonly shareOfFeed: number;
    readonly flash_bar: number | null;
    readonly drain_C: number | null;
  } | null;
  /** Steam let off from the feed tank or deaerator, as a share of feed water, at this pressure. */
  readonly vent: { readonly shareOfFeed: number; readonly pressure_bar: number } | null;
}

/** Flows in kg per kg of steam delivered, heat in kJ per kg of it. */
export interface BoilerWater {
  readonly heat_kJ: number;
  readonly feed_kg: number;
  readonly feed_kJ_kg: number;
  readonly makeUp_kg: number;
  /** Condensate that comes back as water. */
  readonly returned_kg: number;
  /** Of the condensate: its share that flashes, 0 to 1. */
  readonly flashShare: number;
  /** Flash steam of the condensate: to the feed, and let off. */
  readonly flashRecovered_kg: number;
  readonly flashVented_kg: number;
  readonly blowDown_kg: number;
  readonly blowDownFlash_kg: number;
  readonly drain_kg: number;
  readonly drain_kJ_kg: number;
  readonly vented_kg: number;
  readonly vented_kJ_kg: number;
  /** From the blow-down's water into make-up. */
  readonly drainHeat_kJ: number;
}

/**
 * Mass and heat balance of a boiler house: heat = steam + drain + vent − what comes back − make-up.
 *
 * Steady flows. Steam that the boiler itself sends to the feed tank passes in a circle and is left out,
 * so blow-down and vent count from the steam delivered and the blow-down. Losses of boiler and pipes
 * and the work of the feed pump beyond the enthalpy at pressure are left out.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function boilerWater(given: BoilerWaterCase): BoilerWater {
  const { pressure_bar, steam_kJ_kg, condensateShare, condensateFlash, blowDown, vent } = given;
  const flashed = condensateFlash === null ? 0 : flashShare(pressure_bar, condensateFlash.pressure_bar);
  const flash_kg = condensateShare * flashed;
  const flashRecovered_kg = condensateFlash?.recovered === true ? flash_kg : 0;
  const returned_kg = condensateShare - flash_kg;

  const blowDown_kg = blowDown === null ? 0 : blowDown.shareOfFeed / (1 - blowDown.shareOfFeed);
  const blowDown_bar = blowDown?.flash_bar ?? pressure_bar;
  const blowDownFlash_kg = blowDown_kg * flashShare(pressure_bar, blowDown_bar);
  const drain_kg = blowDown_kg - blowDownFlash_kg;
  const hotDrain_kJ_kg = blowDown === null ? 0 : boilingWater_kJ_kg(blowDown_bar);
  const drain_kJ_kg =
    blowDown === null || blowDown.drain_C === null
      ? hotDrain_kJ_kg
      : liquidEnthalpy_kJ_kg(blowDown.drain_C, blowDown_bar);
  const feed_kg = 1 + blowDown_kg;
  const vented_kg = vent === null ? 0 : vent.shareOfFeed * feed_kg;
  const vented_kJ_kg = vent === null ? 0 : vapour_kJ_kg(vent.pressure_bar);

  const makeUp_kg = 1 - returned_kg + (drain_kg + vented_kg - flashRecovered_kg);
  // A stream that does not flow has no say in the range.
  const condensate_kJ =
    returned_kg > 0 ? returned_kg * liquidEnthalpy_kJ_kg(given.condensate_C, pressure_bar) : 0;
  const makeUp_kJ = makeUp_kg > 0 ? makeUp_kg * liquidEnthalpy_kJ_kg(given.makeUp_C, pressure_bar) : 0;
  const flash_kJ =
    condensateFlash === null ? 0 : flashRecovered_kg * vapour_kJ_kg(condensateFlash.pressure_bar);
  const back_kJ = condensate_kJ + makeUp_kJ + flash_kJ;
  const lost_kJ = drain_kg * drain_kJ_kg + vented_kg * vented_kJ_kg;
  const drainHeat_kJ = drain_kg * (hotDrain_kJ_kg - drain_kJ_kg);
  const blowDownFlash_kJ = blowDownFlash_kg > 0 ? blowDownFlash_kg * vapour_kJ_kg(blowDown_bar) : 0;
  return {
    heat_kJ: steam_kJ_kg - back_kJ + lost_kJ,
    feed_kg,
    feed_kJ_kg: (back_kJ + (blowDownFlash_kJ + drainHeat_kJ - vented_kg * vented_kJ_kg)) / feed_kg,
    makeUp_kg,
    returned_kg,
    flashShare: flashed,
    flashRecovered_kg,
    flashVented_kg: flash_kg - flashRecovered_kg,
    blowDown_kg,
    blowDownFlash_kg,
    drain_kg,
    drain_kJ_kg,
    vented_kg,
    vented_kJ_kg,
    drainHeat_kJ,
  };
}

function boilingWater_kJ_kg(pressure_bar: number): number {
  return saturatedLiquidEnthalpy_kJ_kg(saturationTemperature_C(pressure_bar));
}

function vapour_kJ_kg(pressure_bar: number): number {
  return saturatedVapourEnthalpy_kJ_kg(saturationTemperature_C(pressure_bar));
}
