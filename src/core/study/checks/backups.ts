import type { Problem } from "../../problem.ts";
import type { Backup, Study } from "../schema/study.ts";
import { checkSpans } from "./dates.ts";

export const backupProblems = {
  BACKUP_EFFICIENCY: "only electricity can give more than 1.1 kWh of heat per kWh",
  BACKUP_HEAT_PUMP: "a heat pump runs on electricity",
  BACKUP_PART_LOAD:
    "an efficiency at part load needs two loads or more, each once, and a power that is known",
  BACKUP_WASTE_HEAT: "waste heat needs its temperature and its power, and a network no hotter than it comes",
} as const;

export const backupRemarkCodes = {
  REMARK_BACKUP_ORDER: "a dearer backup is to be called before a cheaper one",
  REMARK_HEAT_PUMP_HOT: "a heat pump is to deliver hotter than such machines are usually built for",
} as const;

/** Few industrial heat pumps deliver above this. Common practice, no source. */
const usualSink_C = 150;

/** Every fault of the backups beside those of fuel and limits. */
export function checkBackups({ backups, networks }: Study): Problem[] {
  return backups.flatMap((backup, i) => {
    const path = `backups/${i}`;
    const supply_C = networks.find(({ id }) => id === backup.network)?.supply_C;
    return [
      ...ofKind(backup, path),
      ...(backup.fuel.kind === "waste-heat" ? wasteHeatFaults(backup, supply_C, path) : []),
      ...partLoadFaults(backup, path),
      ...checkSpans(backup.outages ?? [], `${path}/outages`),
    ];
  });
}

/** What is odd about backups without faults. */
export function backupRemarks(study: Study): Problem[] {
  return [...hotPumps(study), ...orders(study)];
}

function hotPumps({ backups, networks }: Study): Problem[] {
  return backups.flatMap(({ name, network, heatPump }, i) => {
    const supply_C = networks.find(({ id }) => id === network)?.supply_C ?? 0;
    if (heatPump === undefined || supply_C <= usualSink_C) return [];
    return [
      remark(
        "REMARK_HEAT_PUMP_HOT",
        `backups/${i}/heatPump`,
        `"${name}" is to deliver ${supply_C} °C; few heat pumps are built for more than ${usualSink_C} °C, so ask its maker.`,
      ),
    ];
  });
}

/** By the first year's price and the one efficiency; where either goes by the hour nothing is said. */
function orders({ backups }: Study): Problem[] {
  const plain = (backup: Backup) =>
    backup.fuel.priceFile === undefined &&
    backup.fuel.hourFactors === undefined &&
    backup.fuel.monthFactors === undefined &&
    backup.heatPump === undefined;
  const price = (backup: Backup) => backup.fuel.price_per_kWh / backup.efficiency;
  return backups.flatMap((backup, i) => {
    const place = backup.order;
    if (place === undefined || !plain(backup)) return [];
    const later = backups.find(
      (other) =>
        other.network === backup.network &&
        (other.order ?? Number.POSITIVE_INFINITY) > place &&
        plain(other) &&
        price(other) < price(backup),
    );
    if (later === undefined) return [];
    return [
      remark(
        "REMARK_BACKUP_ORDER",
        `backups/${i}/order`,
        `"${backup.name}" is to be called before "${later.name}", whose heat is cheaper. The sizing calls the cheapest first; only the replay, whose figures are promised, keeps the order.`,
      ),
    ];
  });
}

function remark(code: keyof typeof backupRemarkCodes, path: string, message: string): Problem {
  return { code, message, place: { path } };
}

function problem(code: keyof typeof backupProblems, path: string, message: string): Problem {
  return { code, message, place: { path } };
}

function ofKind({ fuel, efficiency, heatPump, comesAt_C }: Backup, path: string): Problem[] {
  const problems: Problem[] = [];
  const kind = fuel.kind.replaceAll("-", " ");
  if (efficiency > 1.1 && fuel.kind !== "electricity")
    problems.push(
      problem(
        "BACKUP_EFFICIENCY",
        `${path}/efficiency`,
        `The efficiency is ${efficiency}, and ${kind} gives at most 1.1 kWh of heat per kWh; only a heat pump on electricity gives more.`,
      ),
    );
  if (heatPump !== undefined && fuel.kind !== "electricity")
    problems.push(
      problem(
        "BACKUP_HEAT_PUMP",
        `${path}/fuel/kind`,
        `A heat pump is given and the fuel is ${kind}; electricity is allowed.`,
      ),
    );
  if (comesAt_C !== undefined && fuel.kind !== "waste-heat")
    problems.push(
      problem(
        "BACKUP_WASTE_HEAT",
        `${path}/comesAt_C`,
        `Heat is said to come at ${comesAt_C} °C, which is for waste heat; the fuel is ${kind}.`,
      ),
    );
  return problems;
}

function partLoadFaults({ partLoad, existing_kW, size }: Backup, path: string): Problem[] {
  if (partLoad === undefined || partLoad.length === 0) return [];
  const problems: Problem[] = [];
  if (partLoad.length < 2)
    problems.push(
      problem(
        "BACKUP_PART_LOAD",
        `${path}/partLoad`,
        "The efficiency at part load has one point; two or more are needed.",
      ),
    );
  partLoad.forEach(({ load }, i) => {
    if (partLoad.findIndex((point) => point.load === load) < i)
      problems.push(
        problem(
          "BACKUP_PART_LOAD",
          `${path}/partLoad/${i}/load`,
          `The load ${load} has two efficiencies; one is allowed.`,
        ),
      );
  });
  if (existing_kW === undefined && size.choice !== "free" && !((size.fixed ?? 0) > 0))
    problems.push(
      problem(
        "BACKUP_PART_LOAD",
        `${path}/existing_kW`,
        "A boiler that is large enough for any hour has no part load; give existing_kW.",
      ),
    );
  return problems;
}

function wasteHeatFaults(
  { comesAt_C, existing_kW, size }: Backup,
  supply_C: number | undefined,
  path: string,
): Problem[] {
  const problems: Problem[] = [];
  if (comesAt_C === undefined)
    problems.push(
      problem(
        "BACKUP_WASTE_HEAT",
        `${path}/comesAt_C`,
        "The temperature at which the waste heat comes is missing; it decides what it can serve.",
      ),
    );
  else if (supply_C !== undefined && comesAt_C < supply_C)
    problems.push(
      problem(
        "BACKUP_WASTE_HEAT",
        `${path}/comesAt_C`,
        `The waste heat comes at ${comesAt_C} °C and its network supplies ${supply_C} °C; it must come at least as hot.`,
      ),
    );
  if (existing_kW === undefined || size.choice === "free")
    problems.push(
      problem(
        "BACKUP_WASTE_HEAT",
        `${path}/existing_kW`,
        "Waste heat without a power would be endless; give existing_kW, and a size that is bounded or fixed.",
      ),
    );
  return problems;
}
