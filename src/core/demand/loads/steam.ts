import { standardPressure_Pa } from "../../air/psychrometrics.ts";
import { hoursPerYear, sum } from "../../series.ts";
import { type BoilerWater, boilerWater } from "../../steam/boiler-water.ts";
import {
  liquidEnthalpy_kJ_kg,
  saturatedVapourEnthalpy_kJ_kg,
  saturationTemperature_C,
} from "../../steam/if97.ts";
import { superheatedEnthalpy_kJ_kg, wetSteamEnthalpy_kJ_kg } from "../../steam/steam-enthalpy.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import { kJ_per_kWh } from "../../units.ts";
import type { FixedHeat } from "../resolved-load.ts";
import { figure } from "./figure.ts";
import { type LoadInputs, profileOf } from "./load-inputs.ts";

type SteamLoad = LoadOf<"steam">;
const pascal_per_bar = 1e5;

/**
 * Heat of steam from what comes back to the feed tank, by IAPWS-IF97: dry saturated steam, superheated or
 * wet, with blow-down, flash and vent as far as the load gives them (docs/methods/steam.md).
 *
 * The boiler's own losses and leaks are left out. Gauge pressures count from the standard atmosphere at
 * the site's elevation.
 *
 * @throws ModelError SERIES_LENGTH, OUT_OF_RANGE (see checkLoad)
 */
export function steam(load: SteamLoad, inputs: LoadInputs): FixedHeat {
  const flow_kg_h = profileOf(load.id, inputs.profile);
  const { pressure_bar_abs, feed_C, heat_kJ_kg, water } = steamHeat(load, inputs.elevation_m);
  const mean_kg_h = sum(flow_kg_h) / hoursPerYear;
  return {
    kind: "fixed-heat",
    id: load.id,
    network: load.network,
    heat_kW: flow_kg_h.map((flow) => (flow * heat_kJ_kg) / kJ_per_kWh),
    electricity_kW: null,
    products: [{ what: "steam made", amount: sum(flow_kg_h) / 1000, unit: "t" }],
    basis:
      `${figure(mean_kg_h, 1)} kg/h of steam on average at ${figure(pressure_bar_abs, 1)} bar absolute${quality(load)}, ` +
      `${figure(heat_kJ_kg)} kJ/kg from feed at ${figure(feed_C)} °C (IAPWS-IF97)${waterWords(load, water)}.`,
  };
}

/** Absolute pressure of the load's steam, bar. */
export function steamPressure_bar(
  load: Pick<SteamLoad, "pressure_bar" | "pressureIs">,
  elevation_m: number,
): number {
  if (load.pressureIs === "absolute") return load.pressure_bar;
  return load.pressure_bar + standardPressure_Pa(elevation_m) / pascal_per_bar;
}

/** Heat per kg of steam, the temperature of its mixed feed water, and the flows round the boiler. */
export function steamHeat(load: Omit<SteamLoad, "flow_kg_h">, elevation_m: number) {
  const pressure_bar_abs = steamPressure_bar(load, elevation_m);
  const absolute = (pressure_bar: number) =>
    steamPressure_bar({ pressure_bar, pressureIs: load.pressureIs }, elevation_m);
  const { condensateFlash, blowDown, ventShareOfFeed } = load;
  const water = boilerWater({
    pressure_bar: pressure_bar_abs,
    steam_kJ_kg: steamEnthalpy_kJ_kg(load, pressure_bar_abs),
    condensateShare: load.condensateReturnShare,
    condensate_C: load.condensateReturn_C,
    makeUp_C: load.makeUp_C,
    condensateFlash:
      condensateFlash === undefined
        ? null
        : {
            pressure_bar: absolute(condensateFlash.pressure_bar),
            recovered: condensateFlash.steamIs === "recovered",
          },
    blowDown:
      blowDown === undefined
        ? null
        : {
            shareOfFeed: blowDown.shareOfFeed,
            flash_bar: blowDown.flashPressure_bar === undefined ? null : absolute(blowDown.flashPressure_bar),
            drain_C: blowDown.drain_C ?? null,
          },
    vent:
      ventShareOfFeed === undefined
        ? null
        : {
            shareOfFeed: ventShareOfFeed,
            pressure_bar: standardPressure_Pa(elevation_m) / pascal_per_bar,
          },
  });
  return {
    pressure_bar_abs,
    feed_C: liquidTemperature_C(water.feed_kJ_kg, pressure_bar_abs),
    heat_kJ_kg: water.heat_kJ,
    water,
  };
}

function steamEnthalpy_kJ_kg(
  { superheat_K, dryness }: Pick<SteamLoad, "superheat_K" | "dryness">,
  pressure_bar: number,
): number {
  if (superheat_K !== undefined && superheat_K > 0)
    return superheatedEnthalpy_kJ_kg(pressure_bar, superheat_K);
  if (dryness !== undefined && dryness < 1) return wetSteamEnthalpy_kJ_kg(pressure_bar, dryness);
  return saturatedVapourEnthalpy_kJ_kg(saturationTemperature_C(pressure_bar));
}

function quality({ superheat_K, dryness }: SteamLoad): string {
  if (superheat_K !== undefined && superheat_K > 0) return ` and ${figure(superheat_K)} K of superheat`;
  return dryness !== undefined && dryness < 1 ? ` and ${figure(100 * dryness, 1)} % dry` : "";
}

function waterWords({ condensateFlash, blowDown, ventShareOfFeed }: SteamLoad, water: BoilerWater): string {
  const percent = (share: number) => `${figure(100 * share, 1)} %`;
  return [
    condensateFlash === undefined
      ? ""
      : `; ${percent(water.flashShare)} of the condensate flashes and is ${condensateFlash.steamIs}`,
    blowDown === undefined
      ? ""
      : `; ${percent(blowDown.shareOfFeed)} of the feed is blown down${water.blowDownFlash_kg > 0 ? `, of which ${percent(water.blowDownFlash_kg / water.blowDown_kg)} flashes back` : ""}`,
    ventShareOfFeed === undefined ? "" : `; ${percent(ventShareOfFeed)} of the feed is vented`,
  ].join("");
}

function liquidTemperature_C(enthalpy_kJ_kg: number, pressure_bar: number): number {
  let low = 0;
  let high = saturationTemperature_C(pressure_bar);
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (liquidEnthalpy_kJ_kg(middle, pressure_bar) > enthalpy_kJ_kg) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
