import type { HeatLoss } from "../study/schema/collector.ts";
import { kelvinAtZero_C, stefanBoltzmann_W_m2K4 } from "../units.ts";
import { type Convection, cavityConvection, plateConvection, tubeConvection } from "./convection.ts";

export type ComputedLoss = Extract<HeatLoss, { by: "computed" }>;

/** Emittance e0 + g·T², T in °C, at most 1. */
export function emittanceAt(loss: ComputedLoss, surface_C: number): number {
  return Math.min(1, loss.emittance + (loss.emittanceGrowth_per_C2 ?? 0) * surface_C * surface_C);
}

/**
 * Loss of a receiver from its surface: radiation ε·σ·(T⁴ − Ta⁴) and convection, per m² of receiver, divided by
 * the concentration, and what goes through insulation and supports per m² of aperture. Surroundings radiate at
 * air temperature (the sky is colder, the mirror is not). Not below 0.
 *
 * @returns W/m² of aperture
 */
export function receiverLoss(
  loss: ComputedLoss,
): (surface_C: number, ambient_C: number, wind_m_s: number) => number {
  const convection = convectionOf(loss);
  const insulated = loss.insulated_W_m2K ?? 0;
  return (surface, ambient, wind) => {
    const excess = surface - ambient;
    if (!(excess > 0)) return excess <= 0 ? 0 : Number.NaN;
    const radiated =
      emittanceAt(loss, surface) *
      stefanBoltzmann_W_m2K4 *
      (fourth(surface + kelvinAtZero_C) - fourth(ambient + kelvinAtZero_C));
    return (radiated + convection(surface, ambient, wind) * excess) / loss.concentration + insulated * excess;
  };
}

function fourth(x: number): number {
  return x * x * (x * x);
}

function convectionOf({ receiver, width_m }: ComputedLoss): Convection {
  switch (receiver) {
    case "bare-tube":
      return tubeConvection(width_m);
    case "flat":
      return plateConvection(width_m);
    case "cavity":
      return cavityConvection();
  }
}
