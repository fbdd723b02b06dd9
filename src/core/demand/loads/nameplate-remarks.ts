import type { Problem } from "../../problem.ts";
import { largest, sum } from "../../series.ts";
import type { Load } from "../../study/schema/study.ts";
import { billedSlip, billedSlipSentence, unitSlip, unitSlipSentence } from "../quality/unit-slip.ts";
import type { ResolvedLoad } from "../resolved-load.ts";

export const nameplateRemarkCodes = {
  LOAD_NAMEPLATE: "a load's largest hour disagrees with its nameplate, as by a unit taken wrongly",
  LOAD_BILLED: "a load's year disagrees with its bills, as by a unit taken wrongly",
} as const;

/** Says where a load's hours disagree with its nameplate or its bills, whatever its kind and profile; changes nothing. */
export function nameplateRemarks(load: Load, resolved: ResolvedLoad, path: string): Problem[] {
  if (!("nameplate_kW" in load || "billed_MWh_per_year" in load)) return [];
  const hours =
    resolved.kind === "fixed-heat" ? resolved.heat_kW : resolved.kind === "cold" ? resolved.cold_kW : null;
  if (hours === null) return [];
  const { nameplate_kW, billed_MWh_per_year } = load;
  const remark = (code: keyof typeof nameplateRemarkCodes, at: string, sentence: string): Problem => ({
    code,
    message: `${load.name}: ${sentence}`,
    place: { path: `${path}/${at}` },
  });
  const remarks: Problem[] = [];
  const peak_kW = largest(hours);
  const slip = nameplate_kW === undefined ? null : unitSlip(peak_kW, nameplate_kW);
  if (slip !== null)
    remarks.push(
      remark(
        "LOAD_NAMEPLATE",
        "nameplate_kW",
        `${unitSlipSentence(slip, peak_kW, nameplate_kW!)} Correct the unit of the profile or the nameplate.`,
      ),
    );
  const year_kWh = sum(hours);
  const billed_kWh = (billed_MWh_per_year ?? 0) * 1000;
  const apart = billed_MWh_per_year === undefined ? null : billedSlip(year_kWh, billed_kWh);
  if (apart !== null)
    remarks.push(
      remark(
        "LOAD_BILLED",
        "billed_MWh_per_year",
        `${billedSlipSentence(apart, year_kWh, billed_kWh)} Correct the unit of the profile or the bills.`,
      ),
    );
  return remarks;
}
