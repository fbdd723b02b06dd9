import type { Problem } from "../../problem.ts";
import { largest } from "../../series.ts";
import type { Load } from "../../study/schema/study.ts";
import { unitSlip, unitSlipSentence } from "../quality/unit-slip.ts";
import type { ResolvedLoad } from "../resolved-load.ts";

export const nameplateRemarkCodes = {
  LOAD_NAMEPLATE: "a load's largest hour disagrees with its nameplate, as by a unit taken wrongly",
} as const;

/** Says where a load's hours disagree with its nameplate, whatever its kind and profile; changes nothing. */
export function nameplateRemarks(load: Load, resolved: ResolvedLoad, path: string): Problem[] {
  if (!("nameplate_kW" in load) || load.nameplate_kW === undefined) return [];
  const hours =
    resolved.kind === "fixed-heat" ? resolved.heat_kW : resolved.kind === "cold" ? resolved.cold_kW : null;
  if (hours === null) return [];
  const peak_kW = largest(hours);
  const slip = unitSlip(peak_kW, load.nameplate_kW);
  if (slip === null) return [];
  return [
    {
      code: "LOAD_NAMEPLATE",
      message: `${load.name}: ${unitSlipSentence(slip, peak_kW, load.nameplate_kW)} Correct the unit of the profile or the nameplate.`,
      place: { path: `${path}/nameplate_kW` },
    },
  ];
}
