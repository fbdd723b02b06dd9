import type { Optics } from "../study/schema/collector.ts";
import { interceptFactor } from "./intercept.ts";

/**
 * Optical efficiency η0 of a clean new collector, beam at normal incidence on the aperture: as measured, or
 * τⁿ·ρ·γ·α of cover film (n passes), mirror, intercept and absorber (Duffie & Beckman, Solar Engineering of
 * Thermal Processes, ch. 7). By shape γ comes from the mirror's errors and what lies in the receiver's shadow
 * is taken off. The cover of the receiver itself belongs to the absorptance.
 *
 * @returns 0 to 1
 */
export function opticalEfficiency(optics: Optics): number {
  if (optics.by === "measured") return optics.opticalEfficiency;
  const film = optics.filmTransmittance ** optics.filmPasses;
  const surfaces = film * optics.reflectance * optics.absorptance;
  if (optics.by === "computed") return surfaces * optics.intercept;
  return surfaces * interceptFactor(optics) * (1 - optics.receiverShadow);
}
