import { constantYear, sum } from "../../series.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import type { ColdDemand } from "../resolved-load.ts";
import { figure } from "./figure.ts";
import { type LoadInputs, profileOf } from "./load-inputs.ts";

/** Cold as given, with the electric chiller that serves it today. @throws ModelError SERIES_LENGTH */
export function cooling(load: LoadOf<"cooling">, inputs: LoadInputs): ColdDemand {
  const cold_kW = profileOf(load.id, inputs.profile).slice();
  const { cop, existing_kW } = load.electricChiller;
  return {
    kind: "cold",
    id: load.id,
    cold_kW,
    electricCop: constantYear(cop),
    electricLimit_kW: existing_kW ?? null,
    basis:
      `Cold as given, ${figure(sum(cold_kW))} kWh in the year at ${figure(load.coldSupply_C, 1)} °C; ` +
      `electric chiller with COP ${figure(cop, 1)}, ` +
      (existing_kW === undefined
        ? "large enough for any hour."
        : `at most ${figure(existing_kW)} kW of cold.`),
  };
}
