import { type LpSolver, type SolveOptions, StoppedError } from "../dispatch/program.ts";
import { boundAtSizes, boundAtTotal } from "./curve/bound-point.ts";
import { curveSplit, heatStore_kWh, sizesOnLine, totalAperture_m2 } from "./curve/curve-split.ts";
import { placePoints } from "./curve/place-points.ts";
import { replayPoints } from "./curve/replay-points.ts";
import type { PlantModel } from "./plant-model.ts";
import { newSizesOf } from "./report/new-sizes.ts";
import type { AreaCurve, CurvePoint, Result } from "./result.ts";

/** Stores of the lines, as multiples of the optimum's kWh per m² of aperture. */
const storeFactors = [0, 0.5, 1, 2] as const;
/** Apertures that every line has, as multiples of the optimum's. */
const apertureFactors = [0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 2] as const;
/** Apertures of the bound. */
const boundFactors = apertureFactors.slice(1);
/** Points of all lines together. */
export const mostPoints = 60;

/** What a curve is drawn around: a result of the same study. */
export type CurveBasis = Pick<Result, "sizes" | "annual" | "baseline" | "levelised">;

/** A point of the bound that is still to be found. */
export type BoundTarget = { readonly at: "total"; readonly aperture_m2: number } | { readonly at: "chosen" };

export interface FoundBound {
  readonly target: BoundTarget;
  readonly point: CurvePoint;
}

/**
 * The area curve of docs/methods/area-curve.md as far as the simple controller draws it, in one thread and
 * without a solver: total apertures up to twice the optimum's, split as in the optimum (or all in the best
 * row of the match table where the optimum has no collector), one line for each store factor, all other
 * sizes as in the optimum, more points where a line bends. The bound is empty.
 *
 * @throws StoppedError
 */
export function replayCurve(model: PlantModel, basis: CurveBasis, shouldStop?: () => boolean): AreaCurve {
  const { chosenPoint } = model.study;
  const sizes = newSizesOf(model, basis.sizes);
  const split = curveSplit(model, sizes);
  const points = replayPoints(model, basis.baseline.fuelCost + basis.baseline.electricityCost);
  const pointAt = (aperture_m2: number, storePerAperture_kWh_m2: number): CurvePoint => {
    if (shouldStop?.() === true) throw new StoppedError("stopped before the curve was drawn");
    return points.withBoilers(sizesOnLine(model, sizes, split, aperture_m2, storePerAperture_kWh_m2));
  };
  // All lines begin with the same plant.
  const nothing = pointAt(0, 0);
  const perAperture = storeFactors.map((factor) => factor * split.storePerAperture_kWh_m2);
  const lines = placePoints({
    places: distinct(apertureFactors.map((factor) => factor * split.aperture_m2)),
    lines: perAperture.map(
      (store) => (aperture_m2: number) => (aperture_m2 === 0 ? nothing : pointAt(aperture_m2, store)),
    ),
    measures: [({ solarFraction }) => solarFraction, ({ annualCost }) => annualCost],
    most: mostPoints,
  });
  return {
    optimum: optimumPoint(model, basis),
    optimumReplay: points.at(sizes),
    chosen:
      chosenPoint === undefined
        ? null
        : pointAt(chosenPoint.aperture_m2, chosenPoint.storePerAperture_kWh_m2),
    chosenBound: null,
    lines: storeFactors.map((storeFactor, n) => ({
      storeFactor,
      storePerAperture_kWh_m2: perAperture[n],
      points: lines[n],
    })),
    bound: [],
    boundAt_m2: distinct(
      boundFactors.map((factor) =>
        totalAperture_m2(
          model,
          sizesOnLine(model, sizes, split, factor * split.aperture_m2, split.storePerAperture_kWh_m2),
        ),
      ),
    ),
    split: split.shares.map((share, f) => ({
      collector: model.fields[f].collector.id,
      network: model.fields[f].network.id,
      share,
    })),
    remarks: [],
  };
}

/** What is not found yet of a curve's bound: nearest to the optimum first, then the chosen point. */
export function missingBound({ optimum, chosen, chosenBound, bound, boundAt_m2 }: AreaCurve): BoundTarget[] {
  const found = new Set(bound.map(({ aperture_m2 }) => aperture_m2));
  const far = (aperture_m2: number) => Math.abs(aperture_m2 - optimum.aperture_m2);
  const totals = boundAt_m2.filter((aperture_m2) => !found.has(aperture_m2)).sort((a, b) => far(a) - far(b));
  return [
    ...totals.map((aperture_m2) => ({ at: "total" as const, aperture_m2 })),
    ...(chosen !== null && chosenBound === null ? [{ at: "chosen" as const }] : []),
  ];
}

/** One point of the bound by the linear program; they do not depend on each other. @throws StoppedError */
export function boundPoint(
  model: PlantModel,
  basis: CurveBasis,
  target: BoundTarget,
  solver: LpSolver,
  watched: SolveOptions = {},
): CurvePoint {
  const sizes = newSizesOf(model, basis.sizes);
  const split = curveSplit(model, sizes);
  const solving = { baseline: basis.baseline, solver, watched };
  const at = (aperture_m2: number, storePerAperture_kWh_m2: number) =>
    sizesOnLine(model, sizes, split, aperture_m2, storePerAperture_kWh_m2);
  if (target.at === "total") {
    const line = at(target.aperture_m2, split.storePerAperture_kWh_m2);
    return { ...boundAtTotal(model, line, solving), aperture_m2: target.aperture_m2 };
  }
  const { chosenPoint } = model.study;
  if (chosenPoint === undefined) throw new RangeError("the study has no chosen point");
  return boundAtSizes(model, at(chosenPoint.aperture_m2, chosenPoint.storePerAperture_kWh_m2), solving);
}

/** The curve with one more point of its bound. */
export function withBoundPoint(curve: AreaCurve, { target, point }: FoundBound): AreaCurve {
  if (target.at === "chosen") return { ...curve, chosenBound: point };
  const others = curve.bound.filter(({ aperture_m2 }) => aperture_m2 !== point.aperture_m2);
  return { ...curve, bound: [...others, point].sort((a, b) => a.aperture_m2 - b.aperture_m2) };
}

function optimumPoint(model: PlantModel, { sizes, annual, levelised }: CurveBasis): CurvePoint {
  const news = newSizesOf(model, sizes);
  return {
    by: "lp",
    aperture_m2: totalAperture_m2(model, news),
    store_kWh: heatStore_kWh(model, news),
    solarFraction: annual.solarFraction,
    fuelCostAvoided: annual.fuelCostAvoided,
    annualCost: levelised.annualCost,
    spilled_kWh: annual.spilled_kWh,
    unmet_kWh: annual.unmet_kWh,
  };
}

const distinct = (values: readonly number[]): number[] => [...new Set(values)];
