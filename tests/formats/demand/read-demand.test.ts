import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../../src/core/calendar.ts";
import { readDemand } from "../../../src/formats/demand/read-demand.ts";
import { canonicalReading, writeHourlyCsv } from "../../../src/formats/demand/write-hourly-csv.ts";
import { expectClose } from "../../support/close.ts";
import { type Dressing, dress, expectedHours, intervalStarts, plain } from "./dress.ts";

const denver = studyCalendar({ utcOffset_h: -7, timeZone: "America/Denver", calendarYear: 2023 });
const adelaide = studyCalendar({ utcOffset_h: 9.5, timeZone: "Australia/Adelaide", calendarYear: 2023 });
const steady = studyCalendar({ utcOffset_h: -7, timeZone: "Etc/GMT+7", calendarYear: 2023 });

/** A year that changes every interval, so that a value in the wrong hour shows. */
const ramp = (k: number) => 100 + ((k * 37) % 1009);

function read(
  bytes: Uint8Array,
  calendar = denver,
  reading = {},
  quantity: "power" | "mass-flow" | "price" | "any" = "power",
) {
  return readDemand(bytes, { file: "year.csv", reading, calendar, quantity });
}

function expectHours(actual: Float64Array | null, expected: Float64Array): void {
  expect(actual).not.toBeNull();
  let worst = 0;
  actual!.forEach((value, hour) => {
    worst = Math.max(worst, Math.abs(value - expected[hour]!));
  });
  expect(worst).toBeLessThan(1e-9);
}

describe("one year in many dressings", () => {
  const forms: Partial<Dressing>[] = [
    {},
    { delimiter: ";", decimal: ",", encoding: "utf-8-bom", date: "day-first" },
    { delimiter: "\t", decimal: ",", encoding: "utf-16le", date: "month-first" },
    { delimiter: ",", decimal: ",", encoding: "latin-1", date: "split" },
    { delimiter: ";", decimal: ".", encoding: "latin-1", date: "iso-t", unit: "MW" },
    { delimiter: ";", decimal: ",", date: "split", unit: "MWh", step_min: 30, stamp: "end" },
    { date: "twelve-hour", unit: "kWh", step_min: 15 },
    { date: "iso", unit: "kWh", step_min: 10, stamp: "end", clock: "civil" },
    { date: "day-first", delimiter: ";", unit: "kWh", step_min: 15, clock: "civil" },
    { date: "month-first", unit: "MW", clock: "civil" },
    { date: "split", delimiter: ";", clock: "civil", stamp: "end" },
    { date: "iso", clock: "civil", descending: true, step_min: 30 },
    { date: "iso", clock: "standard", descending: true, stamp: "end" },
    { date: "iso", unit: "kW", step_min: 5 },
  ];
  for (const form of forms) {
    const dressing = { ...plain, ...form };
    it(`gives the same hours as ${JSON.stringify(form)}`, () => {
      const account = read(dress(dressing, ramp));
      expect(account.problems).toEqual([]);
      expect(account.understood).toMatchObject({
        delimiter: dressing.delimiter,
        unit: dressing.unit,
        step_min: dressing.step_min,
        stamp: dressing.stamp,
        clock: dressing.clock,
        yearOfFile: 2023,
      });
      expectHours(account.hourly, expectedHours(dressing, ramp));
    });
  }

  it("keeps the year's energy to 1e-9 for any series in any dressing", () => {
    const anyDressing = fc.record({
      clock: fc.constantFrom("standard" as const, "civil" as const),
      step_min: fc.constantFrom(60, 60, 30),
      delimiter: fc.constantFrom("," as const, ";" as const, "\t" as const),
      decimal: fc.constantFrom("." as const, "," as const),
      encoding: fc.constantFrom(
        "utf-8" as const,
        "utf-8-bom" as const,
        "utf-16le" as const,
        "latin-1" as const,
      ),
      date: fc.constantFrom(
        "iso" as const,
        "iso-t" as const,
        "day-first" as const,
        "month-first" as const,
        "split" as const,
        "twelve-hour" as const,
      ),
      unit: fc.constantFrom("kW" as const, "kWh" as const, "MW" as const, "MWh" as const),
      stamp: fc.constantFrom("start" as const, "end" as const),
      descending: fc.boolean(),
      south: fc.boolean(),
    });
    const values = fc.array(fc.double({ min: 0.0011, max: 9e5, noNaN: true }), {
      minLength: 50,
      maxLength: 200,
    });
    fc.assert(
      fc.property(anyDressing, values, ({ south, ...form }, series) => {
        const place = south ? { zone: "Australia/Adelaide", utcOffset_h: 9.5 } : {};
        const dressing = { ...plain, ...form, ...place };
        const power = (k: number) => series[k % series.length]!;
        const account = read(dress(dressing, power), south ? adelaide : denver);
        const expected = intervalStarts(dressing).reduce(
          (total, _, k) => total + (power(k) * dressing.step_min) / 60,
          0,
        );
        expect(account.problems).toEqual([]);
        expectClose(account.understood.total_kWh! / expected, 1, 1e-9);
      }),
      { numRuns: 12 },
    );
  });
});

