import { ModelError } from "../errors.ts";
import type { Collector, HeatLoss } from "../study/schema/collector.ts";
import { evacuatedTubeLoss } from "./evacuated-tube-loss.ts";
import { opticalEfficiency } from "./optical-efficiency.ts";
import { perAperture } from "./per-aperture.ts";
import { receiverLoss } from "./receiver-loss.ts";

/** The air and light round a collector in one hour. */
export interface Surroundings {
  readonly ambient_C: number;
  readonly wind_m_s: number;
  /** All light on the aperture, beam and diffuse. */
  readonly onAperture_W_m2: number;
}

/**
 * Loss in an hour from its mean fluid temperature and surroundings, W/m² of aperture. `skyExcess_W_m2` is the
 * sky's heat radiation less σ·Ta⁴, 0 if left out (@see skyExcess_W_m2). `beam_W_m2` is what heats an
 * evacuated tube's glass, Ib·K·cos i; left out, the light on the aperture stands for it, which errs upward.
 */
export type LossAt = (
  meanFluid_C: number,
  ambient_C: number,
  wind_m_s: number,
  onAperture_W_m2: number,
  skyExcess_W_m2?: number,
  beam_W_m2?: number,
) => number;

/**
 * Heat loss as a function, W per m² of aperture, not below 0 (fluid cooler than the air gains nothing here).
 *
 * - ISO 9806:2017 cl. 24: a1·ΔT + a2·ΔT² + a3·u′·ΔT − a4·S + a6·u′·G + a7·u′·S + a8·ΔT⁴ with
 *   S = E_L − σ·Ta⁴, ΔT = mean fluid − ambient and
 *   u′ = u − 3 m/s. u is the station's wind at 10 m, which is more than the air speed over the aperture of
 *   the standard: the loss errs upward.
 * - Receiver tube: (c1·T + c4·T⁴) / aperture width, T in °C: the form of Burkholder & Kutscher,
 *   NREL/TP-550-45633 (2009), where T is the absorber's temperature; the mean fluid temperature stands in
 *   for it, some 5 to 20 K lower. Measured in a laboratory, so ambient and wind do not enter.
 * - Evacuated tube: @see evacuatedTubeLoss, divided by the aperture width; the mean fluid temperature stands in
 *   for the absorber's as well.
 * - Computed: @see receiverLoss, the surface at the mean fluid temperature.
 */
export function lossFunction(heatLoss: HeatLoss): LossAt {
  if (heatLoss.by === "receiver-tube") {
    const linear = heatLoss.linear_W_mK / heatLoss.apertureWidth_m;
    const quartic = heatLoss.quartic_W_mK4 / heatLoss.apertureWidth_m;
    return (mean) => Math.max(0, linear * mean + quartic * mean ** 4);
  }
  if (heatLoss.by === "evacuated-tube") {
    const perMetre = evacuatedTubeLoss(heatLoss.condition);
    const width = heatLoss.apertureWidth_m;
    return (mean, ambient, wind, light, _sky, beam = light) => perMetre(mean, ambient, beam, wind) / width;
  }
  if (heatLoss.by === "computed") return receiverLoss(heatLoss);
  const { a1_W_m2K: a1, a2_W_m2K2: a2, a3_J_m3K: a3 = 0, a6_s_m: a6 = 0, a8_W_m2K4: a8 = 0 } = heatLoss;
  const { a4 = 0, a7_s_m: a7 = 0 } = heatLoss;
  return (mean, ambient, wind, light, sky = 0) => {
    const excess = mean - ambient;
    const breeze = wind - 3;
    const onExcess = (a1 + a3 * breeze + (a2 + a8 * excess * excess) * Math.abs(excess)) * excess;
    return Math.max(0, onExcess + a6 * breeze * light + (a7 * breeze - a4) * sky);
  };
}

/** Whether a loss depends on the sky's heat radiation. */
export function seesSky(heatLoss: HeatLoss): boolean {
  return heatLoss.by === "iso-9806" && ((heatLoss.a4 ?? 0) > 0 || (heatLoss.a7_s_m ?? 0) > 0);
}

/** Heat loss at one state, W per m² of aperture. @see lossFunction */
export function heatLoss_W_m2(heatLoss: HeatLoss, meanFluid_C: number, around: Surroundings): number {
  return lossFunction(heatLoss)(meanFluid_C, around.ambient_C, around.wind_m_s, around.onAperture_W_m2);
}

/** Loss of a receiver tube per metre, c1·T + c4·T⁴, T in °C; checks the tube apart from its mirror. */
export function receiverTubeLoss_W_m(linear_W_mK: number, quartic_W_mK4: number, absorber_C: number): number {
  return linear_W_mK * absorber_C + quartic_W_mK4 * absorber_C ** 4;
}

/** Heat capacity of the collector with its fluid that has to be warmed, kJ/(m²·K); 0 where none was given. */
export function heatCapacity_kJ_m2K(heatLoss: HeatLoss): number {
  return heatLoss.a5_kJ_m2K ?? 0;
}

/**
 * Stagnation temperature, °C: the mean temperature at which the loss equals what is absorbed, so nothing is
 * left to draw. Losses only, wind 3 m/s, still air for a computed receiver; a concentrator reaches temperatures
 * at which these relations no longer hold and parts fail: use it to warn, not to design.
 *
 * @param absorbed_W_m2 after the optics, per m² of aperture
 * @throws ModelError NOT_CONVERGED where it lies above `hottest_C`
 */
export function stagnation_C(heatLoss: HeatLoss, absorbed_W_m2: number, ambient_C: number): number {
  const loss = lossFunction(heatLoss);
  const wind_m_s = heatLoss.by === "computed" ? 0 : 3;
  const excess = (mean: number) => loss(mean, ambient_C, wind_m_s, 0) - absorbed_W_m2;
  let low = ambient_C;
  let high = hottest_C;
  if (!(excess(high) >= 0)) throw new ModelError("NOT_CONVERGED", `stagnation above ${high} °C`);
  while (high - low > 1e-9 * Math.max(1, Math.abs(high))) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (excess(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** No receiver is hotter than the sun, about 5500 °C. */
export const hottest_C = 5500;

/**
 * Stagnation temperature of a clean new collector that faces a beam, °C; null where its losses as given do not
 * hold it below the temperature of the sun.
 */
export function collectorStagnation_C(
  collector: Collector,
  beam_W_m2: number,
  ambient_C: number,
): number | null {
  const { optics, heatLoss } = perAperture(collector);
  const absorbed_W_m2 = opticalEfficiency(optics) * beam_W_m2;
  const holds =
    lossFunction(heatLoss)(hottest_C, ambient_C, heatLoss.by === "computed" ? 0 : 3, 0) >= absorbed_W_m2;
  return holds ? stagnation_C(heatLoss, absorbed_W_m2, ambient_C) : null;
}
