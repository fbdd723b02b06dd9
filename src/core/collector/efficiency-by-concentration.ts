import type { Collector, HeatLoss } from "../study/schema/collector.ts";
import { secondLawConcentration } from "./concentration-limit.ts";
import { lossFunction } from "./heat-loss.ts";
import type { ShapeOptics } from "./intercept.ts";
import { opticalEfficiency } from "./optical-efficiency.ts";

export interface ConcentrationConditions {
  readonly meanFluid_C: readonly number[];
  readonly slopeError_mrad: readonly number[];
  readonly beam_W_m2: number;
  readonly ambient_C: number;
  readonly wind_m_s: number;
}

export interface ConcentrationCurve {
  readonly meanFluid_C: number;
  readonly slopeError_mrad: number;
  readonly concentration: number[];
  /** Below 0 where the receiver loses more than it absorbs. */
  readonly efficiency: number[];
  /** The greatest of the curve's points. */
  readonly best: { readonly concentration: number; readonly efficiency: number };
}

/** Points a curve: a factor of about 1.2 between neighbours. */
const steps = 29;

/**
 * Thermal efficiency (absorbed less lost, over the beam on the aperture, head on, clean and new) against the
 * concentration, at each mean fluid temperature with each slope error. A smaller receiver loses less heat and
 * catches less light. The loss per m² of receiver stays as it is at the collector's own concentration, so that
 * per m² of aperture it is in inverse proportion to the concentration; what goes through insulation per m² of
 * aperture stays. The receiver's shadow shrinks with it in the same way.
 *
 * @returns one curve a temperature and slope error; null for optics that do not come from the shape
 */
export function efficiencyByConcentration(
  { optics, heatLoss }: Pick<Collector, "optics" | "heatLoss">,
  conditions: ConcentrationConditions,
): { curves: ConcentrationCurve[] } | null {
  if (optics.by !== "shape") return null;
  const { beam_W_m2, ambient_C, wind_m_s } = conditions;
  const concentration = concentrations(optics);
  const curves = conditions.slopeError_mrad.flatMap((slopeError_mrad) => {
    const optical = concentration.map((ratio) => opticalEfficiency(resized(optics, ratio, slopeError_mrad)));
    return conditions.meanFluid_C.map((meanFluid_C): ConcentrationCurve => {
      const lossAt = (ratio: number) =>
        scaledLoss(heatLoss, optics.concentration, ratio)(meanFluid_C, ambient_C, wind_m_s, beam_W_m2);
      const efficiency = concentration.map((ratio, i) => optical[i]! - lossAt(ratio) / beam_W_m2);
      const at = efficiency.indexOf(Math.max(...efficiency));
      const best = { concentration: concentration[at]!, efficiency: efficiency[at]! };
      return { meanFluid_C, slopeError_mrad, concentration, efficiency, best };
    });
  });
  return { curves };
}

/** From a receiver that shadows at most the whole aperture up to a third of what the second law allows. */
function concentrations({ shape, concentration, receiverShadow }: ShapeOptics): number[] {
  const least = Math.max(2, concentration * receiverShadow * 1.25);
  const most = Math.max(2 * least, secondLawConcentration(shape) / 3);
  return Array.from({ length: steps }, (_, i) => least * (most / least) ** (i / (steps - 1)));
}

function resized(optics: ShapeOptics, concentration: number, slopeError_mrad: number): ShapeOptics {
  const receiverShadow = Math.min(1, (optics.receiverShadow * optics.concentration) / concentration);
  return { ...optics, concentration, slopeError_mrad, receiverShadow };
}

function scaledLoss(heatLoss: HeatLoss, own: number, ratio: number) {
  if (heatLoss.by === "computed") return lossFunction({ ...heatLoss, concentration: ratio });
  const loss = lossFunction(heatLoss);
  return (...around: Parameters<typeof loss>) => (loss(...around) * own) / ratio;
}
