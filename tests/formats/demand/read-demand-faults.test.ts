import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../../src/core/calendar.ts";
import { demandProblems } from "../../../src/formats/demand/demand-problems.ts";
import { readDemand } from "../../../src/formats/demand/read-demand.ts";

const calendar = studyCalendar({ utcOffset_h: -7, timeZone: "Etc/GMT+7", calendarYear: 2023 });

/** A sound hourly year; row 1 is the header, so hour h stands in row h + 2. */
function sound(header = "time,heat [kW]"): string[] {
  const rows = Array.from({ length: 8760 }, (_, hour) => {
    const stamp = new Date(Date.UTC(2023, 0, 1) + hour * 3_600_000)
      .toISOString()
      .slice(0, 16)
      .replace("T", " ");
    return `${stamp},${100 + (hour % 24) + (hour % 7) / 8}`;
  });
  return [header, ...rows];
}

function read(lines: readonly string[], reading = {}) {
  return readDemand(new TextEncoder().encode(lines.join("\n")), {
    file: "year.csv",
    reading,
    calendar,
    quantity: "power",
  });
}

/** Row r of the file with another cell. */
function put(lines: string[], row: number, change: { stamp?: string; value?: string }): void {
  const [stamp, value] = lines[row - 1]!.split(",");
  lines[row - 1] = `${change.stamp ?? stamp},${change.value ?? value}`;
}

const told = (account: ReturnType<typeof read>) =>
  account.problems.map(({ code, place }) => [code, place.row]);

describe("faults of a demand file", () => {
  it("are all told at once, each with its row", () => {
    const lines = sound();
    put(lines, 5, { value: "n.b." });
    put(lines, 9, { value: "-3" });
    put(lines, 12, { stamp: "2023-02-30 10:00" });
    put(lines, 20, { stamp: "2023-01-01 18:17" });
    lines[29] = `${lines[29]},7`;
    lines[39] = "2023-01-02 14:00";
    const account = read(lines);
    expect(account.hourly).toBeNull();
    expect(told(account)).toEqual([
      ["DEMAND_ROW_WIDTH", 30],
      ["DEMAND_ROW_WIDTH", 40],
      ["DEMAND_NUMBER_NOT_UNDERSTOOD", 5],
      ["DEMAND_TIME_NOT_UNDERSTOOD", 12],
      ["DEMAND_IRREGULAR", 20],
      ["DEMAND_NEGATIVE", 9],
    ]);
    expect(account.problems[2]!.message).toContain('"n.b."');
    for (const { code, place } of account.problems) {
      expect(demandProblems).toHaveProperty(code);
      expect(place.file).toBe("year.csv");
    }
  });

  it("name every row in shortened form beyond twenty", () => {
    const lines = sound();
    for (const row of [12, ...Array.from({ length: 30 }, (_, k) => 40 + k)])
      put(lines, row, { value: "off" });
    const account = read(lines);
    expect(account.problems).toHaveLength(1);
    expect(account.problems[0]!.message).toContain("31 rows");
    expect(account.problems[0]!.message).toContain("rows 12, 40–69");
    expect(account.problems[0]!.message).toContain('"off"');
  });

  it("tell mixed decimal signs and mixed orders of the date", () => {
    const lines = sound("time;heat [kW]").map((line) => line.replace(",", ";"));
    lines[6] = lines[6]!.replace(/;.*/, ";7,25");
    expect(told(read(lines))).toEqual([["DEMAND_DECIMAL_MIXED", 7]]);

    const dates = sound().map((line) => line.replace(/^(\d+)-(\d+)-(\d+)/, "$3/$2/$1"));
    put(dates, 900, { stamp: "02/25/2023 10:00" });
    expect(told(read(dates))).toEqual([["DEMAND_DATE_ORDER_MIXED", 900]]);
  });

  it("tell two values for one time, and let a row that stands twice pass with a remark", () => {
    const lines = sound();
    lines.splice(50, 0, lines[49]!);
    const same = read(lines);
    expect(same.problems).toEqual([]);
    expect(same.quality.findings.find(({ kind }) => kind === "double")).toMatchObject({
      count: 1,
      rows: { from: 51, to: 51 },
    });
    put(lines, 51, { value: "1" });
    expect(told(read(lines))).toEqual([["DEMAND_DOUBLE", 51]]);
  });

  it("refuse a long gap and name it, and a year too full of short ones", () => {
    const lines = sound();
    lines.splice(100, 30);
    const gap = read(lines);
    expect(told(gap)).toEqual([["DEMAND_GAP", 100]]);
    expect(gap.problems[0]!.message).toContain("30 hours");
    expect(gap.problems[0]!.message).toContain("between row 100 and row 101");

    const holes = sound().filter((_, row) => row === 0 || row % 12 !== 5);
    expect(read(holes).problems.map(({ code }) => code)).toEqual(["DEMAND_FILLED_SHARE"]);
  });

  it("refuse daily figures, more than a year, and files without time or numbers", () => {
    const daily = sound().filter((_, row) => row === 0 || row % 24 === 1);
    expect(read(daily).problems.map(({ code }) => code)).toEqual(["DEMAND_STEP"]);
    const lines = sound();
    const later = lines.slice(1).map((line) => line.replace(/^2023/, "2025"));
    expect(read([...lines, ...later]).problems.map(({ code }) => code)).toEqual(["DEMAND_MORE_THAN_A_YEAR"]);
    expect(read(["a,b", "x,y", "u,v"]).problems.map(({ code }) => code)).toEqual([
      "DEMAND_NO_TIME_COLUMN",
      "DEMAND_NO_VALUE_COLUMN",
    ]);
    expect(read([]).problems.map(({ code }) => code)).toEqual(["DEMAND_EMPTY"]);
    expect(read(["t,kW", '"2023-01-01 00:00,1', "2023-01-01 01:00,2"]).problems[0]!.code).toBe(
      "DEMAND_QUOTE_OPEN",
    );
  });

  it("name a decimal comma beside a comma as separator", () => {
    const lines = sound().map((line, row) => (row === 0 ? line : line.replace(/,.*/, ",12,5")));
    const [first] = read(lines).problems;
    expect(first).toMatchObject({ code: "DEMAND_ROW_WIDTH", place: { row: 1 } });
    expect(first!.message).toContain("decimal comma");
  });

  it("take a broken first stamp for a fault and not for a header", () => {
    const lines = sound();
    put(lines, 2, { stamp: "2023-13-01 00:00" });
    expect(told(read(lines))).toEqual([["DEMAND_TIME_NOT_UNDERSTOOD", 2]]);
  });

  it("never throw for any bytes, and never give hours without 8760 of them", () => {
    const pieces = fc.constantFrom(
      "2023-01-01 00:00",
      "31.12.2023 24:00",
      ";",
      ",",
      "\t",
      "\n",
      '"',
      "1,5",
      "-1e308",
      "\0",
      "kWh",
      "NaN",
      "99:99",
    );
    const anything = fc.oneof(
      fc.uint8Array({ maxLength: 300 }),
      fc.array(pieces, { maxLength: 60 }).map((parts) => new TextEncoder().encode(parts.join(""))),
    );
    fc.assert(
      fc.property(anything, (bytes) => {
        const account = readDemand(bytes, { file: "x", reading: {}, calendar, quantity: "any" });
        expect(account.problems.length > 0).toBe(account.hourly === null);
      }),
      { numRuns: 1500 },
    );
  });
});

