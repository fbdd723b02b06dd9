/**
 * Water and steam in plant units (°C, bar absolute, kJ/kg), by IAPWS R7-97(2012) regions 1, 2 and 4.
 * Saturated enthalpies hold from 0 to 350 °C (0.00611 to 165.29 bar): beyond lies region 3.
 * Every function throws ModelError OUT_OF_RANGE outside its range.
 */
import { ModelError } from "../errors.ts";
import { kelvinAtZero_C } from "../units.ts";
import { region1 } from "./region1.ts";
import { region2 } from "./region2.ts";
import { saturationPressureAt_MPa, saturationTemperatureAt_K } from "./region4.ts";

const bar_per_MPa = 10;
const atmosphere_bar = 1.01325;

/** Boiling temperature, °C, under an absolute pressure of 0.00612 to 220.64 bar. */
export function saturationTemperature_C(pressure_bar_abs: number): number {
  return saturationTemperatureAt_K(pressure_bar_abs / bar_per_MPa) - kelvinAtZero_C;
}

/** Boiling pressure, bar absolute, at 0 to 373.946 °C. */
export function saturationPressure_bar(temperature_C: number): number {
  return saturationPressureAt_MPa(temperature_C + kelvinAtZero_C) * bar_per_MPa;
}

/** Enthalpy of liquid water that does not boil at the given absolute pressure, 0 to 350 °C. */
export function liquidEnthalpy_kJ_kg(temperature_C: number, pressure_bar: number): number {
  return region1(temperature_C + kelvinAtZero_C, pressure_bar / bar_per_MPa).enthalpy_kJ_kg;
}

/** Enthalpy of boiling water, 0 to 350 °C. */
export function saturatedLiquidEnthalpy_kJ_kg(temperature_C: number): number {
  const temperature_K = saturatedTemperature_K(temperature_C);
  return region1(temperature_K, saturationPressureAt_MPa(temperature_K)).enthalpy_kJ_kg;
}

/** Enthalpy of dry saturated steam, 0 to 350 °C. */
export function saturatedVapourEnthalpy_kJ_kg(temperature_C: number): number {
  const temperature_K = saturatedTemperature_K(temperature_C);
  return region2(temperature_K, saturationPressureAt_MPa(temperature_K)).enthalpy_kJ_kg;
}

/** Heat of evaporation, 0 to 350 °C. */
export function latentHeat_kJ_kg(temperature_C: number): number {
  return saturatedVapourEnthalpy_kJ_kg(temperature_C) - saturatedLiquidEnthalpy_kJ_kg(temperature_C);
}

/** Density of liquid water; where no pressure is given, at 1 atm, or boiling above 100 °C. */
export function waterDensity_kg_m3(temperature_C: number, pressure_bar?: number): number {
  return 1 / liquid(temperature_C, pressure_bar).volume_m3_kg;
}

/** Isobaric heat capacity of liquid water; where no pressure is given, at 1 atm, or boiling above 100 °C. */
export function waterCp_kJ_kgK(temperature_C: number, pressure_bar?: number): number {
  return liquid(temperature_C, pressure_bar).cp_kJ_kgK;
}

function liquid(temperature_C: number, pressure_bar: number | undefined) {
  const pressure = pressure_bar ?? Math.max(atmosphere_bar, saturationPressure_bar(temperature_C));
  return region1(temperature_C + kelvinAtZero_C, pressure / bar_per_MPa);
}

function saturatedTemperature_K(temperature_C: number): number {
  const temperature_K = temperature_C + kelvinAtZero_C;
  if (!(temperature_K >= 273.15 && temperature_K <= 623.15))
    throw new ModelError("OUT_OF_RANGE", `saturated water at ${temperature_C} °C; 0 to 350 °C is covered`);
  return temperature_K;
}
