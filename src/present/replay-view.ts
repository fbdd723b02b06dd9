import type { ReplayFigures, Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { controllerRules } from "./controller-rules.ts";
import { joined } from "./joined.ts";
import { threeDigits } from "./numbers.ts";
import { replaysIn } from "./promised.ts";
import { energy, money, percent, type Writing } from "./quantities.ts";
import { replayTable } from "./replay-table.ts";
import type { TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** The section "Without foresight": the same plant by three ways of knowing the year. */
export interface ReplayView {
  /** For the answer, in a line. */
  readonly line: string;
  readonly table: TableView;
  /** What is not served, wasted, or otherwise worth a word. */
  readonly remarks: readonly string[];
  /** What the controllers keep to. */
  readonly rules: readonly string[];
  readonly hasTwoDay: boolean;
}

export function replayView(study: Study, result: Result): ReplayView | null {
  const replay = replaysIn(result);
  if (replay === null || result.status === "infeasible") return null;
  return {
    line: controllerLine(study, result)!,
    table: replayTable(study, result, replay),
    remarks: replayRemarks(study, result),
    rules: controllerRules(study),
    hasTwoDay: replay.twoDay !== null,
  };
}

/** What controllers without foresight would reach, in two sentences; null where none was run. */
export function controllerLine(study: Study, result: Result): string | null {
  const replay = replaysIn(result);
  if (replay === null) return null;
  const w = writingOf(study);
  const reach = ({ annual, gap_per_year }: ReplayFigures) =>
    `reach a solar fraction of ${percent(annual.solarFraction, w)}, avoid ${money(annual.fuelCostAvoided, w)} in the first year and cost ${moreOrLess(gap_per_year, w)}`;
  const simple = `An ordinary controller, which does not know tomorrow, would ${reach(replay.simple)} than perfect foresight.`;
  return replay.twoDay === null
    ? simple
    : `${simple} One that plans two days ahead would ${reach(replay.twoDay)}.`;
}

function moreOrLess(gap: number, w: Writing): string {
  return `${money(Math.abs(gap), w)} a year ${gap < 0 ? "less" : "more"}`;
}

/** What a reader must know beside the table; a controller that serves less is not cheaper. */
export function replayRemarks(study: Study, result: Result): string[] {
  const replay = replaysIn(result);
  if (replay === null) return [];
  const w = writingOf(study);
  const remarks: string[] = [];
  const tell = (who: string, { annual, unmetCost, wasted_kWh }: ReplayFigures) => {
    const unmet = [
      ...(annual.unmet_kWh > 1 ? [`${energy(annual.unmet_kWh, w)} of heat`] : []),
      ...(annual.unmetCold_kWh > 1 ? [`${energy(annual.unmetCold_kWh, w)} of cold`] : []),
      ...(annual.unmetWater_m3 > 0.1 ? [`${threeDigits(annual.unmetWater_m3, w.locale)} m³ of water`] : []),
    ];
    if (unmet.length > 0)
      remarks.push(
        `${who} leaves ${joined(unmet)} unmet; the money above counts it as costing nothing, the program’s price for it is ${money(unmetCost, w)}.`,
      );
    if (wasted_kWh > 1)
      remarks.push(
        `Under ${who.charAt(0).toLowerCase()}${who.slice(1)} boilers at their least load make ${energy(wasted_kWh, w)} that nothing takes.`,
      );
  };
  tell("The simple controller", replay.simple);
  if (replay.twoDay !== null) {
    tell("The plan two days ahead", replay.twoDay);
    const more = replay.twoDay.annualCost - replay.simple.annualCost;
    if (more > 1)
      remarks.push(
        `Here the plan two days ahead costs ${money(more, w)} a year more than the simple controller: its forecast is a plain one, and it knows nothing of the rules below.`,
      );
  }
  return remarks;
}
