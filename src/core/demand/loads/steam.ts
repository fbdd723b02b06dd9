import { standardPressure_Pa } from "../../air/psychrometrics.ts";
import { hoursPerYear, sum } from "../../series.ts";
import {
  liquidEnthalpy_kJ_kg,
  saturatedVapourEnthalpy_kJ_kg,
  saturationTemperature_C,
} from "../../steam/if97.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import { kJ_per_kWh } from "../../units.ts";
import type { FixedHeat } from "../resolved-load.ts";
import { figure } from "./figure.ts";
import { type LoadInputs, profileOf } from "./load-inputs.ts";

type SteamLoad = LoadOf<"steam">;
const pascal_per_bar = 1e5;

/**
 * Heat of dry saturated steam from its feed water, m·(h″ − h_feed) by IAPWS-IF97.
 *
 * Blow-down, wetness, superheat and the boiler's own losses are left out. Gauge pressure counts from
 * the standard atmosphere at the site's elevation.
 *
 * @throws ModelError SERIES_LENGTH, OUT_OF_RANGE (see checkLoad)
 */
export function steam(load: SteamLoad, inputs: LoadInputs): FixedHeat {
  const flow_kg_h = profileOf(load.id, inputs.profile);
  const { pressure_bar_abs, feed_C, heat_kJ_kg } = steamHeat(load, inputs.elevation_m);
  const mean_kg_h = sum(flow_kg_h) / hoursPerYear;
  return {
    kind: "fixed-heat",
    id: load.id,
    network: load.network,
    heat_kW: flow_kg_h.map((flow) => (flow * heat_kJ_kg) / kJ_per_kWh),
    electricity_kW: null,
    basis:
      `${figure(mean_kg_h, 1)} kg/h of steam on average at ${figure(pressure_bar_abs, 1)} bar absolute, ` +
      `${figure(heat_kJ_kg)} kJ/kg from feed at ${figure(feed_C)} °C (IAPWS-IF97).`,
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

/** Heat per kg of steam, and the temperature of its mixed feed water. */
export function steamHeat(load: Omit<SteamLoad, "flow_kg_h">, elevation_m: number) {
  const pressure_bar_abs = steamPressure_bar(load, elevation_m);
  const returned = load.condensateReturnShare;
  // A stream that does not flow has no say in the range.
  const condensate =
    returned > 0 ? returned * liquidEnthalpy_kJ_kg(load.condensateReturn_C, pressure_bar_abs) : 0;
  const makeUp = returned < 1 ? (1 - returned) * liquidEnthalpy_kJ_kg(load.makeUp_C, pressure_bar_abs) : 0;
  const feed_kJ_kg = condensate + makeUp;
  const vapour_kJ_kg = saturatedVapourEnthalpy_kJ_kg(saturationTemperature_C(pressure_bar_abs));
  return {
    pressure_bar_abs,
    feed_C: liquidTemperature_C(feed_kJ_kg, pressure_bar_abs),
    heat_kJ_kg: vapour_kJ_kg - feed_kJ_kg,
  };
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
