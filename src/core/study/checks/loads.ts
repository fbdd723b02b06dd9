import { billFaults } from "../../demand/bills/bill-faults.ts";
import { checkLoad } from "../../demand/loads/check-load.ts";
import { type LoadProfile, loadProfile } from "../../demand/loads/load-profile.ts";
import type { Problem } from "../../problem.ts";
import type { LoadOf, Study } from "../schema/study.ts";
import { checkSpans } from "./dates.ts";
import { changesClock } from "./site.ts";
import { fault } from "./study-problems.ts";

/** Whatever can be told of loads without their files and the weather. */
export function checkLoads({ loads, networks, site }: Study): Problem[] {
  return loads.flatMap((load, i) => {
    const path = `loads/${i}`;
    const profile = loadProfile(load);
    const network = load.kind === "cooling" ? null : (networks.find(({ id }) => id === load.network) ?? null);
    const physical = checkLoad(load, { profile: null, network, elevation_m: site.elevation_m }, path)
      // A plant too small for its order still works; the program says how much water is missing.
      .filter(({ code }) => code !== "LOAD_WATER_CAPACITY");
    return [
      ...physical,
      ...(load.kind === "desalination" ? latentHeat(load, path) : []),
      ...(load.kind === "batch-drying" ? overlaps(load, path, changesClock(site)) : []),
      ...(profile === null ? [] : ofProfile(profile, `${path}/${profile.property}`)),
    ];
  });
}

function ofProfile({ rate, quantity }: LoadProfile, path: string): Problem[] {
  if (rate.from === "bills") return billFaults(rate, quantity, path);
  if (rate.from === "file" && rate.file.trim() === "")
    return [fault("STUDY_FILE_NAME", `${path}/file`, "The profile names no file; a file name is needed.")];
  return [];
}

function latentHeat(load: LoadOf<"desalination">, path: string): Problem[] {
  const use = load.heatUse;
  if (use.by !== "performance-ratio" || use.convention !== "latent-heat" || use.steam_C !== undefined)
    return [];
  return [
    fault(
      "STUDY_LATENT_HEAT",
      `${path}/heatUse/steam_C`,
      "The performance ratio counts on latent heat and the temperature of the heating steam is missing; give steam_C.",
    ),
  ];
}

function overlaps(load: LoadOf<"batch-drying">, path: string, clockChanges: boolean): Problem[] {
  const problems = checkSpans(load.closed ?? [], `${path}/closed`);
  const days = [...new Set(load.weekdays)].sort((a, b) => a - b);
  if (days.length < load.weekdays.length)
    problems.push(
      fault("STUDY_REFERENCE_TWICE", `${path}/weekdays`, "A weekday is named twice; once is allowed."),
    );
  const gaps = days.map((day, i) => (i + 1 < days.length ? days[i + 1]! : days[0]! + 7) - day);
  // The day on which the clock goes forward has 23 hours.
  const apart_h = Math.min(...gaps) * 24 - (clockChanges ? 1 : 0);
  if (load.lasts_h > apart_h)
    problems.push(
      fault(
        "STUDY_BATCH_OVERLAP",
        `${path}/lasts_h`,
        `A window lasts ${load.lasts_h} h and the next one opens after ${apart_h} h${clockChanges ? " where the clock goes forward" : ""}; at most ${apart_h} h is allowed.`,
      ),
    );
  return problems;
}