describe("the clock", () => {
  it("reads a southern civil year, whose first hour is the last of the standard year", () => {
    const dressing = { ...plain, zone: "Australia/Adelaide", utcOffset_h: 9.5, clock: "civil" as const };
    const account = read(dress(dressing, ramp), adelaide);
    expect(account.understood).toMatchObject({ clock: "civil", rows: 8760, yearOfFile: 2023 });
    expect(account.questions).toEqual([]);
    expectHours(account.hourly, expectedHours(dressing, ramp));
    expect(account.hourly![8759]).toBe(ramp(0));
    expect(account.hourly![0]).toBe(ramp(1));
  });

  it("uses the daylight saving of the file's own year", () => {
    // 2011 and 2023 change their clocks on other dates: 13 March and 12 March in this zone.
    const dressing = { ...plain, year: 2011, clock: "civil" as const };
    const account = read(dress(dressing, ramp));
    expect(account.understood.clock).toBe("civil");
    expectHours(account.hourly, expectedHours(dressing, ramp));
  });

  it("reads end stamps written as start plus step without looking at the clock again", () => {
    const starts = { ...plain, clock: "civil" as const };
    const lines = new TextDecoder().decode(dress(starts, ramp)).trim().split("\r\n");
    const moved = lines.slice(1).map((line) => {
      const [stamp, value] = line.split(",");
      const end = new Date(Date.parse(`${stamp!.replace(" ", "T")}Z`) + 3_600_000).toISOString();
      return `${end.slice(0, 16).replace("T", " ")},${value}`;
    });
    const account = read(new TextEncoder().encode(["t,heat [kW]", ...moved].join("\n")));
    expect(account.understood).toMatchObject({ clock: "civil", stamp: "end" });
    expectHours(account.hourly, expectedHours(starts, ramp));
  });

  it("asks whether 8760 rows without gap or double are standard or civil, and honours either answer", () => {
    const bytes = dress(plain, ramp);
    const asked = read(bytes);
    expect(asked.questions.map(({ field, taken }) => [field, taken])).toEqual([["clock", "standard"]]);
    expectHours(asked.hourly, expectedHours(plain, ramp));

    const civil = read(bytes, denver, { clock: "civil" });
    expect(civil.questions).toEqual([]);
    // Before the change in spring nothing moves; in summer civil 12:00 is standard 11:00.
    expect(civil.hourly![100]).toBe(ramp(100));
    expect(civil.hourly![4811]).toBe(ramp(4812));
    const kinds = civil.quality.findings.map((finding) => finding.kind);
    expect(kinds).toContain("dst-missing");
    expect(kinds).toContain("dst-doubled");
    expect(civil.quality.filled.flatMap(({ hours }) => hours)).toHaveLength(1);
    // Balance: all rows but the one at the skipped time, and the hour filled instead.
    const filled = civil.hourly![civil.quality.filled[0]!.hours[0]!]!;
    const skipped = ramp((31 + 28 + 11) * 24 + 2);
    expectClose(civil.understood.total_kWh!, civil.understood.fileTotal! - skipped + filled, 1e-12);
  });

  it("asks nothing in a zone without daylight saving", () => {
    expect(read(dress(plain, ramp), steady).questions).toEqual([]);
  });

  it("keeps UTC offsets that stand in the stamps exactly", () => {
    const lines = intervalStarts(plain).map((start, k) => `${new Date(start).toISOString()},${ramp(k)}`);
    const account = read(new TextEncoder().encode(["t,heat [kW]", ...lines].join("\n")));
    expect(account.questions.map(({ code }) => code)).toEqual(["DEMAND_STAMP"]);
    expectHours(account.hourly, expectedHours(plain, ramp));
  });

  it("leaves out 29 February and says what stood there", () => {
    const leap = { ...plain, year: 2024 };
    const account = read(dress(leap, ramp), steady);
    const finding = account.quality.findings.find(({ kind }) => kind === "leap-day")!;
    expect(finding).toMatchObject({ count: 24, rows: { from: 59 * 24 + 2, to: 59 * 24 + 25 } });
    const leapDay = Array.from({ length: 24 }, (_, h) => ramp(59 * 24 + h)).reduce((a, b) => a + b);
    expectClose(account.understood.total_kWh!, account.understood.fileTotal! - leapDay, 1e-12);
    expect(account.hourly![59 * 24]).toBe(ramp(60 * 24));
  });
});

