import { media, volumetricCapacity_kJ_m3K } from "../storage/media.ts";
import type { FieldPipes } from "../study/schema/field-pipes.ts";

/** Supply and return pipe together, per m² of aperture, as one body at their mean temperature. */
export interface PipeBody {
  readonly loss_W_m2K: number;
  readonly capacity_Wh_m2K: number;
}

/** Surfaces in the open: ISO 6946, external surface resistance 0.04 m²·K/W. */
const surfaceInTheOpen_W_m2K = 25;

/** Plain carbon steel: density, and heat capacity at 400 K (Incropera and DeWitt, table A.1; from memory, sure). */
const steel = { density_kg_m3: 7854, cp_J_kgK: 487 };

/**
 * Loss of a metre of insulated pipe per kelvin between fluid and air, W/(m·K): 1 / (ln(r2/r1)/(2πλ) + 1/(2π·r2·h)),
 * r1 outside the pipe, r2 outside its insulation (ISO 12241; Incropera and DeWitt sec. 3.3). The fluid's own film
 * and the pipe's wall resist so little that they are left out; supports, valves and flanges must be put into the
 * length or the conductivity.
 */
export function pipeLoss_W_mK(pipe: {
  readonly outerDiameter_mm: number;
  readonly insulation_mm: number;
  readonly insulation_W_mK: number;
  readonly surface_W_m2K?: number;
}): number {
  const inner_m = pipe.outerDiameter_mm / 2000;
  const outer_m = inner_m + pipe.insulation_mm / 1000;
  const around = 2 * Math.PI;
  const through_mK_W = Math.log(outer_m / inner_m) / (around * pipe.insulation_W_mK);
  const off_mK_W = 1 / (around * outer_m * (pipe.surface_W_m2K ?? surfaceInTheOpen_W_m2K));
  return 1 / (through_mK_W + off_mK_W);
}

/** Heat capacity of a metre of steel pipe full of fluid, kJ/(m·K), without its insulation. */
export function pipeCapacity_kJ_mK(pipe: FieldPipes, fluid_C: number): number {
  const outer_m = pipe.outerDiameter_mm / 1000;
  const inner_m = outer_m - (2 * pipe.wall_mm) / 1000;
  const bore_m2 = (Math.PI / 4) * inner_m ** 2;
  const steel_m2 = (Math.PI / 4) * outer_m ** 2 - bore_m2;
  return (
    (steel_m2 * steel.density_kg_m3 * steel.cp_J_kgK) / 1000 +
    bore_m2 * fluidCapacity_kJ_m3K(pipe.fluid, fluid_C)
  );
}

/**
 * The pipes of a field per m² of aperture. Supply pipe at the collectors' outlet and return pipe at their inlet, of
 * equal length and make, lose and hold together what both would at the mean of the two.
 */
export function pipeBody(pipes: FieldPipes, meanFluid_C: number): PipeBody {
  const both_m_per_m2 = (2 * pipes.length_m) / pipes.forAperture_m2;
  return {
    loss_W_m2K: both_m_per_m2 * pipeLoss_W_mK(pipes),
    capacity_Wh_m2K: (both_m_per_m2 * pipeCapacity_kJ_mK(pipes, meanFluid_C)) / 3.6,
  };
}

/** Temperatures for which a fluid's properties are known, °C. */
export function pipeFluidRange_C(fluid: FieldPipes["fluid"]): readonly [number, number] {
  if (fluid === "air") return [-50, 700];
  const { least_C, most_C } = media[fluid === "water" ? "pressurised-water" : fluid];
  return [least_C, most_C];
}

/** Outside the range of its properties a fluid has those at the nearest end; studies that ask for that are refused. */
function fluidCapacity_kJ_m3K(fluid: FieldPipes["fluid"], fluid_C: number): number {
  const [least_C, most_C] = pipeFluidRange_C(fluid);
  const within_C = Math.min(most_C, Math.max(least_C, fluid_C));
  // Air as an ideal gas at 1 atm: so little that its pressure does not matter.
  if (fluid === "air") return (353 / (within_C + 273.15)) * 1.006;
  return volumetricCapacity_kJ_m3K(fluid === "water" ? "pressurised-water" : fluid, within_C);
}
