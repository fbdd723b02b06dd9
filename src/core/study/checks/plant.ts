import { collectorFaults } from "../../collector/collector-faults.ts";
import { frostFaults } from "../../collector/frost-faults.ts";
import { pipeFaults } from "../../collector/pipe-faults.ts";
import { chillerFaults } from "../../cooling/chiller-faults.ts";
import { checkFuel } from "../../economics/fuel-terms.ts";
import type { Problem } from "../../problem.ts";
import type { Backup, Store, Study } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

/** Collectors, chillers and backups. */
export function checkPlant(study: Study): Problem[] {
  const { collectors, chillers, backups, networks, stores, electricity } = study;
  const problems: Problem[] = [];
  collectors.forEach((collector, i) => {
    const path = `collectors/${i}`;
    problems.push(
      ...collectorFaults(collector, path),
      ...pipeFaults(collector, networks, path),
      ...frostFaults(collector, networks, path),
    );
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
    const load = study.loads.find(({ id }) => id === chiller.load);
    if (network !== undefined && load?.kind === "cooling")
      problems.push(...chillerFaults(chiller, load.coldSupply_C, network.supply_C, `chillers/${i}`));
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
    // What a file says is known only once it is read.
    if (backup.fuel.priceFile === undefined)
      problems.push(...backupLimitFaults(backup, leastPrice(backup.fuel), i));
  });
  if (electricity.priceFile === undefined)
    problems.push(...coldStoreLimitFaults(stores, leastPrice(electricity)));
  return problems;
}

function leastPrice({
  price_per_kWh,
  hourFactors = [1],
  monthFactors = [1],
}: Pick<Study["electricity"], "price_per_kWh" | "hourFactors" | "monthFactors">): number {
  return Math.min(
    ...hourFactors.flatMap((hour) => monthFactors.map((month) => price_per_kWh * hour * month)),
  );
}

/**
 * Where electricity can have a negative price, a cold store must have a charging limit: else making cold
 * and wasting it would pay without end.
 *
 * @param least_per_kWh electricity's lowest price of the year
 */
export function coldStoreLimitFaults(stores: readonly Store[], least_per_kWh: number): Problem[] {
  if (!(least_per_kWh < 0)) return [];
  return stores.flatMap(({ load, chargeLimit_kW }, i) =>
    load === undefined || chargeLimit_kW !== undefined
      ? []
      : [
          fault(
            "STUDY_STORE_LIMIT",
            `stores/${i}/chargeLimit_kW`,
            `Electricity costs ${least_per_kWh} per kWh in some hours, and making cold to waste it in the store would pay without end; give chargeLimit_kW.`,
          ),
        ],
  );
}

/**
 * A boiler whose fuel has a negative price must have a finite power.
 *
 * @param least_per_kWh the fuel's lowest price of the year
 */
export function backupLimitFaults(backup: Backup, least_per_kWh: number, index: number): Problem[] {
  const finite = backup.existing_kW !== undefined && backup.size.choice !== "free";
  if (!(least_per_kWh < 0) || finite) return [];
  const when =
    backup.fuel.priceFile === undefined &&
    backup.fuel.hourFactors === undefined &&
    backup.fuel.monthFactors === undefined
      ? ""
      : " in some hours";
  return [
    fault(
      "STUDY_BACKUP_LIMIT",
      `backups/${index}/existing_kW`,
      `The fuel costs ${least_per_kWh} per kWh${when}, and burning it without end would pay; give existing_kW and a size that is bounded or fixed.`,
    ),
  ];
}
