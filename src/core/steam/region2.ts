import { ModelError } from "../errors.ts";
import { region2IdealTable, region2ResidualTable } from "./region2-table.ts";
import { saturationPressureAt_MPa } from "./region4.ts";
import { type WaterState, waterGasConstant_kJ_kgK } from "./water-state.ts";

/**
 * Steam by IAPWS R7-97(2012) region 2 (eq. 15 to 17, tables 13 and 14).
 *
 * Valid from 273.15 to 1073.15 K and from above 0 to the saturation pressure, above 623.15 K to the
 * boundary with region 3 (eq. 5), above 863.15 K to 100 MPa.
 *
 * @throws ModelError OUT_OF_RANGE
 */
export function region2(temperature_K: number, pressure_MPa: number): WaterState {
  if (!(temperature_K >= 273.15 && temperature_K <= 1073.15 && pressure_MPa > 0))
    throw new ModelError("OUT_OF_RANGE", `steam at ${temperature_K} K and ${pressure_MPa} MPa`);
  // A saturation temperature computed from a pressure may miss that pressure by rounding.
  if (!(pressure_MPa <= highestPressure_MPa(temperature_K) * (1 + 1e-8)))
    throw new ModelError(
      "OUT_OF_RANGE",
      `steam at ${temperature_K} K above the pressure at which it is steam`,
    );

  const pi = pressure_MPa;
  const tau = 540 / temperature_K;
  let gamma = Math.log(pi);
  let gammaTau = 0;
  let gammaTauTau = 0;
  for (const [j, n] of region2IdealTable) {
    const power = n * tau ** j;
    gamma += power;
    gammaTau += (power * j) / tau;
    gammaTauTau += (power * j * (j - 1)) / (tau * tau);
  }
  let gammaPi = 1 / pi;
  const b = tau - 0.5;
  for (const [i, j, n] of region2ResidualTable) {
    const powers = n * pi ** i * b ** j;
    gamma += powers;
    gammaPi += (powers * i) / pi;
    gammaTau += (powers * j) / b;
    gammaTauTau += (powers * j * (j - 1)) / (b * b);
  }
  const rt = waterGasConstant_kJ_kgK * temperature_K;
  return {
    volume_m3_kg: (rt * gammaPi) / 1000,
    enthalpy_kJ_kg: rt * tau * gammaTau,
    entropy_kJ_kgK: waterGasConstant_kJ_kgK * (tau * gammaTau - gamma),
    cp_kJ_kgK: -waterGasConstant_kJ_kgK * tau * tau * gammaTauTau,
  };
}

function highestPressure_MPa(temperature_K: number): number {
  if (temperature_K <= 623.15) return saturationPressureAt_MPa(temperature_K);
  if (temperature_K > 863.15) return 100;
  // Eq. 5, the boundary between regions 2 and 3; coefficients from memory, held by its check point.
  return 348.05185628969 - 1.1671859879975 * temperature_K + 0.10192970039326e-2 * temperature_K ** 2;
}
