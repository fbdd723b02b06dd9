import {
  billedSlip,
  billedSlipSentence,
  unitSlip,
  unitSlipSentence,
} from "../../core/demand/quality/unit-slip.ts";
import type { Question, Understood } from "./account.ts";
import { allowedUnits, type DemandUnit, unitFactor } from "./find-unit.ts";
import type { DemandOptions } from "./read-demand.ts";

/**
 * Asks for the unit where the largest hour of a power disagrees with the nameplate; each choice tells
 * the largest hour it would give. Nothing is changed meanwhile. Null where they agree.
 */
function askNameplate(
  peak_kW: number,
  nameplate_kW: number,
  unit: DemandUnit,
  step_min: number,
): Question | null {
  const slip = unitSlip(peak_kW, nameplate_kW);
  if (slip === null) return null;
  const raw = peak_kW / unitFactor(unit, step_min);
  return {
    code: "DEMAND_NAMEPLATE",
    sentence: `${unitSlipSentence(slip, peak_kW, nameplate_kW)} In which unit are the figures?`,
    field: "unit",
    choices: allowedUnits("power").map((value) => ({
      value,
      sentence: `${value}: the largest hour would be ${Number((raw * unitFactor(value, step_min)).toPrecision(3))} kW`,
    })),
    taken: unit,
  };
}

/** The same for the year's sum against the bills; each choice tells the year it would give. */
function askBilled(
  year_kWh: number,
  billed_kWh: number,
  unit: DemandUnit,
  step_min: number,
): Question | null {
  const slip = billedSlip(year_kWh, billed_kWh);
  if (slip === null) return null;
  const raw = year_kWh / unitFactor(unit, step_min);
  return {
    code: "DEMAND_BILLED",
    sentence: `${billedSlipSentence(slip, year_kWh, billed_kWh)} In which unit are the figures?`,
    field: "unit",
    choices: allowedUnits("power").map((value) => ({
      value,
      sentence: `${value}: the year would come to ${Number(((raw * unitFactor(value, step_min)) / 1000).toPrecision(3))} MWh`,
    })),
    taken: unit,
  };
}

/** Where hours of power disagree with nameplate or bills. A unit that the user said is not asked about again. */
export function askUnit(
  { peak_kW, total_kWh }: Partial<Understood>,
  unit: DemandUnit,
  step_min: number,
  { nameplate_kW, billed_kWh }: Pick<DemandOptions, "nameplate_kW" | "billed_kWh">,
): Question | null {
  const byPlate =
    nameplate_kW === undefined || peak_kW == null
      ? null
      : askNameplate(peak_kW, nameplate_kW, unit, step_min);
  if (byPlate !== null || billed_kWh === undefined || total_kWh == null) return byPlate;
  return askBilled(total_kWh, billed_kWh, unit, step_min);
}
