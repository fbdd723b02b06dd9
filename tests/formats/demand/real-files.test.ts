import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../../src/core/calendar.ts";
import { readDemand } from "../../../src/formats/demand/read-demand.ts";
import { expectPrinted } from "../../support/close.ts";

// Source: EECi Cambridge Estates Building Energy Archive (MIT); figures from the README of the shared data.
const shared = process.env.NOONKEEP_SHARED ?? fileURLToPath(new URL("../../../../shared", import.meta.url));
const path = (name: string) => `${shared}/data/${name}`;
const calendar = studyCalendar({ utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2023 });
const read = (name: string, quantity: "power" | "price") =>
  readDemand(readFileSync(path(name)), { file: name, reading: {}, calendar, quantity });

describe("real files", () => {
  const b2 = "demand/Cambridge_b2_gas_2013.csv";
  it.skipIf(!existsSync(path(b2)))("Cambridge_b2_gas_2013.csv: 2.93 GWh, peak 500 kW, 2 zeros", () => {
    const { understood, problems, hourly, quality } = read(b2, "power");
    expect(problems).toEqual([]);
    expect(understood).toMatchObject({
      rows: 8760,
      unit: "kWh",
      unitHow: "said in the header",
      yearOfFile: 2013,
      peak_kW: 500,
    });
    expectPrinted(understood.total_kWh! / 1e6, "2.93");
    expect(hourly!.filter((value) => value === 0)).toHaveLength(2);
    expect(quality.findings.some(({ kind }) => kind === "zero-run")).toBe(false);
  });

  const b111 = "demand/Cambridge_b111_gas_2011.csv";
  it.skipIf(!existsSync(path(b111)))(
    "Cambridge_b111_gas_2011.csv: the 1240 zeros at its start are found",
    () => {
      const { understood, hourly, quality } = read(b111, "power");
      expectPrinted(understood.total_kWh! / 1e6, "3.74");
      expect(hourly!.filter((value) => value === 0)).toHaveLength(1305);
      expect(quality.findings[0]).toMatchObject({
        kind: "zero-run",
        count: 1240,
        from: 0,
        to: 1239,
        rows: { from: 2, to: 1241 },
      });
    },
  );

  const price = "price/GB_retail_dynamic_2022.csv";
  it.skipIf(!existsSync(path(price)))(
    "GB_retail_dynamic_2022.csv: a price with mean 0.365, flat for up to 270 h",
    () => {
      const { understood, problems, quality } = read(price, "price");
      expect(problems).toEqual([]);
      expect(understood).toMatchObject({
        rows: 8760,
        unit: "per kWh",
        hourlyUnit: "per kWh",
        total_kWh: null,
      });
      expectPrinted(understood.mean!, "0.365");
      const longest = Math.max(
        ...quality.findings.filter(({ kind }) => kind === "stuck").map(({ count }) => count),
      );
      expect(Math.abs(longest - 270)).toBeLessThanOrEqual(1);
    },
  );
});