describe("gaps that may be filled", () => {
  it("are bridged by a straight line up to 3 hours", () => {
    const lines = sound();
    lines.splice(101, 2);
    const account = read(lines);
    expect(account.problems).toEqual([]);
    const [a, b] = [account.hourly![99]!, account.hourly![102]!];
    expect(account.hourly![100]).toBeCloseTo(a + (b - a) / 3, 12);
    expect(account.hourly![101]).toBeCloseTo(a + (2 * (b - a)) / 3, 12);
    expect(account.quality.filled.map(({ hours }) => hours)).toEqual([[100, 101]]);
    expect(account.quality.findings).toContainEqual(
      expect.objectContaining({ kind: "filled", count: 2, from: 100, to: 101 }),
    );
  });

  it("take the weeks before and after up to 24 hours, empty cells as well", () => {
    const lines = sound();
    for (let hour = 1000; hour < 1010; hour += 1) put(lines, hour + 2, { value: "" });
    const account = read(lines);
    expect(account.hourly![1004]).toBe((account.hourly![1004 - 168]! + account.hourly![1004 + 168]!) / 2);
    expect(account.quality.filled).toHaveLength(1);
    expect(account.quality.findings[0]).toMatchObject({
      kind: "gap",
      count: 10,
      rows: { from: 1002, to: 1011 },
    });
    expect(account.quality.findings[0]!.sentence).toContain("rows 1002–1011");
  });

  it("use what is known of an hour if that is half of it, and count the hour", () => {
    const rows = Array.from({ length: 35040 }, (_, k) => {
      const stamp = new Date(Date.UTC(2023, 0, 1) + k * 900_000).toISOString().slice(0, 16);
      return `${stamp},${k % 4 === 0 ? 8 : 4}`;
    });
    const lines = ["time,heat [kW]", ...rows];
    put(lines, 41, { value: "" });
    put(lines, 40, { value: "NA" });
    const account = read(lines);
    // Rows 38 to 41 are hour 9: 8, 4 known and two missing.
    expect(account.hourly![9]).toBe(6);
    expect(account.hourly![10]).toBe(5);
    expect(account.quality.filled[0]).toMatchObject({ hours: [9] });
  });

  it("move stamps that are off by seconds and remark rows out of order", () => {
    const lines = sound();
    put(lines, 10, { stamp: "2023-01-01 08:00:04" });
    const [moved] = lines.splice(4000, 1);
    lines.push(moved!);
    const account = read(lines);
    expect(account.problems).toEqual([]);
    expect(account.hourly).toEqual(read(sound()).hourly);
    expect(account.quality.findings.map(({ kind, rows }) => [kind, rows!.from])).toEqual([
      ["irregular", 10],
      ["order", 8761],
    ]);
  });
});
