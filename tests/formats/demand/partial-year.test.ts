import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../../src/core/calendar.ts";
import { calendarShares } from "../../../src/core/demand/calendar-shares.ts";
import { sum } from "../../../src/core/series.ts";
import type { DemandReading } from "../../../src/core/study/schema/profile.ts";
import type { Calendar } from "../../../src/core/study/schema/study.ts";
import { readDemand } from "../../../src/formats/demand/read-demand.ts";
import { startingCalendar } from "../../../src/web/forms/starting-calendar.ts";
import { expectClose } from "../../support/close.ts";

const clock = studyCalendar({ utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2027 });
const plan = startingCalendar("plan", "two-shifts")!;
/** What the works drew in 2023, on that year's weekdays: 1 January 2023 was a Sunday, 2027's a Friday. */
const then = calendarShares(plan, studyCalendar({ utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2023 }));
const drawn_kW = (hour: number) => 80 + 320 * then[(hour + 8760) % 8760]!;
/** A log of 2023 from a day of the year on; its clock shows `fast_h` more than the time. */
const log = (firstDay: number, days: number, fast_h = 0, rate = drawn_kW) =>
  new TextEncoder().encode(
    `Time,Heat [kW]\n${Array.from({ length: days * 24 }, (_, k) => {
      const hour = firstDay * 24 + k;
      return `${new Date(Date.UTC(2023, 0, 1, hour)).toISOString().slice(0, 16)},${rate(hour - fast_h).toFixed(2)}`;
    }).join("\n")}\n`,
  );
const read = (bytes: Uint8Array, reading: DemandReading, calendars: readonly Calendar[] = [plan]) =>
  readDemand(bytes, {
    file: "log.csv",
    reading: { stamp: "start", clock: "standard", ...reading },
    calendar: clock,
    calendars,
    quantity: "power",
  });

describe("a log of eight weeks", () => {
  it("is refused as a gap, with the way out, and extended by the calendar where that is asked", () => {
    const bytes = log(60, 56);
    const alone = read(bytes, {});
    expect(alone.problems.map(({ code }) => code)).toEqual(["DEMAND_GAP", "DEMAND_FILLED_SHARE"].slice(0, 1));
    expect(alone.problems[0]!.message).toContain("let a calendar extend the log");

    const account = read(bytes, { calendar: "plan", extend: true });
    expect(account.problems).toEqual([]);
    expect(account.questions).toEqual([]);
    const shares = calendarShares(plan, clock);
    // Logged hours keep their dates; the others are on the weekdays of the study's year.
    for (let t = 0; t < 8760; t += 1) {
      const expected = t >= 1440 && t < 1440 + 56 * 24 ? drawn_kW(t) : 80 + 320 * shares[t]!;
      expectClose(account.hourly![t]!, expected, 1e-2);
    }
    expect(account.extension).toMatchObject({ calendar: "New calendar", extended_h: 8760 - 1344 });
    expect(account.extension!.fit.weeks).toHaveLength(8);
    const told = account.quality.findings.find(({ kind }) => kind === "extended");
    expect(told?.sentence).toContain("7416 hours were not logged");
    expect(told?.sentence).toContain("R² 1.00");
    expect(read(bytes, account.resolvedReading).hourly).toEqual(account.hourly);
  });

  it("is too short with less than two weeks, in a sentence", () => {
    const account = read(log(60, 13), { calendar: "plan", extend: true });
    expect(account.problems.map(({ code }) => code)).toContain("DEMAND_LOG_TOO_SHORT");
    expect(account.hourly).toBeNull();
  });

  it("asks about a clock that was three hours fast, changes nothing meanwhile, and moves when told", () => {
    const bytes = log(60, 56, 3);
    const asked = read(bytes, { calendar: "plan", extend: true });
    expect(asked.questions).toMatchObject([
      { code: "DEMAND_CLOCK_OFFSET", field: "clockOffset_h", taken: "0" },
    ]);
    expect(asked.questions[0]!.choices.map(({ value }) => value)).toEqual(["0", "-3"]);
    expectClose(asked.hourly![1440 + 12]!, drawn_kW(1440 + 9), 1e-2);

    const moved = read(bytes, { calendar: "plan", extend: true, clockOffset_h: -3 });
    expect(moved.questions).toEqual([]);
    for (let t = 1440; t < 1440 + 1300; t += 1) expectClose(moved.hourly![t]!, drawn_kW(t), 1e-2);
    expect(read(bytes, { calendar: "plan", extend: true, clockOffset_h: 0 }).questions).toEqual([]);
  });

  it("asks the same of a full year, which needs no extension", () => {
    const account = read(log(0, 365, -2), { calendar: "plan" });
    expect(account.questions.map(({ code }) => code)).toEqual(["DEMAND_CLOCK_OFFSET"]);
    expect(account.extension).toBeNull();
  });
});

// Source: EECi Cambridge Estates Building Energy Archive (MIT), in the shared data.
const shared = process.env.NOONKEEP_SHARED ?? fileURLToPath(new URL("../../../../shared", import.meta.url));
const b2 = `${shared}/data/demand/Cambridge_b2_gas_2013.csv`;
describe("eight weeks of a real meter", () => {
  it.skipIf(!existsSync(b2))(
    "foretell the rest of its year as docs/methods/demand-import.md says: seasons are worth several per cent",
    () => {
      const lines = readFileSync(b2, "utf8").trimEnd().split(/\r?\n/);
      const utc2013 = studyCalendar({ utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2013 });
      const whole = readDemand(readFileSync(b2), {
        file: "b2.csv",
        reading: {},
        calendar: utc2013,
        quantity: "power",
      }).hourly!;
      const misses: number[] = [];
      for (const first of [20, 110, 200, 280]) {
        const cut = [lines[0], ...lines.slice(1 + first * 24, 1 + (first + 56) * 24)].join("\n");
        const account = readDemand(new TextEncoder().encode(cut), {
          file: "b2.csv",
          reading: { calendar: "plan", extend: true, stamp: "start", clockOffset_h: 0 },
          calendar: utc2013,
          calendars: [plan],
          quantity: "power",
        });
        expect(account.problems).toEqual([]);
        const actual = sum(whole) - sum(whole.slice(first * 24, (first + 56) * 24));
        misses.push(Math.round((100 * (account.extension!.extended - actual)) / actual));
      }
      expect(misses).toEqual([6, 5, 0, -9]);
    },
  );
});
