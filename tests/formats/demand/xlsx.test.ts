import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../../src/core/calendar.ts";
import type { DemandReading } from "../../../src/core/study/schema/profile.ts";
import { readDemand } from "../../../src/formats/demand/read-demand.ts";
import { asXlsx, cell, flatOds, hasOffice, type OdsSheet } from "../../support/office.ts";

// The workbooks are written by LibreOffice; the hours expected are those of the numbers that went in.
const calendar = studyCalendar({ utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2023 });
const read = (bytes: Uint8Array, reading: DemandReading = {}) =>
  readDemand(bytes, { file: "year.xlsx", reading, calendar, quantity: "power" });

const power = (hour: number) => 100 + ((hour * 37) % 1009) + 0.125 * (hour % 8);
const stamp = (hour: number) => new Date(Date.UTC(2023, 0, 1, hour)).toISOString().slice(0, 19);
const year = Float64Array.from({ length: 8760 }, (_, hour) => power(hour));
const hours = Array.from(year.keys());

const boilers: OdsSheet = {
  name: "Boilers",
  rows: [
    cell.text("Works meter list", 3),
    cell.empty() + cell.text("Boiler 1", 1) + cell.text("Boiler 2", 1),
    cell.text("Time") + cell.text("kW") + cell.text("kW"),
    ...hours.map(
      (h) =>
        cell.date(stamp(h)) +
        (h % 5 === 0 ? cell.text(String(year[h])) : cell.number(year[h]!)) +
        cell.formula(`${year[h]}*2`),
    ),
  ],
};
const notes: OdsSheet = { name: "Notes", rows: [cell.text("kept by the shift leader")] };

/** LibreOffice shows the sheet that it opens with, so a hidden first sheet is marked so afterwards. */
function hideFirst(bytes: Uint8Array): Uint8Array {
  const parts = unzipSync(bytes);
  const book = strFromU8(parts["xl/workbook.xml"]!);
  return zipSync({
    ...parts,
    "xl/workbook.xml": strToU8(book.replace('state="visible"', 'state="hidden"')),
  });
}

describe("xlsx written by LibreOffice", () => {
  it.skipIf(!hasOffice)("from a CSV gives the hours of the CSV", { timeout: 120_000 }, () => {
    const csv = `Time,Heat [kW]\n${hours.map((h) => `${stamp(h).replace("T", " ")},${year[h]}`).join("\n")}\n`;
    const account = read(asXlsx(csv, "csv"));
    expect(account.problems).toEqual([]);
    expect(account.questions).toEqual([]);
    expect(account.hourly).toEqual(year);
    expect(account.resolvedReading).toMatchObject({
      sheet: account.understood.sheet,
      valueColumn: "Heat [kW]",
    });
    expect(account.resolvedReading.delimiter).toBeUndefined();
  });

  for (const nullDate of ["1899-12-30", "1904-01-01"] as const) {
    it.skipIf(!hasOffice)(
      `reads days from ${nullDate}, formulas, merged headers, numbers as text and passes over a hidden sheet`,
      { timeout: 120_000 },
      () => {
        const bytes = hideFirst(asXlsx(flatOds([notes, boilers], nullDate), "fods"));
        const account = read(bytes);
        expect(account.problems).toEqual([]);
        expect(account.understood.sheet).toBe("Boilers");
        expect(account.understood.encoding).toContain(nullDate === "1904-01-01" ? "1904" : "1900");
        expect(account.understood.columns.map(({ name }) => name)).toEqual([
          "Time",
          "Boiler 1 kW",
          "Boiler 2 kW",
        ]);
        expect(account.understood.firstStamp).toBe("2023-01-01 00:00:00");
        expect(account.questions.map(({ code }) => code)).toEqual([
          "DEMAND_WHICH_SHEET",
          "DEMAND_WHICH_VALUE",
        ]);
        expect(account.hourly).toEqual(year);
        const second = read(bytes, { sheet: "Boilers", valueColumn: "Boiler 2 kW" });
        expect(second.questions).toEqual([]);
        expect(second.hourly).toEqual(year.map((value) => 2 * value));
        expect(read(bytes, second.resolvedReading).hourly).toEqual(second.hourly);
      },
    );
  }

  it.skipIf(!hasOffice)("tells sheets and cells that cannot be used", { timeout: 120_000 }, () => {
    const broken: OdsSheet = {
      name: "Boilers",
      rows: boilers.rows.map((row, i) =>
        i === 12 ? cell.date(stamp(9)) + cell.formula("1/0") + cell.number(1) : row,
      ),
    };
    const bytes = asXlsx(flatOds([broken], "1899-12-30"), "fods");
    expect(read(bytes, { valueColumn: "Boiler 1 kW" }).problems).toMatchObject([
      { code: "DEMAND_NUMBER_NOT_UNDERSTOOD", place: { row: 13, column: "Boiler 1 kW" } },
    ]);
    const [unknown] = read(bytes, { sheet: "Boiler" }).problems;
    expect(unknown).toMatchObject({ code: "DEMAND_SHEET_UNKNOWN" });
    expect(unknown!.message).toContain("the file's sheets are Boilers");
  });

  it.skipIf(!hasOffice)("reads dates whose format was lost as days", { timeout: 120_000 }, () => {
    // ECMA-376 part 1, 18.17.4.1: serial 44927 is 1 January 2023 in the 1900 date system.
    const rows = hours.map((h) => cell.number(44927 + h / 24) + cell.number(year[h]!));
    const sheet = { name: "Log", rows: [cell.text("When") + cell.text("kW"), ...rows] };
    const account = read(asXlsx(flatOds([sheet], "1899-12-30"), "fods"));
    expect(account.problems).toEqual([]);
    expect(account.hourly).toEqual(year);
  });

  const shared = process.env.NOONKEEP_SHARED ?? fileURLToPath(new URL("../../../../shared", import.meta.url));
  const b2 = `${shared}/data/demand/Cambridge_b2_gas_2013.csv`;
  // Source: EECi Cambridge Estates Building Energy Archive (MIT).
  it.skipIf(!hasOffice || !existsSync(b2))(
    "gives a real gas meter's hours as its CSV does",
    { timeout: 120_000 },
    () => {
      const csv = readFileSync(b2);
      const quantity = "power" as const;
      const plain = readDemand(csv, { file: "b2.csv", reading: {}, calendar, quantity });
      const account = read(asXlsx(csv, "csv"));
      expect(account.problems).toEqual([]);
      expect(account.hourly).toEqual(plain.hourly);
    },
  );
});

describe("files that are no workbook", () => {
  const codes = (bytes: Uint8Array) => read(bytes).problems.map(({ code }) => code);
  it("are refused in a sentence", () => {
    expect(codes(Uint8Array.of(0x50, 0x4b, 3, 4, 1, 2, 3))).toEqual(["DEMAND_NOT_XLSX"]);
    expect(codes(Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1))).toEqual(["DEMAND_NOT_XLSX"]);
    expect(codes(zipSync({ "letter.xml": new Uint8Array(10) }))).toEqual(["DEMAND_NOT_XLSX"]);
  });
  it("are refused where they unpack to more than the limit, or lie about it", () => {
    const large = zipSync({ "xl/workbook.xml": new Uint8Array(260_000_000) }, { level: 1 });
    expect(read(large).problems[0]!.message).toContain("250 MB");
  });
});
