import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { DemandQuantity, Question } from "./account.ts";
import { allowedUnits, type DemandUnit, fits, unitInHeader } from "./find-unit.ts";

export interface ChosenUnit {
  readonly unit: DemandUnit | null;
  readonly how: string;
  readonly question: Question | null;
  /** A sentence where the unit cannot be used; null where it can. */
  readonly fault: string | null;
}

const meanwhile: Record<Exclude<DemandQuantity, "any">, DemandUnit> = {
  power: "kW",
  "mass-flow": "kg/h",
  "volume-flow": "m3/h",
  price: "per kWh",
};

/** The unit of the cells: said by the user, else in the header, else asked for with a unit taken meanwhile. */
export function chooseUnit(
  header: string,
  quantity: DemandQuantity,
  step_min: number,
  said: DemandReading["unit"],
  counter = false,
): ChosenUnit {
  const allowed = allowedUnits(quantity);
  const list = allowed.join(", ");
  if (said !== undefined) {
    const fault = fits(quantity, said) ? null : `The unit ${said} does not fit here; allowed are ${list}.`;
    return { unit: said, how: "said by user", question: null, fault };
  }
  const written = unitInHeader(header, quantity);
  if (written !== null) {
    const { unit, text } = written;
    const bad = unit === null || !fits(quantity, unit);
    const fault = bad
      ? `The header "${header}" says ${text}, which cannot be read here; allowed are ${list}. Convert the values or say the unit.`
      : null;
    return { unit, how: "said in the header", question: null, fault };
  }
  if (quantity === "any")
    return {
      unit: null,
      how: "no unit is said; values are taken as they stand",
      question: null,
      fault: null,
    };
  const unit = counter && quantity === "power" ? "kWh" : meanwhile[quantity];
  const ratio =
    quantity !== "power"
      ? ""
      : step_min === 60
        ? " With one row an hour kW and kWh are the same."
        : ` With a row every ${step_min} minutes, kWh read as kW would make the demand ${60 / step_min} times too small.`;
  const question: Question = {
    code: "DEMAND_UNIT",
    sentence: `Neither the header nor the reading says the unit.${ratio}`,
    field: "unit",
    choices: allowed.map((value) => ({
      value,
      sentence: /(?:Wh|J|m3)$/.test(value) && !value.startsWith("per") ? `${value} per interval` : value,
    })),
    taken: unit,
  };
  return { unit, how: `guessed: no unit is said, ${unit} taken`, question, fault: null };
}

/** What the cells of metered fuel are: by the unit said or in the title, else a volume flow. */
export function quantityOfFuel(
  header: string,
  said: DemandReading["unit"],
): "power" | "mass-flow" | "volume-flow" {
  const unit = said ?? unitInHeader(header, "any")?.unit ?? null;
  if (unit === null) return "volume-flow";
  const kinds = ["power", "mass-flow", "volume-flow"] as const;
  return kinds.find((kind) => fits(kind, unit)) ?? "volume-flow";
}
