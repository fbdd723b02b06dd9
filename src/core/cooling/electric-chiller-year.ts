import { constantYear } from "../series.ts";
import type { ElectricChiller } from "../study/schema/electric-chiller.ts";
import { reversibleElectricCop } from "./reversible-cop.ts";

/** No electric chiller of the trade does better, whatever the weather; common practice, no source. */
export const highestElectricCop = 15;

/**
 * COP of the electric chiller by hour: constant, or against the outdoor air (docs/methods/cooling.md).
 * By slope it changes by a share of the rated COP for each kelvin from the rated air temperature. By the
 * reversible cycle it keeps its share of the Carnot COP between cold less an approach and air plus an
 * approach, the condenser never below what its control holds.
 */
export function electricCopYear(
  { cop, byAmbient }: ElectricChiller,
  coldSupply_C: number,
  ambient_C: Float64Array,
): Float64Array {
  if (byAmbient === undefined) return constantYear(cop);
  if (byAmbient.by === "slope") {
    const { ratedAmbient_C, lostPerK, leastCop, mostCop } = byAmbient;
    return ambient_C.map((air_C) =>
      Math.min(mostCop, Math.max(leastCop, cop * (1 - lostPerK * (air_C - ratedAmbient_C)))),
    );
  }
  const { ratedAmbient_C, condenserApproach_K, evaporatorApproach_K, condenserLeast_C } = byAmbient;
  const evaporating_C = coldSupply_C - evaporatorApproach_K;
  const reversibleAt = (air_C: number) =>
    reversibleElectricCop(Math.max(condenserLeast_C, air_C + condenserApproach_K), evaporating_C);
  const share = cop / reversibleAt(ratedAmbient_C);
  return ambient_C.map((air_C) => Math.min(highestElectricCop, share * reversibleAt(air_C)));
}
