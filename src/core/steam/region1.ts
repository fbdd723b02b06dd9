import { ModelError } from "../errors.ts";
import { region1Table } from "./region1-table.ts";
import { saturationPressureAt_MPa } from "./region4.ts";
import { type WaterState, waterGasConstant_kJ_kgK } from "./water-state.ts";

/**
 * Liquid water by IAPWS R7-97(2012) region 1 (eq. 7 and table 3).
 *
 * Valid from 273.15 to 623.15 K and from the saturation pressure to 100 MPa.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function region1(temperature_K: number, pressure_MPa: number): WaterState {
  if (!(temperature_K >= 273.15 && temperature_K <= 623.15 && pressure_MPa <= 100))
    throw new ModelError("OUT_OF_RANGE", `liquid water at ${temperature_K} K and ${pressure_MPa} MPa`);
  // A saturation temperature computed from a pressure may miss that pressure by rounding.
  if (!(pressure_MPa >= saturationPressureAt_MPa(temperature_K) * (1 - 1e-8)))
    throw new ModelError("OUT_OF_RANGE", `liquid water at ${temperature_K} K below its saturation pressure`);

  const pi = pressure_MPa / 16.53;
  const tau = 1386 / temperature_K;
  const a = 7.1 - pi;
  const b = tau - 1.222;
  let gamma = 0;
  let gammaPi = 0;
  let gammaTau = 0;
  let gammaTauTau = 0;
  for (const [i, j, n] of region1Table) {
    const powers = n * a ** i * b ** j;
    gamma += powers;
    gammaPi -= (powers * i) / a;
    gammaTau += (powers * j) / b;
    gammaTauTau += (powers * j * (j - 1)) / (b * b);
  }
  const rt = waterGasConstant_kJ_kgK * temperature_K;
  return {
    volume_m3_kg: (rt * pi * gammaPi) / pressure_MPa / 1000,
    enthalpy_kJ_kg: rt * tau * gammaTau,
    entropy_kJ_kgK: waterGasConstant_kJ_kgK * (tau * gammaTau - gamma),
    cp_kJ_kgK: -waterGasConstant_kJ_kgK * tau * tau * gammaTauTau,
  };
}
