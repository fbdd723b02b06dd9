import type { HeatLoss } from "../study/schema/collector.ts";

export type TubeCondition = Extract<HeatLoss, { by: "evacuated-tube" }>["condition"];

/** A0 to A6 of the fit, in the units of watt, metre, °C, W/m² and m/s: tables 6 and 8. */
const coefficients: Readonly<Record<TubeCondition, readonly number[]>> = {
  vacuum: [4.05, 0.247, -0.00146, 5.65e-6, 7.62e-8, -1.7, 0.0125],
  "lost-vacuum": [50.8, 0.904, 5.79e-4, 1.13e-5, 1.73e-7, -43.2, 0.524],
  hydrogen: [11.8, 1.35, 7.5e-4, 4.07e-6, 5.85e-8, -4.48, 0.285],
  "broken-glass": [-9.95, 0.465, -8.54e-4, 1.85e-5, 6.89e-7, 24.7, 3.37],
};

/** Loss per metre of tube in W from absorber and air, the beam that its mirror takes in, Ib·K·cos i, and wind. */
export type TubeLossAt = (
  absorber_C: number,
  ambient_C: number,
  beam_W_m2: number,
  wind_m_s: number,
) => number;

/**
 * Loss of a 70 mm evacuated receiver tube on a 5 m trough:
 * A0 + A1·(T − Ta) + A2·T² + A3·T³ + A4·Ib·K·cos i·T² + √v·(A5 + A6·(T − Ta)), T in °C, not below 0;
 * Burkholder & Kutscher, NREL/TP-550-45633 (2009), tables 6 and 8. Fitted from 100 to 500 °C.
 */
export function evacuatedTubeLoss(condition: TubeCondition): TubeLossAt {
  const [A0, A1, A2, A3, A4, A5, A6] = coefficients[condition] as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return (T, ambient, beam, wind) => {
    const excess = T - ambient;
    if (excess <= 0) return 0;
    const still = A0 + A1 * excess + (A2 + A3 * T + A4 * beam) * T * T;
    return Math.max(0, still + Math.sqrt(wind) * (A5 + A6 * excess));
  };
}
