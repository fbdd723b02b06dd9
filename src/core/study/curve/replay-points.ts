import type { DispatchCase, NewSizes } from "../../dispatch/case.ts";
import { prepareReplay } from "../../replay/prepare-replay.ts";
import type { ReplayTotals } from "../../replay/replay-totals.ts";
import { dot, sum } from "../../series.ts";
import type { CurvePoint } from "../curve-figures.ts";
import type { PlantModel } from "../plant-model.ts";
import { annualCapitalOf } from "../report/money.ts";
import { heatStore_kWh, totalAperture_m2 } from "./curve-split.ts";

export interface ReplayPoints {
  /** At just these sizes. */
  readonly at: (sizes: NewSizes) => CurvePoint;
  /** New boilers grow where heat would be unmet. */
  readonly withBoilers: (sizes: NewSizes) => CurvePoint;
}

/** Unmet heat below this share of the demand makes no boiler grow. */
const leastUnmet = 1e-6;

/**
 * Points of the area curve by the simple controller, from the sums of its year alone: the figures of
 * `annual` and `levelised` at the same prices, electricity and parasitics.
 *
 * @param baselineCost fuel and electricity of today's plant, year-1 prices
 */
export function replayPoints(model: PlantModel, baselineCost: number): ReplayPoints {
  const { problem, rules, prices } = model;
  const { electricity } = prices;
  const { run } = prepareReplay(problem, rules, [
    {
      backups_per_kWh: prices.backups.map(({ firstYear_per_kWh }) => firstYear_per_kWh),
      electricity_per_kWh: electricity.firstYear_per_kWh,
    },
  ]);
  const fixedFirstYear = dot(model.fixedElectricity_kW, electricity.firstYear_per_kWh);
  const fixedLevelised = dot(model.fixedElectricity_kW, electricity.objective_per_kWh);

  const point = (sizes: NewSizes, totals: ReplayTotals): CurvePoint => {
    const [firstYear] = totals.atPrices;
    return {
      by: "replay",
      aperture_m2: totalAperture_m2(model, sizes),
      store_kWh: heatStore_kWh(model, sizes),
      solarFraction: totals.solarFraction,
      fuelCostAvoided: baselineCost - sum(firstYear.backupCost) - firstYear.electricityCost - fixedFirstYear,
      // The problem's own prices are levelised and hold the carbon.
      annualCost:
        annualCapitalOf(model, sizes) + sum(totals.backupCost) + totals.electricityCost + fixedLevelised,
      spilled_kWh: totals.spilled_kWh,
      unmet_kWh: totals.unmetHeat_kWh + totals.unmetBatch_kWh,
    };
  };
  return {
    at: (sizes) => point(sizes, run(sizes)),
    withBoilers: (sizes) => {
      const totals = run(sizes);
      const missing_kWh = totals.unmetHeat_kWh + totals.unmetBatch_kWh;
      if (!(missing_kWh > leastUnmet * totals.demand_kWh)) return point(sizes, totals);
      const growing = growingBoilers(problem, sizes);
      if (growing.length === 0) return point(sizes, totals);
      const grown = withBoilersFor(problem, sizes, growing, run);
      return point(grown, run(grown));
    },
  };
}

/** On each network the new boiler that is cheapest per kW among those that may be larger. */
function growingBoilers({ networks, backups }: DispatchCase, sizes: NewSizes): number[] {
  return networks.flatMap((_, k) => {
    let cheapest = -1;
    backups.forEach(({ network, size }, b) => {
      if (network !== k || !(size.most > sizes.backups_kW[b])) return;
      if (cheapest < 0 || size.annualCost_per_unit < backups[cheapest].size.annualCost_per_unit) cheapest = b;
    });
    return cheapest < 0 ? [] : [cheapest];
  });
}

/** Boilers as large as the largest power that the controller would take from them, and not smaller than before. */
function withBoilersFor(
  { backups }: DispatchCase,
  sizes: NewSizes,
  growing: readonly number[],
  run: (sizes: NewSizes) => ReplayTotals,
): NewSizes {
  const backups_kW = sizes.backups_kW.slice();
  for (const b of growing) backups_kW[b] = backups[b].size.most;
  const { backupPeak_kW } = run({ ...sizes, backups_kW });
  for (const b of growing) {
    backups_kW[b] = Math.min(
      backups[b].size.most,
      Math.max(sizes.backups_kW[b], backupPeak_kW[b] - backups[b].size.existing),
    );
  }
  return { ...sizes, backups_kW };
}
