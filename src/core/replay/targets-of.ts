import type { DispatchCase } from "../dispatch/case.ts";
import type { Plan } from "../dispatch/read-plan.ts";
import type { Targets } from "./plan-days.ts";

/** The contents of a plan as ends for a controller's plans. */
export function targetsOf(problem: DispatchCase, { hours }: Plan): Targets {
  return {
    stores_kWh: problem.stores.map(({ serves }) =>
      "network" in serves ? hours.networks[serves.network].content_kWh : hours.cold[serves.cold].content_kWh,
    ),
    tanks_m3: hours.water.map(({ tank_m3 }) => tank_m3),
  };
}
