import fc from "fast-check";
import { DateTime } from "luxon";
import { describe, expect, it } from "vitest";
import { clockChanges, instantsOfWall, offsetSpans } from "../../../src/core/demand/clock.ts";
import { fillGaps, gapsOf } from "../../../src/core/demand/fill-gaps.ts";
import { loadDuration } from "../../../src/core/demand/load-duration.ts";
import { resampleToHours } from "../../../src/core/demand/resample.ts";
import { expectClose } from "../../support/close.ts";

describe("loadDuration", () => {
  it("sorts a copy from the largest, NaN last", () => {
    const series = Float64Array.of(3, Number.NaN, -1, 7, 0);
    expect([...loadDuration(series)]).toEqual([7, 3, 0, -1, Number.NaN]);
    expect(series[0]).toBe(3);
  });
});

describe("the clock of a zone", () => {
  for (const zone of ["America/Denver", "Australia/Adelaide", "Australia/Lord_Howe", "Etc/GMT-3"]) {
    it(`agrees with Luxon at any instant of ${zone}`, () => {
      const from = Date.UTC(2023, 0, 1);
      const spans = offsetSpans(zone, from, Date.UTC(2024, 0, 1));
      fc.assert(
        fc.property(fc.integer({ min: 0, max: 365 * 86_400 - 1 }), (second) => {
          const instant = from + second * 1000;
          const wall = instant + DateTime.fromMillis(instant, { zone }).offset * 60_000;
          expect(instantsOfWall(wall, spans)).toContain(instant);
        }),
      );
    });
  }

  it("finds the skipped and the repeated hour", () => {
    // US daylight saving 2023: 12 March and 5 November at 02:00 (Energy Policy Act of 2005: second Sunday of March, first of November).
    const spans = offsetSpans("America/Denver", Date.UTC(2023, 0, 1), Date.UTC(2024, 0, 1));
    expect(clockChanges(spans)).toEqual([
      { kind: "skipped", wallFrom_ms: Date.UTC(2023, 2, 12, 2), wallUntil_ms: Date.UTC(2023, 2, 12, 3) },
      { kind: "repeated", wallFrom_ms: Date.UTC(2023, 10, 5, 1), wallUntil_ms: Date.UTC(2023, 10, 5, 2) },
    ]);
    expect(instantsOfWall(Date.UTC(2023, 2, 12, 2, 30), spans)).toEqual([]);
    expect(instantsOfWall(Date.UTC(2023, 10, 5, 1, 30), spans)).toEqual([
      Date.UTC(2023, 10, 5, 7, 30),
      Date.UTC(2023, 10, 5, 8, 30),
    ]);
  });
});

describe("resampleToHours", () => {
  const year = (step_min: number, shift_min: number, rates: readonly number[]) => {
    const count = (8760 * 60) / step_min;
    return {
      start_ms: Float64Array.from(
        { length: count },
        (_, k) => Date.UTC(2023, 0, 1) + (k * step_min + shift_min) * 60_000,
      ),
      rate: Float64Array.from({ length: count }, (_, k) => rates[k % rates.length]!),
      line: Int32Array.from({ length: count }, (_, k) => k + 2),
      step_min,
    };
  };

  it("keeps the energy, also of intervals that straddle hours", () => {
    const rates = fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 50 });
    const anyYear = fc.tuple(fc.constantFrom(60, 30, 20, 15), fc.constantFrom(0, 7, 30), rates);
    fc.assert(
      fc.property(anyYear, ([step_min, shift_min, values]) => {
        const intervals = year(step_min, shift_min, values);
        const given = intervals.rate.reduce((total, rate) => total + (rate * step_min) / 60, 0);
        const { hourly, doubles } = resampleToHours(intervals);
        expect(doubles).toEqual([]);
        expectClose(
          hourly.reduce((a, b) => a + b),
          given,
          1e-9,
        );
      }),
      { numRuns: 20 },
    );
  });

  it("leaves an hour open of which less than half is known, and names doubles", () => {
    const intervals = year(15, 0, [4, 8, 12, 16]);
    intervals.rate[1] = Number.NaN;
    for (const k of [4, 5, 6]) intervals.rate[k] = Number.NaN;
    intervals.start_ms[9] = intervals.start_ms[8]!;
    const { hourly, known, doubles } = resampleToHours(intervals);
    expect(hourly[0]).toBeCloseTo(32 / 3, 12);
    expect(hourly[1]).toBeNaN();
    expect([...known.slice(0, 3)]).toEqual([0.75, 0.25, 0.75]);
    expect(doubles).toEqual([[8, 9]]);
  });
});

describe("fillGaps", () => {
  it("takes the year as a ring", () => {
    const series = new Float64Array(8760).fill(10);
    series[8758] = 4;
    series[8759] = Number.NaN;
    series[0] = Number.NaN;
    expect(gapsOf(series)).toEqual([{ from: 8759, lasts_h: 2 }]);
    const { hourly, filled } = fillGaps(series);
    expect([hourly[8759], hourly[0]]).toEqual([6, 8]);
    expect(filled[0]!.hours).toEqual([0, 8759]);
    expect(series[0]).toBeNaN();
  });

  it("falls back to the days, then refuses", () => {
    const series = Float64Array.from({ length: 8760 }, (_, h) => h);
    series.fill(Number.NaN, 1000, 1010);
    series.fill(Number.NaN, 832, 842);
    series.fill(Number.NaN, 1168, 1178);
    const { hourly, refused } = fillGaps(series);
    expect(refused).toEqual([]);
    expect(hourly[1003]).toBe(1003);
    expect(fillGaps(new Float64Array(8760).fill(Number.NaN)).refused).toEqual([{ from: 0, lasts_h: 8760 }]);
  });

  it("never touches a known hour and fills or refuses every other", () => {
    const gaps = fc.array(fc.tuple(fc.integer({ min: 0, max: 8759 }), fc.integer({ min: 1, max: 40 })), {
      maxLength: 12,
    });
    fc.assert(
      fc.property(gaps, (list) => {
        const series = Float64Array.from({ length: 8760 }, (_, h) => 1 + (h % 24));
        for (const [from, length] of list)
          for (let k = 0; k < length; k += 1) series[(from + k) % 8760] = Number.NaN;
        const { hourly, filled, refused } = fillGaps(series);
        const done = new Set(filled.flatMap(({ hours }) => hours));
        const open = new Set(
          refused.flatMap(({ from, lasts_h }) =>
            Array.from({ length: lasts_h }, (_, k) => (from + k) % 8760),
          ),
        );
        let wrong = 0;
        series.forEach((value, h) => {
          const right = Number.isNaN(value)
            ? done.has(h) !== open.has(h) && Number.isNaN(hourly[h]!) === open.has(h)
            : hourly[h] === value && !done.has(h) && !open.has(h);
          if (!right) wrong += 1;
        });
        expect(wrong).toBe(0);
      }),
      { numRuns: 40 },
    );
  });
});
