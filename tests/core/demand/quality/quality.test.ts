import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { studyCalendar } from "../../../../src/core/calendar.ts";
import { equalRunFindings } from "../../../../src/core/demand/quality/equal-runs.ts";
import { hourWords } from "../../../../src/core/demand/quality/hour-words.ts";
import { rowList } from "../../../../src/core/demand/quality/row-list.ts";
import { spikeFindings } from "../../../../src/core/demand/quality/spikes.ts";
import { weekPatternFindings } from "../../../../src/core/demand/quality/week-pattern.ts";

const lines = {
  firstLine: Int32Array.from({ length: 8760 }, (_, h) => h + 2),
  lastLine: Int32Array.from({ length: 8760 }, (_, h) => h + 2),
};
const wave = () =>
  Float64Array.from({ length: 8760 }, (_, h) => 200 + 100 * Math.sin((h * Math.PI) / 12) + (h % 5));
const calendarOf = (calendarYear: number) =>
  studyCalendar({ utcOffset_h: 0, timeZone: "Etc/UTC", calendarYear });

describe("rowList(rows)", () => {
  it("shortens runs", () => {
    expect(rowList([12])).toBe("row 12");
    expect(rowList([40, 12, 41, 42, 7, 8])).toBe("rows 7, 8, 12, 40–42");
  });

  it("names exactly the rows given", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 300 }), { minLength: 1 }), (rows) => {
        const named = rowList(rows)
          .replace(/^rows? /, "")
          .split(", ")
          .flatMap((part) => {
            const [from, to] = part.split("–").map(Number);
            return Array.from({ length: (to ?? from!) - from! + 1 }, (_, k) => from! + k);
          });
        expect(named).toEqual([...new Set(rows)].sort((a, b) => a - b));
      }),
    );
  });
});

describe("hourWords(index)", () => {
  it("counts days of a year of 365", () => {
    expect([0, 1416, 8759].map(hourWords)).toEqual(["1 Jan 00:00", "1 Mar 00:00", "31 Dec 23:00"]);
  });
});

describe("equalRunFindings", () => {
  it("finds a stuck meter of 24 hours and leaves 23 alone", () => {
    const series = wave();
    series.fill(77, 1000, 1024);
    series.fill(55, 3000, 3023);
    expect(equalRunFindings(series, lines)).toMatchObject([
      { kind: "stuck", count: 24, from: 1000, to: 1023, rows: { from: 1002, to: 1025 } },
    ]);
  });

  it("names zero runs of a week and counts shorter ones together", () => {
    const series = wave();
    series.fill(0, 100, 148);
    series.fill(0, 500, 530);
    series.fill(0, 2000, 2200);
    expect(equalRunFindings(series, lines).map(({ kind, count, from }) => [kind, count, from])).toEqual([
      ["zero-run", 200, 2000],
      ["zero-run", 78, 100],
    ]);
  });

  it("has nothing to say of a constant, and something of a year of zeros", () => {
    expect(equalRunFindings(new Float64Array(8760).fill(5), lines)).toEqual([]);
    expect(equalRunFindings(new Float64Array(8760), lines)).toMatchObject([
      { kind: "zero-run", count: 8760 },
    ]);
  });
});

describe("spikeFindings", () => {
  it("finds one false value wherever it stands, and nothing in the even wave", () => {
    expect(spikeFindings(wave(), lines)).toEqual([]);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 8759 }), (hour) => {
        const series = wave();
        series[hour] = 5000;
        expect(spikeFindings(series, lines)).toMatchObject([
          { kind: "spike", from: hour, rows: { from: hour + 2 } },
        ]);
      }),
      { numRuns: 30 },
    );
  });

  it("does not take a daily batch for spikes", () => {
    const batch = Float64Array.from({ length: 8760 }, (_, h) => (h % 24 === 9 ? 1000 : 50));
    expect(spikeFindings(batch, lines)).toEqual([]);
  });
});

describe("weekPatternFindings", () => {
  /** Rests on Saturday and Sunday of `year`, whose days are Luxon's and ours only through Date. */
  const weekOf = (year: number) => {
    const calendar = calendarOf(year);
    return Float64Array.from(calendar.civilWeekday, (weekday) => (weekday >= 6 ? 20 : 100));
  };

  it("tells by how many days another year's weekends fall elsewhere", () => {
    // 1 March was a Wednesday in 2023 and a Friday in 2024 (common knowledge of the calendar).
    const [finding, ...others] = weekPatternFindings(weekOf(2023), calendarOf(2024), 2023);
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ kind: "week-pattern", count: 2 });
    expect(finding!.sentence).toContain("rests on Saturday and Sunday");
    expect(finding!.sentence).toContain("fall on Monday and Tuesday");
  });

  it("has nothing to say of the same year, the same weekdays, or a year without weekends", () => {
    expect(weekPatternFindings(weekOf(2023), calendarOf(2023), 2023)).toEqual([]);
    // 2017 and 2023 begin on a Sunday and are no leap years.
    expect(weekPatternFindings(weekOf(2017), calendarOf(2023), 2017)).toEqual([]);
    expect(weekPatternFindings(wave(), calendarOf(2024), 2023)).toEqual([]);
  });

  it("remarks quiet days in mid-week where the file says no year", () => {
    const series = Float64Array.from(calendarOf(2023).civilWeekday, (weekday) =>
      weekday === 2 || weekday === 3 ? 20 : 100,
    );
    expect(weekPatternFindings(series, calendarOf(2023), null)).toMatchObject([{ count: 4 }]);
  });
});
