import { collectorFaults } from "../../collector/collector-faults.ts";
import { checkFuel } from "../../economics/fuel-terms.ts";
import type { Problem } from "../../problem.ts";
import type { Study } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

/** Collectors, chillers and backups. */
export function checkPlant({ collectors, chillers, backups, networks }: Study): Problem[] {
  const problems: Problem[] = [];
  collectors.forEach((collector, i) => {
    const path = `collectors/${i}`;
    problems.push(...collectorFaults(collector, path));
    if (collector.modifier.type === "table" && collector.modifier.angles_deg[0] !== 0)
      problems.push(
        fault(
          "STUDY_MODIFIER_START",
          `${path}/modifier/angles_deg/0`,
          `The modifier table begins at ${collector.modifier.angles_deg[0]}°; it must begin at 0°.`,
        ),
      );
    if (collector.parts.filter(({ name }) => name === collector.filmPart).length > 1)
      problems.push(
        fault(
          "STUDY_PART_TWICE",
          `${path}/filmPart`,
          `Several parts are called "${collector.filmPart}"; the film's part must have a name of its own.`,
        ),
      );
    if (collector.existing_m2 > 0 && collector.networks.length !== 1)
      problems.push(
        fault(
          "STUDY_EXISTING_COLLECTOR",
          `${path}/networks`,
          `${collector.existing_m2} m² exist and ${collector.networks.length} networks are named; what exists must belong to one network, so enter it as an item of its own.`,
        ),
      );
  });
  chillers.forEach((chiller, i) => {
    const network = networks.find(({ id }) => id === chiller.network);
    if (network !== undefined && !(network.supply_C >= chiller.drivingLeast_C))
      problems.push(
        fault(
          "STUDY_CHILLER_DRIVING",
          `chillers/${i}/drivingLeast_C`,
          `The chiller needs ${chiller.drivingLeast_C} °C and its network supplies ${network.supply_C} °C; the network must be at least as hot.`,
        ),
      );
  });
  backups.forEach((backup, i) => {
    problems.push(...checkFuel(backup.fuel, backup.efficiency, `backups/${i}`));
    const finite = backup.existing_kW !== undefined && backup.size.choice !== "free";
    if (backup.fuel.price_per_kWh < 0 && !finite)
      problems.push(
        fault(
          "STUDY_BACKUP_LIMIT",
          `backups/${i}/existing_kW`,
          `The fuel costs ${backup.fuel.price_per_kWh} per kWh, and burning it without end would pay; give existing_kW and a size that is bounded or fixed.`,
        ),
      );
  });
  return problems;
}
