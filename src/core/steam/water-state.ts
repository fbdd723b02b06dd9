/** Specific gas constant of ordinary water, kJ/(kg·K), IAPWS R7-97(2012) eq. 1. */
export const waterGasConstant_kJ_kgK = 0.461526;

/** A state of water or steam. */
export interface WaterState {
  readonly volume_m3_kg: number;
  readonly enthalpy_kJ_kg: number;
  readonly entropy_kJ_kgK: number;
  /** Isobaric heat capacity. */
  readonly cp_kJ_kgK: number;
}