describe("what a file leaves open is asked", () => {
  const body = (header: string, value: (k: number) => string, step_min = 60) =>
    new TextEncoder().encode(
      [
        header,
        ...intervalStarts({ ...plain, step_min }).map(
          (start, k) =>
            `${new Date(start - 7 * 3_600_000).toISOString().slice(0, 16).replace("T", " ")};${value(k)}`,
        ),
      ].join("\n"),
    );

  it("asks for the unit and says what it changes", () => {
    const quarter = read(
      body("time;heat", () => "12.5", 15),
      steady,
    );
    expect(quarter.questions).toMatchObject([{ field: "unit", taken: "kW" }]);
    expect(quarter.questions[0]!.sentence).toContain("4 times");
    expect(quarter.understood.total_kWh).toBe(12.5 * 8760);
    const said = read(
      body("time;heat", () => "12.5", 15),
      steady,
      { unit: "kWh" },
    );
    expect(said.questions).toEqual([]);
    expect(said.understood.total_kWh).toBe(50 * 8760);
  });

  it("asks which of two ways 1,234 is meant", () => {
    const account = read(
      body("time;heat [kW]", () => "1,234"),
      steady,
    );
    expect(account.questions).toMatchObject([{ field: "decimal", taken: "," }]);
    expect(account.understood.peak_kW).toBe(1.234);
    expect(
      read(
        body("time;heat [kW]", () => "1,234"),
        steady,
        { decimal: "." },
      ).understood.peak_kW,
    ).toBe(1234);
  });

  it("tells thousands separators from decimal signs by the other cells", () => {
    const account = read(
      body("time;heat [kW]", (k) => (k % 2 === 0 ? "1.234" : "0,5")),
      steady,
    );
    expect(account.questions).toEqual([]);
    expect([account.hourly![0], account.hourly![1]]).toEqual([1234, 0.5]);
  });

  it("asks which column is meant and lets the reading say it", () => {
    const two = body("time;outdoor;heat [kW]", (k) => `${k % 30};${ramp(k)}`);
    const account = read(two, steady);
    expect(account.questions).toMatchObject([{ field: "valueColumn", taken: "heat [kW]" }]);
    expect(account.hourly![5]).toBe(ramp(5));
    expect(read(two, steady, { valueColumn: "outdoor", unit: "kW" }).hourly![5]).toBe(5);
    expect(read(two, steady, { valueColumn: "steam" }).problems.map(({ code }) => code)).toEqual([
      "DEMAND_COLUMN_UNKNOWN",
    ]);
  });

  it("reads a file without header and with lines above", () => {
    const bare = read(body("", ramp as unknown as (k: number) => string), steady, { unit: "kW" });
    expect(bare.understood).toMatchObject({ headerRow: null, valueColumn: "column 2" });
    expect(bare.hourly![7]).toBe(ramp(7));
    const above = read(
      body("Hall 3\nExported;2024-01-05\n\ntime;heat\n;MW", () => "0.5"),
      steady,
    );
    expect(above.understood).toMatchObject({ headerRow: 5, unit: "MW", unitHow: "said in the header" });
    expect(above.understood.linesAbove).toHaveLength(4);
    expect(above.understood.firstRows[0]).toEqual(["6", "2023-01-01 00:00", "0.5"]);
    expect(above.understood.mean_kW).toBe(500);
  });

  it("converts flows and prices, and refuses a unit that does not fit", () => {
    expect(
      read(
        body("time;steam t/h", () => "1.5"),
        steady,
        {},
        "mass-flow",
      ).understood.mean,
    ).toBe(1500);
    expect(
      read(
        body("time;XTS/MWh", () => "-20"),
        steady,
        {},
        "price",
      ).hourly![0],
    ).toBe(-0.02);
    const wrong = read(
      body("time;steam t/h", () => "1.5"),
      steady,
    );
    expect(wrong.problems.map(({ code }) => code)).toEqual(["DEMAND_UNIT_UNSUPPORTED"]);
    // 1 kWh = 3.6 MJ exactly (SI).
    expect(
      read(
        body("time;heat [GJ]", () => "3.6"),
        steady,
      ).hourly![0],
    ).toBeCloseTo(1000, 9);
    expect(
      read(
        body("time;gas [MMBtu]", () => "1.5"),
        steady,
      ).problems[0]!.message,
    ).toContain("MMBtu");
    expect(
      read(
        body("time;order m³/h", () => "1.5"),
        steady,
        {},
        "any",
      ).understood.hourlyUnit,
    ).toBe("m3/h");
  });

  it("takes hours 1 to 24 beside a date as ends of hours", () => {
    const rows = Array.from({ length: 8760 }, (_, k) => {
      const day = new Date(Date.UTC(2023, 0, 1) + Math.floor(k / 24) * 86_400_000).toISOString().slice(0, 10);
      return `${day},${(k % 24) + 1},${ramp(k)}`;
    });
    const account = read(new TextEncoder().encode(["date,hour,kW", ...rows].join("\n")), steady);
    expect(account.understood).toMatchObject({ stamp: "end", timeColumn: "date + hour" });
    expectHours(account.hourly, expectedHours(plain, ramp));
  });
});

