import { type DispatchCase, type NewSizes, unlimited } from "../dispatch/case.ts";
import { cleanAnswer } from "../dispatch/clean-answer.ts";
import { formulate } from "../dispatch/formulate.ts";
import { demandOptimal, type LpSolver, type SolveOptions } from "../dispatch/program.ts";
import { type Plan, readPlan } from "../dispatch/read-plan.ts";
import { holdSizes } from "../dispatch/size-bounds.ts";
import type { PlantModel } from "./plant-model.ts";
import { annualOf } from "./report/annual.ts";
import { matchRows } from "./report/match-rows.ts";
import { levelisedOf } from "./report/money.ts";
import type { AreaCurve, CurvePoint } from "./result.ts";
import { dispatchAt, nothingNew } from "./sizing/dispatch-at.ts";

/** Stores of the lines, as multiples of the optimum's kWh per m² of aperture. */
const storeFactors = [0, 0.5, 1, 2] as const;
/** Apertures of a line, as multiples of the optimum's. */
const apertureFactors = [0, 0.15, 0.3, 0.5, 0.7, 0.85, 1, 1.25, 1.6, 2] as const;
/** Store per aperture of the lines where the optimum has none, kWh/m². */
const usualStore_kWh_m2 = 1;

export interface CurveOptions {
  readonly solver: LpSolver;
  readonly onProgress?: (doing: string, share: number) => void;
  readonly shouldStop?: () => boolean;
}

/**
 * The area curve of docs/methods/area-curve.md: the full year dispatched at total apertures up to
 * twice the optimum's, split as in the optimum (or all in the best row of the match table where the
 * optimum has no collector), one line for each store factor, all other sizes as in the optimum; a sized
 * charging power goes with its store, and is enough for all sun where the optimum has no store.
 *
 * @param optimum the plan whose sizes are the optimum
 * @throws StoppedError
 */
export function areaCurve(model: PlantModel, optimum: Plan, options: CurveOptions): AreaCurve {
  const { problem, study } = model;
  const watched: SolveOptions = options.shouldStop === undefined ? {} : { shouldStop: options.shouldStop };
  const baseline = dispatchAt(unlimited(problem), nothingNew(problem), options.solver, watched);
  const split = splitOf(model, optimum);
  const point = (plan: Plan): CurvePoint => {
    const annual = annualOf(model, plan, baseline);
    return {
      aperture_m2: totalAperture_m2(model, plan.sizes),
      store_kWh: heatStore_kWh(model, plan.sizes),
      solarFraction: annual.solarFraction,
      fuelCostAvoided: annual.fuelCostAvoided,
      annualCost: levelisedOf(model, plan, baseline).annualCost,
      spilled_kWh: annual.spilled_kWh,
    };
  };

  const formulation = formulate(unlimited(problem), { keepSizeColumns: true });
  const session = options.solver.open(formulation.program);
  const planAt = (sizes: NewSizes): Plan => {
    // A smaller field leaves more to the boilers, so those that may be built stay free.
    holdSizes(session, formulation, sizes, { boilersFree: true });
    const answer = demandOptimal(session.run(watched));
    return readPlan(formulation, cleanAnswer(formulation, answer.primal), answer.rowDual);
  };
  try {
    let done = 0;
    const count = storeFactors.length * apertureFactors.length;
    // From large to small: each smaller plant starts from the larger one's basis.
    const lines = storeFactors.toReversed().map((storeFactor) => {
      const storePerAperture_kWh_m2 = storeFactor * split.storePerAperture_kWh_m2;
      const points = apertureFactors.toReversed().map((factor) => {
        options.onProgress?.(`Area curve: point ${done + 1} of ${count}`, done / count);
        done += 1;
        return point(
          planAt(sizesAt(model, optimum, split, factor * split.aperture_m2, storePerAperture_kWh_m2)),
        );
      });
      return { storeFactor, storePerAperture_kWh_m2, points: points.toReversed() };
    });
    const chosen =
      study.chosenPoint === undefined
        ? null
        : point(
            planAt(
              sizesAt(
                model,
                optimum,
                split,
                study.chosenPoint.aperture_m2,
                study.chosenPoint.storePerAperture_kWh_m2,
              ),
            ),
          );
    return {
      optimum: point(optimum),
      chosen,
      lines: lines.toReversed(),
      // The optimum is the one point at which the split is the program's own; it is marked as such.
      bound: [],
      split: split.shares.map((share, f) => ({
        collector: model.fields[f].collector.id,
        network: model.fields[f].network.id,
        share,
      })),
    };
  } finally {
    session.close();
  }
}

