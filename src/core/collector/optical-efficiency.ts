import type { Optics } from "../study/schema/collector.ts";

/**
 * Optical efficiency η0 of a clean new collector, beam at normal incidence on the aperture: as measured, or
 * τⁿ·ρ·γ·α of cover film (n passes), mirror, intercept and absorber (Duffie & Beckman, Solar Engineering of
 * Thermal Processes, ch. 7). The cover of the receiver itself belongs to the absorptance.
 *
 * @returns 0 to 1
 */
export function opticalEfficiency(optics: Optics): number {
  if (optics.by === "measured") return optics.opticalEfficiency;
  const film = optics.filmTransmittance ** optics.filmPasses;
  return film * optics.reflectance * optics.intercept * optics.absorptance;
}
