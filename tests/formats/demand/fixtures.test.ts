import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../../src/core/calendar.ts";
import { readDemand } from "../../../src/formats/demand/read-demand.ts";

const calendar = studyCalendar({ utcOffset_h: -7, timeZone: "Etc/GMT+7", calendarYear: 2026 });
const bytes = (name: string) => readFileSync(new URL(`../../../fixtures/demand/${name}`, import.meta.url));

describe("the demand files under fixtures", () => {
  it("hall-heat.csv is understood without a question", () => {
    const options = { file: "hall-heat.csv", reading: {}, calendar, quantity: "power" as const };
    const account = readDemand(bytes("hall-heat.csv"), options);
    expect(account.problems).toEqual([]);
    expect(account.questions).toEqual([]);
    expect(account.understood).toMatchObject({
      encoding: "Latin-1",
      headerRow: 2,
      valueColumn: "Wärme [kWh]",
      decimal: ",",
      dateOrder: "dmy",
    });
    // Thursday 1 January 2026: 45 + 0 at midnight; 310 + (6·7919 mod 40)/4 at 06:00.
    expect([account.hourly![0], account.hourly![6]]).toEqual([45, 310 + ((6 * 7919) % 40) / 4]);
    expect(account.quality.findings).toEqual([]);
  });

  it("faulty-steam.csv is refused with its four faults", () => {
    const options = { file: "faulty-steam.csv", reading: {}, calendar, quantity: "mass-flow" as const };
    const { problems, hourly } = readDemand(bytes("faulty-steam.csv"), options);
    expect(hourly).toBeNull();
    expect(problems.map(({ place }) => place.row).sort((a, b) => a! - b!)).toEqual([7, 11, 14, 31]);
  });
});