interface Split {
  /** Share of the total aperture, by field. */
  readonly shares: readonly number[];
  /** Share of the heat stores' capacity, by store; 0 for cold stores. */
  readonly stores: readonly number[];
  /** The aperture to which factors refer. */
  readonly aperture_m2: number;
  readonly storePerAperture_kWh_m2: number;
}

function splitOf(model: PlantModel, { sizes }: Plan): Split {
  const aperture_m2 = totalAperture_m2(model, sizes);
  const store_kWh = heatStore_kWh(model, sizes);
  const isHeat = model.problem.stores.map((store) => "network" in store.serves);
  const storeTotals = model.problem.stores.map((store, s) =>
    isHeat[s] ? sizes.stores_kWh[s] + store.size.existing : 0,
  );
  const heatStores = isHeat.filter(Boolean).length;
  const stores =
    store_kWh > 0
      ? storeTotals.map((total) => total / store_kWh)
      : isHeat.map((heat) => (heat ? 1 / heatStores : 0));
  if (aperture_m2 > 0) {
    return {
      shares: model.problem.fields.map((field, f) => (sizes.fields_m2[f] + field.existing_m2) / aperture_m2),
      stores,
      aperture_m2,
      storePerAperture_kWh_m2: store_kWh > 0 ? store_kWh / aperture_m2 : usualStore_kWh_m2,
    };
  }
  const rows = matchRows(model);
  const costOf = (f: number) => {
    const { collector, network } = model.fields[f];
    return (
      rows.find((row) => row.collector === collector.id && row.network === network.id)?.cost_per_kWh ??
      Infinity
    );
  };
  const best = model.fields.reduce((least, _, f) => (costOf(f) < costOf(least) ? f : least), 0);
  const useful = model.fields[best]?.year.levels[model.fields[best].at].useful_kWh_per_m2 ?? 0;
  const demand_kWh = model.problem.networks.reduce(
    (all, network) => all + network.fixed_kW.reduce((sum, heat) => sum + heat, 0),
    0,
  );
  return {
    shares: model.fields.map((_, f) => (f === best ? 1 : 0)),
    stores,
    aperture_m2: useful > 0 ? demand_kWh / useful : 0,
    storePerAperture_kWh_m2: usualStore_kWh_m2,
  };
}

/** Sizes of new plant for a total aperture and store, which count what exists. */
function sizesAt(
  model: PlantModel,
  { sizes }: Plan,
  split: Split,
  aperture_m2: number,
  storePerAperture_kWh_m2: number,
): NewSizes {
  const { problem } = model;
  const store_kWh = aperture_m2 * storePerAperture_kWh_m2;
  const fields_m2 = Float64Array.from(problem.fields, (field, f) =>
    Math.max(0, aperture_m2 * split.shares[f] - field.existing_m2),
  );
  return {
    ...sizes,
    fields_m2,
    stores_kWh: Float64Array.from(problem.stores, (store, s) =>
      "network" in store.serves
        ? Math.max(0, store_kWh * split.stores[s] - store.size.existing)
        : sizes.stores_kWh[s],
    ),
    chargers_kW: Float64Array.from(problem.stores, (store, s) => {
      if (store.charger === null || !("network" in store.serves)) return sizes.chargers_kW[s];
      const optimum_kWh = sizes.stores_kWh[s] + store.size.existing;
      const power_kW =
        optimum_kWh > 0
          ? ((sizes.chargers_kW[s] + store.charger.existing) * store_kWh * split.stores[s]) / optimum_kWh
          : mostCollected_kW(problem, fields_m2, store.serves.network);
      return Math.max(0, power_kW - store.charger.existing);
    }),
  };
}

/** The most that a network's fields give in any block. */
function mostCollected_kW(problem: DispatchCase, fields_m2: Float64Array, network: number): number {
  let most = 0;
  for (let t = 0; t < problem.blocks; t += 1) {
    let heat = 0;
    problem.fields.forEach((field, f) => {
      if (field.network === network) heat += (fields_m2[f] + field.existing_m2) * field.yield_kW_per_m2[t];
    });
    most = Math.max(most, heat);
  }
  return most;
}

function totalAperture_m2({ problem }: PlantModel, sizes: NewSizes): number {
  return problem.fields.reduce((all, field, f) => all + sizes.fields_m2[f] + field.existing_m2, 0);
}

function heatStore_kWh({ problem }: PlantModel, sizes: NewSizes): number {
  return problem.stores.reduce(
    (all, store, s) => all + ("network" in store.serves ? sizes.stores_kWh[s] + store.size.existing : 0),
    0,
  );
}
