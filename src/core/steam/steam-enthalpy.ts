import { kelvinAtZero_C } from "../units.ts";
import {
  saturatedLiquidEnthalpy_kJ_kg,
  saturatedVapourEnthalpy_kJ_kg,
  saturationTemperature_C,
} from "./if97.ts";
import { region2 } from "./region2.ts";

const bar_per_MPa = 10;

/** Enthalpy of steam hotter than its boiling temperature by `superheat_K`. @throws ModelError OUT_OF_RANGE */
export function superheatedEnthalpy_kJ_kg(pressure_bar_abs: number, superheat_K: number): number {
  const temperature_C = saturationTemperature_C(pressure_bar_abs) + superheat_K;
  return region2(temperature_C + kelvinAtZero_C, pressure_bar_abs / bar_per_MPa).enthalpy_kJ_kg;
}

/** Enthalpy of steam of which a share by mass is vapour and the rest boiling water. @throws ModelError OUT_OF_RANGE */
export function wetSteamEnthalpy_kJ_kg(pressure_bar_abs: number, dryness: number): number {
  const boiling_C = saturationTemperature_C(pressure_bar_abs);
  const liquid = saturatedLiquidEnthalpy_kJ_kg(boiling_C);
  return liquid + dryness * (saturatedVapourEnthalpy_kJ_kg(boiling_C) - liquid);
}

/**
 * Share by mass of boiling water that turns into steam when its pressure falls, without heat in or out:
 * (h′(p) − h′(lower)) / (h″ − h′)(lower); 0 where the pressure does not fall.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function flashShare(pressure_bar_abs: number, lower_bar_abs: number): number {
  if (lower_bar_abs >= pressure_bar_abs) return 0;
  const lower_C = saturationTemperature_C(lower_bar_abs);
  const liquid = saturatedLiquidEnthalpy_kJ_kg(lower_C);
  const brought = saturatedLiquidEnthalpy_kJ_kg(saturationTemperature_C(pressure_bar_abs));
  return (brought - liquid) / (saturatedVapourEnthalpy_kJ_kg(lower_C) - liquid);
}
