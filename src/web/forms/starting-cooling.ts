/** Starting values of what changes a chiller with the weather; common practice, no source. */
export function startingCooling(title: string): Record<string, unknown> {
  if (title === "COP and capacity by temperature")
    return {
      drivingMean_C: 80,
      coldRise_K: 6,
      ratedDriving_C: 85,
      ratedCoolingWater_C: 33.5,
      ratedCold_C: 10,
      mostFactor: 1.2,
      points: [
        { coolingIn_C: 24, cop: 0.74, capacityFactor: 1.15 },
        { coolingIn_C: 31, cop: 0.7, capacityFactor: 1 },
      ],
      coolingWater: {
        from: "wet-tower",
        approach_K: 4,
        least_C: 24,
        rise_K: 5,
        cyclesOfConcentration: 4,
      },
    };
  if (title === "Cooling water")
    return {
      approach_K: 5,
      least_C: 24,
      rise_K: 5,
      cyclesOfConcentration: 4,
      months_C: Array.from({ length: 12 }, () => 25),
    };
  if (title === "COP against outdoor air")
    return {
      ratedAmbient_C: 35,
      lostPerK: 0.02,
      leastCop: 2,
      mostCop: 6,
      condenserApproach_K: 12,
      evaporatorApproach_K: 4,
      condenserLeast_C: 25,
    };
  return {};
}
