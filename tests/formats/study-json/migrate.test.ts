import { describe, expect, it } from "vitest";
import { readSoundStudy, readStudyJson } from "../../../src/formats/study-json.ts";
import { smallStudy } from "../../support/small-study.ts";

// biome-ignore lint/suspicious/noExplicitAny: a study of an earlier version has no type
type Loose = Record<string, any>;

const day = (share: number) => new Array<number>(24).fill(share);
const week = { weekday: day(1), saturday: day(0.5), sunday: day(0) };

/** A study file of format version 1, with a week calendar in each of two loads. */
function versionOne(second: Loose = week): Loose {
  const { calendars: _, ...study } = smallStudy() as Loose;
  const load = study.loads[0];
  return {
    ...study,
    formatVersion: 1,
    loads: [
      { ...load, id: "wash", name: "Washing", heat_kW: { from: "calendar", level: 300, week } },
      { ...load, id: "dye", name: "Dyeing", heat_kW: { from: "calendar", level: 200, week: second } },
    ],
    origins: [
      { path: "loads/wash/heat_kW/level", status: "confirmed", source: "the meter" },
      { path: "loads/wash/heat_kW/week/saturday", status: "assumption", source: "half the crew" },
      { path: "loads/dye/heat_kW/week/months", status: "published", source: "the yearly report" },
    ],
  };
}
const read = (study: Loose) => {
  const outcome = readSoundStudy(JSON.stringify(study), "study.json");
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};

describe("a study file of version 1", () => {
  it("gets a calendar that both loads with the same week name", () => {
    const study = read(versionOne());
    expect(study.formatVersion).toBe(2);
    expect(study.calendars).toEqual([
      { id: "wash-days", name: "Working days of Washing", week: { by: "hours", ...week } },
    ]);
    expect(study.loads.map((load) => (load as Loose).heat_kW)).toEqual([
      { from: "calendar", level: 300, calendar: "wash-days" },
      { from: "calendar", level: 200, calendar: "wash-days" },
    ]);
  });

  it("gets two where the weeks differ; months, closed days and origins go along", () => {
    const months = [1, 1, 1, 1, 1, 1, 1, 0.5, 1, 1, 1, 1];
    const closed = [{ from: "12-24", to: "01-06" }];
    const study = read(versionOne({ ...week, months, closed }));
    expect(study.calendars[1]).toEqual({
      id: "dye-days",
      name: "Working days of Dyeing",
      week: { by: "hours", ...week },
      months,
      closed,
    });
    expect(study.origins!.map(({ path }) => path)).toEqual([
      "loads/wash/heat_kW/level",
      "calendars/wash-days/week/saturday",
      "calendars/dye-days/months",
    ]);
  });

  it("takes an id that nothing else has", () => {
    const old = versionOne();
    old.stores[0].id = "wash-days";
    expect(read(old).calendars[0]!.id).toBe("wash-days-2");
  });

  it("at fault is told by its new places, and nothing of it is lost", () => {
    const old = versionOne({ ...week, weekday: day(7) });
    const outcome = readStudyJson(JSON.stringify(old), "study.json");
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.problems[0]!.place.path).toBe("calendars/1/week/weekday/0");
    const odd = readStudyJson(
      JSON.stringify({ formatVersion: 1, loads: "none", origins: [3] }),
      "study.json",
    );
    expect(odd.ok).toBe(false);
  });
});
