import { sum } from "../../series.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import type { FixedHeat } from "../resolved-load.ts";
import { figure } from "./figure.ts";
import { type LoadInputs, profileOf } from "./load-inputs.ts";

/** Heat that the user gives as it is. @throws ModelError SERIES_LENGTH */
export function processHeat(load: LoadOf<"process-heat">, inputs: LoadInputs): FixedHeat {
  const heat_kW = profileOf(load.id, inputs.profile).slice();
  return {
    kind: "fixed-heat",
    id: load.id,
    network: load.network,
    heat_kW,
    electricity_kW: null,
    basis: `Heat as given, ${figure(sum(heat_kW))} kWh in the year.`,
  };
}
