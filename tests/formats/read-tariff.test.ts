import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../src/core/calendar.ts";
import { readPrices } from "../../src/formats/prices/read-prices.ts";
import { looksLikeTariff, readTariff } from "../../src/formats/prices/read-tariff.ts";
import { tariffProblems } from "../../src/formats/prices/tariff-problems.ts";
import { expectPrinted } from "../support/close.ts";
import { calendarOf, madridClock } from "../support/load-inputs.ts";

const hours = (period: (hour: number) => number) => Array.from({ length: 24 }, (_, hour) => period(hour));
const months = (period: (month: number, hour: number) => number) =>
  Array.from({ length: 12 }, (_, month) => hours((hour) => period(month, hour)));
/** Dear on workday afternoons of the summer half, cheap at weekends. */
const tariff = () => ({
  name: "Works tariff",
  energyratestructure: [[{ rate: 0.1 }], [{ rate: 0.2, adj: 0.01 }], [{ rate: 0.06 }]] as unknown[],
  energyweekdayschedule: months((month, hour) =>
    month >= 3 && month < 9 && hour >= 12 && hour < 18 ? 1 : 0,
  ),
  energyweekendschedule: months(() => 2),
  demandratestructure: [[{ rate: 0 }], [{ rate: 9.5 }]],
  flatdemandstructure: [[{ rate: 20 }]],
  fixedchargefirstmeter: 450,
  fixedchargeunits: "$/month",
});
const clock = calendarOf(madridClock);
const read = (given: unknown) => readTariff(JSON.stringify(given), "tariff.json", clock);

describe("readTariff(text, file, clock)", () => {
  it("prices every hour by month, kind of day and hour of the factory's clock", () => {
    const { hourly, problems } = read(tariff());
    expect(problems).toEqual([]);
    for (let t = 0; t < 8760; t += 1) {
      const [month, weekday, hour] = [clock.civilMonth[t]!, clock.civilWeekday[t]!, clock.civilHour[t]!];
      const dear = month >= 4 && month <= 9 && hour >= 12 && hour < 18;
      expect(hourly![t]).toBe(weekday >= 6 ? 0.06 : dear ? 0.21000000000000002 : 0.1);
    }
  });

  it("names every charge that it does not count", () => {
    const [finding] = read(tariff()).findings;
    expect(finding!.code).toBe("TARIFF_NOT_COUNTED");
    for (const words of [
      "demand charges by period of 0 to 9.5 a kW and month",
      "a demand charge of 20 a kW and month",
      "a fixed charge of 450 $/month",
    ])
      expect(finding!.message).toContain(words);
    const tiers = {
      ...tariff(),
      energyratestructure: [[{ rate: 0.1, max: 500 }, { rate: 0.2 }], [{ rate: 1 }], [{ rate: 2 }]],
    };
    expect(read(tiers).findings[0]!.message).toContain("the first stands for all");
  });

  it("tells all faults at once, with their places", () => {
    const broken = tariff() as Record<string, unknown>;
    broken.energyratestructure = [[{ rate: 0.1 }], [{}]];
    (broken.energyweekdayschedule as number[][])[4]![7] = 9;
    (broken.energyweekendschedule as number[][])[2] = [1, 2];
    expect(read(broken).problems.map(({ code, place }) => `${code} ${place.path}`)).toEqual([
      "TARIFF_RATES energyratestructure/1/0/rate",
      "TARIFF_SCHEDULE energyweekdayschedule/4/7",
      // The rates have two periods, and weekends ask for a third.
      "TARIFF_SCHEDULE energyweekendschedule/0/0",
      "TARIFF_SCHEDULE energyweekendschedule/1/0",
      "TARIFF_SCHEDULE energyweekendschedule/2",
      ...Array.from({ length: 9 }, (_, n) => `TARIFF_SCHEDULE energyweekendschedule/${n + 3}/0`),
    ]);
    expect(read({}).problems.map(({ code }) => code)).toEqual([
      "TARIFF_RATES",
      "TARIFF_SCHEDULE",
      "TARIFF_SCHEDULE",
    ]);
    expect(read({ items: [tariff(), tariff()] }).problems[0]!.message).toBe(
      "The file holds 2 tariffs; give one.",
    );
    expect(readTariff("{ broken", "t.json", clock).problems[0]!.code).toBe("TARIFF_JSON");
    expect(Object.keys(tariffProblems)).toHaveLength(4);
  });

  it("never throws, whatever JSON it is given", () => {
    fc.assert(
      fc.property(fc.json(), (text) => {
        const { hourly, problems } = readTariff(text, "t.json", clock);
        expect(hourly === null ? problems.length > 0 : hourly.length === 8760).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  it("is chosen by the file's content, beside a CSV of hours", () => {
    const bytes = new TextEncoder().encode(`\n${JSON.stringify(tariff())}`);
    expect(looksLikeTariff(bytes)).toBe(true);
    expect(readPrices(bytes, "t.json", clock).hourly).toHaveLength(8760);
    const csv = new TextEncoder().encode("Time,Price\n2025-01-01T00:00,0.1\n");
    expect(looksLikeTariff(csv)).toBe(false);
  });
});

// A published industrial tariff of 2024: rates of 0.089 to 0.151 USD/kWh in six periods (README of the shared
// data), each with an adjustment of 0.00114 USD/kWh.
const shared = process.env.NOONKEEP_SHARED ?? fileURLToPath(new URL("../../../shared", import.meta.url));
const path = `${shared}/data/price/US_industrial_time_of_use.json`;
describe("a real tariff", () => {
  it.skipIf(!existsSync(path))(
    "US_industrial_time_of_use.json: six rates, 0.089 to 0.151 before the adjustment, and what is not counted",
    () => {
      const phoenix = studyCalendar({ utcOffset_h: -7, timeZone: "America/Phoenix", calendarYear: 2025 });
      const { hourly, problems, findings } = readPrices(readFileSync(path), "tariff.json", phoenix);
      expect(problems).toEqual([]);
      expectPrinted(Math.min(...hourly!) - 0.00114, "0.089");
      expectPrinted(Math.max(...hourly!) - 0.00114, "0.151");
      expect(new Set(hourly).size).toBe(6);
      for (const words of ["0 to 29.54 a kW", "25.36 a kW", "0.66 a kVAr", "447.44 $/month"])
        expect(findings[0]!.message).toContain(words);
    },
  );
});
