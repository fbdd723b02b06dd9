import type { Load } from "../../study/schema/study.ts";
import type { ResolvedLoad } from "../resolved-load.ts";
import { batchDrying } from "./batch-drying.ts";
import { cooling } from "./cooling.ts";
import { desalination } from "./desalination.ts";
import { drying } from "./drying.ts";
import { hotWater } from "./hot-water.ts";
import type { LoadInputs } from "./load-inputs.ts";
import { processHeat } from "./process-heat.ts";
import { steam } from "./steam.ts";
import { thermalOil } from "./thermal-oil.ts";

/**
 * A load as hourly figures at its network, by the physics of its kind.
 *
 * It expects a load without faults (checkLoad finds them).
 *
 * @throws ModelError SERIES_LENGTH, UNKNOWN_ID, OUT_OF_RANGE
 */
export function resolveLoad(load: Load, inputs: LoadInputs): ResolvedLoad {
  switch (load.kind) {
    case "process-heat":
      return processHeat(load, inputs);
    case "steam":
      return steam(load, inputs);
    case "hot-water":
      return hotWater(load, inputs);
    case "thermal-oil":
      return thermalOil(load, inputs);
    case "desalination":
      return desalination(load, inputs);
    case "drying":
      return drying(load, inputs);
    case "batch-drying":
      return batchDrying(load, inputs);
    case "cooling":
      return cooling(load, inputs);
  }
}
