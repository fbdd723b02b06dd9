/** One periodic term: amplitude (1e-8 rad or 1e-8 AU), phase (rad), frequency (rad per Julian millennium). */
export type PeriodicTerm = readonly [amplitude: number, phase: number, frequency: number];

/** Σₙ τⁿ·Σ A·cos(B + C·τ) in units of 1, eq. 9–11 of Reda & Andreas (2008); τ in Julian ephemeris millennia. */
export function periodicSeries(powers: readonly (readonly PeriodicTerm[])[], millennium: number): number {
  let total = 0;
  let factor = 1;
  for (const terms of powers) {
    let part = 0;
    for (const term of terms) part += term[0] * Math.cos(term[1] + term[2] * millennium);
    total += part * factor;
    factor *= millennium;
  }
  return total * 1e-8;
}
