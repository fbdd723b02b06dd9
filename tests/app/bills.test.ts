import { describe, expect, it } from "vitest";
import { resolveStudy } from "../../src/app/resolve-study.ts";
import type { StudyBundle } from "../../src/app/types.ts";
import { largest, sum } from "../../src/core/series.ts";
import type { BillsProfile, LoadOf } from "../../src/core/study/schema/study.ts";
import { validateStudy } from "../../src/formats/study-json.ts";
import { applyFields } from "../../src/web/forms/apply-fields.ts";
import { startingCalendar } from "../../src/web/forms/starting-calendar.ts";
import { expectClose } from "../support/close.ts";
import { smallBundle } from "../support/small-bundle.ts";

const quarters = ["01-01 03-31", "04-01 06-30", "07-01 09-30", "10-01 12-31"].map((span, i) => {
  const [from, to] = span.split(" ");
  return { from: `2025-${from}`, to: `2025-${to}`, amount: 100 + i };
});
const billed: BillsProfile = {
  from: "bills",
  unit: "MWh",
  calendar: "days",
  baseShare: 0.2,
  bills: quarters,
};

/** The small study with its heat given by bills. */
function byBills(parts: Partial<BillsProfile> = {}, more: Partial<LoadOf<"process-heat">> = {}): StudyBundle {
  const { study, files } = smallBundle();
  return {
    study: {
      ...study,
      calendars: [startingCalendar("days", "one-shift")!],
      loads: [{ ...(study.loads[0] as LoadOf<"process-heat">), heat_kW: { ...billed, ...parts }, ...more }],
    },
    files,
  };
}
const resolved = (bundle: StudyBundle) => {
  const outcome = resolveStudy(bundle);
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join("\n"));
  return outcome.value;
};

describe("a load by bills in a study", () => {
  it("becomes hours that sum to the bills, with how they were spread", () => {
    const { loads, billYears, study } = resolved(byBills());
    const load = loads[0]!;
    if (load.kind !== "fixed-heat") throw new Error(load.kind);
    expectClose(sum(load.heat_kW), 406_000, 1e-6);
    expect(billYears[study.loads[0]!.id]!.stretches.map(({ amount }) => amount)).toEqual([
      100_000, 101_000, 102_000, 103_000,
    ]);
  });

  it("is asked about against its nameplate: MWh that were kWh, GJ that were kWh", () => {
    const load = resolved(byBills()).loads[0]!;
    const peak_kW = load.kind === "fixed-heat" ? largest(load.heat_kW) : Number.NaN;
    const codes = (bundle: StudyBundle) => resolved(bundle).findings.map(({ code }) => code);
    expect(codes(byBills({}, { nameplate_kW: peak_kW }))).not.toContain("LOAD_NAMEPLATE");
    expect(codes(byBills({}, { nameplate_kW: peak_kW / 1000 }))).toContain("LOAD_NAMEPLATE");
    const remark = resolved(byBills({}, { nameplate_kW: peak_kW / 3.6 })).findings.find(
      ({ code }) => code === "LOAD_NAMEPLATE",
    );
    expect(remark?.message).toContain("3.6 times too large");
  });

  it("tells all its faults at once, with those of the rest of the study", () => {
    const bundle = byBills({ unit: "L", bills: [quarters[0]!, quarters[0]!], calendar: "nights" });
    const outcome = resolveStudy(bundle);
    const told = outcome.ok ? [] : outcome.problems.map(({ code, place }) => `${code} ${place.path}`);
    expect(told).toEqual([
      "STUDY_REFERENCE loads/0/heat_kW/calendar",
      "BILL_UNIT loads/0/heat_kW/unit",
      "BILL_DAYS_TWICE loads/0/heat_kW/bills/1",
    ]);
  });

  it("is set up in the form: chosen, then filled in row by row", () => {
    const { study } = byBills();
    const before = { ...study, loads: smallBundle().study.loads };
    const entries = (fields: Record<string, string>) =>
      new Map(Object.entries(fields).map(([name, value]) => [name, [value]]));
    const chosen = applyFields(before, entries({ "loads/0/heat_kW/from": "bills" }));
    expect(chosen.problems).toEqual([]);
    expect(validateStudy(chosen.study, "study.json").ok).toBe(true);
    const filled = applyFields(
      chosen.study,
      entries({
        "loads/0/heat_kW/unit": "MWh",
        "loads/0/heat_kW/baseShare": "0.2",
        ...Object.fromEntries(
          quarters.flatMap(({ from, to, amount }, i) => [
            [`loads/0/heat_kW/bills/${i}/from`, from],
            [`loads/0/heat_kW/bills/${i}/to`, to],
            [`loads/0/heat_kW/bills/${i}/amount`, String(amount)],
            [`loads/0/heat_kW/bills/${i}/degreeDays_Kd`, ""],
          ]),
        ),
      }),
    );
    expect(filled.problems).toEqual([]);
    expect(filled.study.loads[0]).toMatchObject({ heat_kW: billed });
  });
});
