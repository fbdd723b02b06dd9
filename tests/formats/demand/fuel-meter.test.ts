import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../../src/core/calendar.ts";
import type { DemandReading } from "../../../src/core/study/schema/profile.ts";
import { readDemand } from "../../../src/formats/demand/read-demand.ts";

const calendar = studyCalendar({ utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2023 });
const flow = (hour: number) => 10 + (hour % 24);
const file = (unit: string, factor = 1) =>
  new TextEncoder().encode(
    `Time,Gas [${unit}]\n${Array.from({ length: 8760 }, (_, h) => `${new Date(Date.UTC(2023, 0, 1, h)).toISOString().slice(0, 16)},${flow(h) * factor}`).join("\n")}\n`,
  );
const read = (bytes: Uint8Array, reading: DemandReading) =>
  readDemand(bytes, { file: "gas.csv", reading, calendar, quantity: "power" });

// Net 10.0 and gross 11.1 kWh/m³ at ratio 1.11: common practice for natural gas, no source.
const net = { kWh_per_unit: 10, heatingValueIs: "net", efficiency: 0.9 } as const;

describe("metered fuel", () => {
  it("becomes heat by heating value and efficiency, in m³ per hour or per interval", () => {
    for (const unit of ["m³/h", "m3"]) {
      const account = read(file(unit), { fuel: net });
      expect(account.problems).toEqual([]);
      expect(account.questions).toEqual([]);
      expect(account.understood.hourlyUnit).toBe("kW");
      expect(account.hourly![5]).toBeCloseTo(15 * 9, 9);
      expect(read(file(unit), account.resolvedReading).hourly).toEqual(account.hourly);
    }
  });

  it("gives the same heat by mass, by tonnes, by kWh and on the gross heating value", () => {
    const expected = read(file("m3/h"), { fuel: net }).hourly!;
    const gross = { kWh_per_unit: 11.1, heatingValueIs: "gross", efficiency: 0.9 / 1.11 } as const;
    const others = [
      read(file("kg/h"), { fuel: net }),
      read(file("t/h", 1e-3), { fuel: net }),
      read(file("kWh", 10), { fuel: { ...net, kWh_per_unit: 1 } }),
      read(file("m3/h"), { fuel: gross }),
    ];
    for (const { hourly, problems } of others) {
      expect(problems).toEqual([]);
      hourly!.forEach((heat, h) => {
        expect(Math.abs(heat - expected[h]!)).toBeLessThan(1e-9);
      });
    }
  });

  it("is refused without a fuel, and with an efficiency that the gross basis forbids", () => {
    expect(read(file("m3/h"), {}).problems.map(({ code }) => code)).toEqual(["DEMAND_UNIT_UNSUPPORTED"]);
    expect(read(file("m3/h"), {}).problems[0]!.message).toContain("give its heating value and efficiency");
    const beyond = { kWh_per_unit: 11, heatingValueIs: "gross", efficiency: 1.05 } as const;
    expect(read(file("m3/h"), { fuel: beyond }).problems.map(({ code }) => code)).toEqual([
      "DEMAND_FUEL_EFFICIENCY",
    ]);
  });
});
