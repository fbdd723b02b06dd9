import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../../src/core/calendar.ts";
import { readDemand } from "../../../src/formats/demand/read-demand.ts";
import { canonicalReading, writeHourlyCsv } from "../../../src/formats/demand/write-hourly-csv.ts";

const calendar = studyCalendar({ utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear: 2023 });
const stamp = (hour: number) => new Date(Date.UTC(2023, 0, 1, hour)).toISOString().slice(0, 16);
const use = Float64Array.from({ length: 8760 }, (_, hour) => 60 + ((hour * 37) % 101));

/** Readings of a meter of so many digits before each hour and after the last. */
function meter(first: number, digits: number, hours = use): number[] {
  const readings = [first];
  hours.forEach((kWh) => {
    readings.push((readings[readings.length - 1]! + kWh) % 10 ** digits);
  });
  return readings;
}

const csv = (readings: readonly number[], keep: (hour: number) => boolean = () => true) =>
  new TextEncoder().encode(
    `Time,Heat [kWh]\n${readings.flatMap((value, h) => (keep(h) ? [`${stamp(h)},${value}`] : [])).join("\n")}\n`,
  );
const read = (bytes: Uint8Array, reading = {}, nameplate_kW?: number) =>
  readDemand(bytes, { file: "meter.csv", reading, calendar, quantity: "power", nameplate_kW });

describe("a counter's readings", () => {
  it("are noticed, asked about and give what was counted, to the last digit", () => {
    const account = read(csv(meter(1_000_000, 9)));
    expect(account.problems).toEqual([]);
    expect(account.questions).toMatchObject([{ code: "DEMAND_COUNTER", taken: "counter" }]);
    expect(account.hourly).toEqual(use);
    const again = read(csv(meter(1_000_000, 9)), account.resolvedReading);
    expect(again.questions).toEqual([]);
    expect(again.hourly).toEqual(use);
  });

  it("keep the year's energy over any roll-over", () => {
    const whole = fc.integer({ min: 0, max: 9_999_999 });
    fc.assert(
      fc.property(whole, (first) => {
        const account = read(csv(meter(first, 7)), { values: "counter" });
        expect(account.problems).toEqual([]);
        expect(account.hourly).toEqual(use);
        const rolled = first + use.reduce((total, kWh) => total + kWh, 0) >= 1e7;
        expect(account.quality.findings.some(({ kind }) => kind === "counter")).toBe(rolled);
      }),
      { numRuns: 12, examples: [[9_900_000]] },
    );
  });

  it("are not seen in hours that the program wrote itself, however they rise", () => {
    const rising = Float64Array.from({ length: 8760 }, (_, hour) => 10 + hour);
    expect(read(new TextEncoder().encode(writeHourlyCsv(rising)), canonicalReading("kW")).hourly).toEqual(
      rising,
    );
  });

  it("may run from the last to the first", () => {
    const lines = new TextDecoder()
      .decode(csv(meter(500, 8)))
      .trimEnd()
      .split("\n");
    const turned = [lines[0], ...lines.slice(1).reverse()].join("\n");
    expect(read(new TextEncoder().encode(turned)).hourly).toEqual(use);
  });

  it("that fall in the middle are refused with the row", () => {
    const readings = meter(200_000, 8).map((value, h) => (h >= 4000 ? value - 300_000 : value));
    const account = read(csv(readings));
    expect(account.hourly).toBeNull();
    expect(account.problems).toMatchObject([{ code: "DEMAND_COUNTER_FALLS", place: { row: 4002 } }]);
  });

  it("leave what was counted over missing rows out of the hours, and tell how much", () => {
    const account = read(csv(meter(0, 8), (h) => h < 1001 || h > 1002));
    expect(account.problems).toEqual([]);
    const lost = use[1000]! + use[1001]! + use[1002]!;
    const told = account.quality.findings.find(({ kind }) => kind === "counter");
    expect(told?.sentence).toContain(`${lost}`);
    expect(account.quality.filled.flatMap(({ hours }) => hours)).toEqual([1000, 1001, 1002]);
    expect(account.hourly![999]).toBe(use[999]);
    expect(account.hourly![1003]).toBe(use[1003]);
  });

  it("are not counted in kW", () => {
    const bytes = new TextEncoder().encode(new TextDecoder().decode(csv(meter(0, 8))).replace("kWh", "kW"));
    expect(read(bytes).problems.map(({ code }) => code)).toEqual(["DEMAND_UNIT_UNSUPPORTED"]);
    expect(read(bytes, { unit: "kWh" }).hourly).toEqual(use);
  });
});

describe("hours against the nameplate", () => {
  const interval = (factor: number, unit: string) =>
    new TextEncoder().encode(
      `Time,Heat [${unit}]\n${[...use].map((kW, h) => `${stamp(h)},${kW * factor}`).join("\n")}\n`,
    );
  // 1 kWh = 3.6 MJ exactly (SI).
  it.each([
    [3.6, "kWh", "MJ"],
    [1000, "MW", "kW"],
    [24, "kWh", "kWh/d"],
  ])(
    "ask for the unit where figures are %d times too large, and offer the right one",
    (factor, said, right) => {
      const raw = said === "MW" ? interval(1, said) : interval(factor, said);
      const account = read(raw, {}, 160);
      const question = account.questions.find(({ code }) => code === "DEMAND_NAMEPLATE")!;
      expect(question.sentence).toContain(`${factor} times too large`);
      expect(question.taken).toBe(said);
      expect(question.choices.find(({ value }) => value === right)!.sentence).toContain("160 kW");
      const answered = read(raw, { unit: right as "kW" }, 160);
      expect(answered.questions).toEqual([]);
      answered.hourly!.forEach((kW, h) => {
        expect(Math.abs(kW - use[h]!)).toBeLessThan(1e-9);
      });
    },
  );

  it("ask nothing where they agree, and say so where no usual slip explains them", () => {
    expect(read(interval(1, "kW"), {}, 200).questions).toEqual([]);
    const odd = read(interval(1, "kW"), {}, 2).questions[0]!;
    expect(odd.sentence).toContain("neither 3.6 nor 24 nor 1000");
  });
});
