import type { Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { collectorYears } from "./collector-losses.ts";
import { asGiven, threeDigits } from "./numbers.ts";
import { bareMoney, money, type Writing } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** What small improvements of each built collector would be worth; no tables where the answer has no prices. */
export interface ImprovementsView {
  /** The step worth most of each collector, a sentence each. */
  readonly sentences: readonly string[];
  readonly tables: readonly TableView[];
}

export function improvementsView(study: Study, result: Result): ImprovementsView {
  const w = writingOf(study);
  const fields = collectorYears(study, result).flatMap(({ collector, network, figures }) => {
    // Answers kept by an earlier version have none.
    const list = figures.improvements ?? null;
    return list === null || list.length === 0 ? [] : [{ collector, network, list }];
  });
  return {
    sentences: fields.flatMap(({ collector, network, list }) => {
      const first = list.find(({ wholeHours }) => !wholeHours);
      if (first === undefined || first.worth_per_m2_year <= 0) return [];
      return [
        `${collector} on ${network}: the step worth most is ${named(first, w)}, up to ${money(first.worth_per_m2_year, w)} per m² and year.`,
      ];
    }),
    tables: fields.map(({ collector, network, list }) =>
      figuresTable(
        `${collector} on ${network}: what a step better is worth, per m² of aperture`,
        [
          "Step",
          "More useful heat, kWh a year",
          `Worth up to, ${w.currency} a year`,
          `May cost up to, ${w.currency}`,
          "Paid every",
        ],
        list.map((step) => [
          named(step, w),
          threeDigits(Math.abs(step.useful_kWh_per_m2) < 0.005 ? 0 : step.useful_kWh_per_m2, w.locale),
          bareMoney(step.worth_per_m2_year, w.locale),
          step.mayCost_per_m2 === null ? "–" : bareMoney(step.mayCost_per_m2, w.locale),
          step.everyYears === null ? "–" : `${asGiven(step.everyYears, w.locale)} years`,
        ]),
      ),
    ),
  };
}

function named(
  step: { readonly name: string; readonly from: number; readonly to: number; readonly unit: string },
  { locale }: Writing,
): string {
  const first = `${step.name.charAt(0).toLowerCase()}${step.name.slice(1)}`;
  if (step.unit === "of today's") return `${first}, a tenth less`;
  const unit = step.unit === "1" ? "" : ` ${step.unit}`;
  return `${first} from ${asGiven(step.from, locale)} to ${asGiven(step.to, locale)}${unit}`;
}
