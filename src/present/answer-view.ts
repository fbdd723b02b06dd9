import type { Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { isStandInRemark } from "../core/study/sizing/solvers.ts";
import { joined } from "./joined.ts";
import { area, energy, heatPrice, money, percent, volume, type Writing, years } from "./quantities.ts";
import { controllerLine } from "./replay-view.ts";
import { writingOf } from "./writing-of.ts";

/** The answer in a sentence, four figures and what limits it. */
export interface AnswerView {
  readonly sentence: string;
  readonly figures: readonly { readonly figure: string; readonly meaning: string }[];
  readonly limits: readonly string[];
  /** Sentences about limits that cannot all be kept; empty where they can. */
  readonly conflicts: readonly string[];
  readonly method: string;
  /** What controllers without foresight would reach; empty where none was run. */
  readonly controller: string;
  /** Where the engine did not prove its answer and another solver stood in. */
  readonly standIn: readonly string[];
}

export function answerView(study: Study, result: Result): AnswerView {
  const writing = writingOf(study);
  const { annual, levelised } = result;
  return {
    sentence: sentenceOf(study, result, writing),
    figures: [
      {
        figure: money(annual.fuelCostAvoided, writing),
        meaning: "fuel and electricity cost avoided in the first year",
      },
      { figure: percent(annual.solarFraction, writing), meaning: "of the heat is solar (solar fraction)" },
      {
        figure: heatPrice(levelised.solarHeat_per_kWh, writing),
        meaning: "levelised cost of the solar heat used",
      },
      { figure: years(result.money.simplePayback_years, writing), meaning: "simple pay-back" },
    ],
    limits: limitSentences(result),
    conflicts: result.conflicts.map(({ sentence }) => sentence),
    method:
      result.proof.method === "typical-days"
        ? "Sizes from typical days; the figures above from the full year run at those sizes with perfect foresight."
        : "Sizes and the figures above from the full year, hour by hour, with perfect foresight.",
    controller:
      result.status === "infeasible" || !collects(result) ? "" : (controllerLine(study, result) ?? ""),
    standIn: [...new Set(result.findings.filter(isStandInRemark))],
  };
}

function collects({ sizes }: Pick<Result, "sizes">): boolean {
  return sizes.collectors.some(({ aperture_m2 }) => aperture_m2 > 0.5);
}

function limitSentences({ limits, status, sizes }: Result): string[] {
  if (status === "infeasible") return [];
  const binding = limits.filter((limit) => limit.binding).map(({ sentence }) => sentence);
  if (binding.length > 0) return binding;
  return collects({ sizes })
    ? ["Nothing but cost limits the plant: more of it would cost more than it saves."]
    : [];
}

function sentenceOf(study: Study, result: Result, writing: Writing): string {
  if (result.status === "infeasible") {
    return "The limits of this study cannot all be kept.";
  }
  const { sizes, annual } = result;
  const named = (list: readonly { readonly id: string; readonly name: string }[], id: string) =>
    list.find((item) => item.id === id)?.name ?? id;
  const apertures = new Map<string, number>();
  for (const { id, aperture_m2 } of sizes.collectors) {
    apertures.set(id, (apertures.get(id) ?? 0) + aperture_m2);
  }
  const fields = [...apertures]
    .filter(([, aperture]) => aperture > 0.5)
    .map(([id, aperture]) => `${area(aperture, writing)} of ${named(study.collectors, id)}`);
  if (fields.length === 0) {
    return `At these prices no collector pays: heating ${study.site.name} goes on costing ${money(annual.fuelCostWithSolar, writing)} a year.`;
  }
  const stores = sizes.stores
    .filter(({ capacity_kWh }) => capacity_kWh > 0.5)
    .map(
      ({ id, capacity_kWh, volume_m3 }) =>
        `${energy(capacity_kWh, writing)} of ${named(study.stores, id)} (${volume(volume_m3, writing)})`,
    );
  const plant = joined([...fields, ...stores]);
  return `${plant} would cover up to ${percent(annual.solarFraction, writing)} of the heat that ${study.site.name} needs and avoid up to ${money(annual.fuelCostAvoided, writing)} of fuel and electricity in the first year.`;
}
