/** Arithmetic means of inlet and outlet outside the machine, °C. */
export interface MeanTemperatures {
  readonly driving_C: number;
  readonly coolingWater_C: number;
  readonly cold_C: number;
}

/** Coefficients of one tested machine. */
export interface Characteristic {
  /** a of ΔΔt = t_driving − a·t_cooling + e·t_cold. */
  readonly coolingWeight: number;
  /** e of the same. */
  readonly coldWeight: number;
  /** Slope and value at ΔΔt = 0 of the cold made. */
  readonly cold_kW_per_K: number;
  readonly coldAtZero_kW: number;
  /** Slope and value at ΔΔt = 0 of the driving heat. */
  readonly heat_kW_per_K: number;
  readonly heatAtZero_kW: number;
}

/**
 * A single-effect water–lithium bromide machine of about 10 kW, from memory: A. Kühn, F. Ziegler,
 * "Operational results of a 10 kW absorption chiller and adaptation of the characteristic equation",
 * 1st international conference solar air-conditioning, 2005. Only ratios to its rated point are used.
 */
export const testedSingleEffect: Characteristic = {
  coolingWeight: 2.5,
  coldWeight: 1.8,
  cold_kW_per_K: 0.42,
  coldAtZero_kW: 0.9,
  heat_kW_per_K: 0.51,
  heatAtZero_kW: 2,
};

/**
 * Characteristic temperature difference ΔΔt, K (H.-M. Hellmann, C. Schweigler, F. Ziegler, "The
 * characteristic equations of absorption chillers", 1999; weights fitted as in Kühn and Ziegler 2005).
 */
export function characteristicDifference_K(
  { coolingWeight, coldWeight }: Characteristic,
  { driving_C, coolingWater_C, cold_C }: MeanTemperatures,
): number {
  return driving_C - coolingWeight * coolingWater_C + coldWeight * cold_C;
}

/** Cold made and heat drawn at a characteristic difference, kW of the tested machine; may be negative. */
export function characteristicPowers(
  { cold_kW_per_K, coldAtZero_kW, heat_kW_per_K, heatAtZero_kW }: Characteristic,
  difference_K: number,
): { readonly cold_kW: number; readonly heat_kW: number } {
  return {
    cold_kW: cold_kW_per_K * difference_K + coldAtZero_kW,
    heat_kW: heat_kW_per_K * difference_K + heatAtZero_kW,
  };
}

/**
 * A machine of another size at other temperatures than its rated ones: cold and heat move from the rated
 * point as those of the tested machine do. Where cold is held to `mostFactor`, heat is that of the
 * difference that gives so much.
 *
 * @returns cold as a share of the rated cold, 0 where the machine cannot run, and the COP
 */
export function scaledByCharacteristic(
  tested: Characteristic,
  rated: { readonly cop: number; readonly at: MeanTemperatures },
  at: MeanTemperatures,
  mostFactor: number,
): { readonly factor: number; readonly cop: number } {
  const reference = characteristicPowers(tested, characteristicDifference_K(tested, rated.at));
  const free = characteristicPowers(tested, characteristicDifference_K(tested, at));
  const most_kW = mostFactor * reference.cold_kW;
  const { cold_kW, heat_kW } =
    free.cold_kW > most_kW
      ? characteristicPowers(tested, (most_kW - tested.coldAtZero_kW) / tested.cold_kW_per_K)
      : free;
  if (!(cold_kW > 0 && heat_kW > 0)) return { factor: 0, cop: rated.cop };
  const factor = cold_kW / reference.cold_kW;
  return { factor, cop: (rated.cop * factor) / (heat_kW / reference.heat_kW) };
}