describe("the resolved reading", () => {
  const forms: Partial<Dressing>[] = [
    {},
    { clock: "civil", date: "split", delimiter: ";", decimal: ",", stamp: "end" },
    { date: "day-first", unit: "MWh", step_min: 30 },
  ];
  for (const form of forms) {
    it(`gives the identical array and asks nothing more: ${JSON.stringify(form)}`, () => {
      const bytes = dress({ ...plain, ...form }, ramp);
      const first = read(bytes);
      const second = read(bytes, denver, first.resolvedReading);
      expect(second.hourly).toEqual(first.hourly);
      expect(second.questions).toEqual([]);
      expect(second.resolvedReading).toEqual(first.resolvedReading);
    });
  }

  it("reads back what writeHourlyCsv wrote, bit for bit", () => {
    fc.assert(
      fc.property(
        // Each value stands for more than a hundredth of the hours, so that none is absurd beside the others.
        fc.array(fc.double({ min: 0, max: 9e5, noNaN: true }), { minLength: 50, maxLength: 90 }),
        (values) => {
          const year = Float64Array.from({ length: 8760 }, (_, hour) => values[hour % values.length]! + 0);
          const bytes = new TextEncoder().encode(writeHourlyCsv(year));
          const account = read(bytes, denver, canonicalReading("kW"));
          expect(account.problems).toEqual([]);
          expect(account.questions).toEqual([]);
          expect(new BigUint64Array(account.hourly!.buffer)).toEqual(new BigUint64Array(year.buffer));
        },
      ),
      { numRuns: 5 },
    );
  });
});
