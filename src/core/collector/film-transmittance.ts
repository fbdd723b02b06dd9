import type { Optics } from "../study/schema/collector.ts";

/** Reflection at one surface, air to film, for light across and along the plane of incidence. */
export interface Fresnel {
  readonly perpendicular: number;
  readonly parallel: number;
}

/** Fresnel's equations for an index n against air (D&B eq. 5.1.1 to 5.1.4). */
export function fresnel(cosIncidence: number, index: number): Fresnel {
  const cosInside = Math.sqrt(1 - (1 - cosIncidence * cosIncidence) / (index * index));
  const perpendicular = (cosIncidence - index * cosInside) / (cosIncidence + index * cosInside);
  const parallel = (index * cosIncidence - cosInside) / (index * cosIncidence + cosInside);
  return { perpendicular: perpendicular * perpendicular, parallel: parallel * parallel };
}

/**
 * Transmittance of one film with inner reflections, mean of both polarisations:
 * τa·(1 − r)²/(1 − (r·τa)²) each, τa = τa(0)^(1/cos θ₂) (D&B eq. 5.2.2 and 5.3.1).
 *
 * @param inside share that one passage straight through the film's thickness leaves, 0 to 1
 */
export function filmTransmittance(cosIncidence: number, index: number, inside: number): number {
  const cosInside = Math.sqrt(1 - (1 - cosIncidence * cosIncidence) / (index * index));
  const passage = inside === 1 ? 1 : inside ** (1 / cosInside);
  const { perpendicular, parallel } = fresnel(cosIncidence, index);
  return (through(passage, perpendicular) + through(passage, parallel)) / 2;
}

function through(passage: number, reflected: number): number {
  return (passage * (1 - reflected) ** 2) / (1 - (reflected * passage) ** 2);
}

/**
 * What one straight passage leaves, from the transmittance at normal incidence: the root of
 * T·r²·x² + (1 − r)²·x − T = 0. 1 where the film passes more than its index allows (a coating against
 * reflection): then only the course with the angle is taken from the index.
 */
export function insideTransmittance(normal: number, index: number): number {
  const reflected = fresnel(1, index).perpendicular;
  const open = (1 - reflected) ** 2;
  const root = Math.sqrt(open * open + 4 * (normal * reflected) ** 2);
  return Math.min(1, (2 * normal) / (open + root));
}

/** Factor of the cover film on the incidence angle modifier, from the cosine of the incidence; 1 head on. */
export type FilmModifier = (cosIncidence: number) => number;

/** K_film = (T(θ)/T(0))^passes, every passage at the collector's incidence angle; null without an index. */
export function filmModifier(optics: Optics): FilmModifier | null {
  if (optics.by === "measured" || optics.filmIndex === undefined) return null;
  const { filmIndex, filmPasses, filmTransmittance: normal } = optics;
  if (filmPasses === 0 || filmIndex === 1 || normal === 0) return null;
  const inside = insideTransmittance(normal, filmIndex);
  const headOn = filmTransmittance(1, filmIndex, inside);
  return (cosine) => (filmTransmittance(cosine, filmIndex, inside) / headOn) ** filmPasses;
}
