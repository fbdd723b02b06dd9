import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../../../src/core/calendar.ts";
import { absurdRates } from "../../../../src/core/demand/quality/absurd-rates.ts";
import { billedSlip } from "../../../../src/core/demand/quality/unit-slip.ts";
import { readDemand } from "../../../../src/formats/demand/read-demand.ts";

const calendar = studyCalendar({ utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2025 });
const file = (rate: (hour: number) => number | string, title = "heat [kW]") =>
  new TextEncoder().encode(
    `time,${title}\n${Array.from({ length: 8760 }, (_, h) => `${new Date(Date.UTC(2025, 0, 1, h)).toISOString().slice(0, 16)},${rate(h)}`).join("\n")}\n`,
  );
const read = (bytes: Uint8Array, more: object = {}) =>
  readDemand(bytes, { file: "a.csv", reading: {}, calendar, quantity: "power", ...more });

describe("absurd values", () => {
  it("are refused with their row and what is believed", () => {
    const account = read(file((h) => (h === 500 ? 1e15 : 100)));
    expect(account.problems).toMatchObject([{ code: "DEMAND_ABSURD", place: { row: 502 } }]);
    expect(account.problems[0]!.message).toContain("more than 1000 times the 100 kW below which 99 %");
    expect(account.hourly).toBeNull();
    const everywhere = read(file(() => 5e6));
    expect(everywhere.problems[0]!.message).toContain("more than 1,000,000 kW is not believed");
  });

  it("are none among rates up to a thousand times the usual (any level)", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 900, noNaN: true }), (level) => {
        const rate = new Float64Array(200).fill(level);
        rate[7] = 999 * level;
        expect(absurdRates(rate, "power", "kW")).toBeNull();
        rate[7] = 1001 * level;
        expect(absurdRates(rate, "power", "kW")?.at).toEqual([7]);
        expect(absurdRates(rate, "price", "per kWh")).toBeNull();
      }),
    );
  });

  it("have their gaps drawn even where the file is refused", () => {
    const account = read(file((h) => (h > 3000 && h < 3100 ? "" : 100)));
    expect(account.problems.map(({ code }) => code)).toEqual(["DEMAND_GAP"]);
    const gap = account.quality.findings.find(({ kind, from }) => kind === "gap" && from !== null);
    expect(gap).toMatchObject({ from: 3001, to: 3099, count: 99 });
    expect(account.known![3000]).toBe(100);
    expect(account.known![3050]).toBeNaN();
  });
});

describe("a year against its bills", () => {
  it("is asked about by the factor of a mistaken unit, with the year of each unit", () => {
    const year = (h: number) => 100 + (h % 24);
    const total_kWh = 8760 * 111.5;
    for (const [factor, why] of [
      [1, null],
      [3.6, "MJ and kWh differ by 3.6"],
      [24, "figures of a day and of an hour differ by 24"],
      [1000, "k and M differ by 1000"],
    ] as const) {
      const account = read(file(year), { billed_kWh: total_kWh / factor });
      expect(account.questions.map(({ code }) => code)).toEqual(factor === 1 ? [] : ["DEMAND_BILLED"]);
      if (why !== null) expect(account.questions[0]!.sentence).toContain(why);
    }
    const [question] = read(file(year), { billed_kWh: total_kWh / 1000 }).questions;
    expect(question!.choices.find(({ value }) => value === "kW")!.sentence).toContain("977 MWh");
    // Said by the user: not asked again.
    expect(read(file(year), { billed_kWh: 1, reading: { unit: "kW" } }).questions).toEqual([]);
  });

  it("agrees within two thirds and one and a half of them", () => {
    expect(billedSlip(100, 100)).toBeNull();
    expect(billedSlip(68, 100)).toBeNull();
    expect(billedSlip(149, 100)).toBeNull();
    expect(billedSlip(200, 100)).toMatchObject({ factor: null });
    expect(billedSlip(27.8, 100)).toMatchObject({ factor: 1 / 3.6 });
  });
});
