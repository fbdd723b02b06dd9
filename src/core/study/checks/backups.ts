import type { Problem } from "../../problem.ts";
import type { Backup, Study } from "../schema/study.ts";
import { checkSpans } from "./dates.ts";

export const backupProblems = {
  BACKUP_EFFICIENCY: "only electricity can give more than 1.1 kWh of heat per kWh",
  BACKUP_HEAT_PUMP: "a heat pump runs on electricity",
  BACKUP_WASTE_HEAT: "waste heat needs its temperature and its power, and a network no hotter than it comes",
} as const;

export const backupRemarkCodes = {
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
      ...checkSpans(backup.outages ?? [], `${path}/outages`),
    ];
  });
}

/** What is odd about backups without faults. */
export function backupRemarks({ backups, networks }: Study): Problem[] {
  return backups.flatMap(({ name, network, heatPump }, i) => {
    const supply_C = networks.find(({ id }) => id === network)?.supply_C ?? 0;
    if (heatPump === undefined || supply_C <= usualSink_C) return [];
    return [
      {
        code: "REMARK_HEAT_PUMP_HOT" satisfies keyof typeof backupRemarkCodes,
        message: `"${name}" is to deliver ${supply_C} °C; few heat pumps are built for more than ${usualSink_C} °C, so ask its maker.`,
        place: { path: `backups/${i}/heatPump` },
      },
    ];
  });
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
