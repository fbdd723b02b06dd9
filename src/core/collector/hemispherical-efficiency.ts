/** Beam share of the light under which ISO 9806:2017 states η0,hem: 850 of 1000 W/m². */
export const standardBeamShare = 0.85;

/** η0,hem = η0,b·(0.85 + 0.15·Kd), ISO 9806:2017. */
export function hemisphericalEfficiency(beamEfficiency: number, diffuseModifier: number): number {
  return beamEfficiency * (standardBeamShare + (1 - standardBeamShare) * diffuseModifier);
}

/** η0,b from η0,hem: the study's measured optical efficiency is the one for beam. */
export function beamEfficiency(hemisphericalEfficiency: number, diffuseModifier: number): number {
  return hemisphericalEfficiency / (standardBeamShare + (1 - standardBeamShare) * diffuseModifier);
}
