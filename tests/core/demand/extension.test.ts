import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hourIndex } from "../../../src/core/calendar.ts";
import { calendarShares } from "../../../src/core/demand/calendar-shares.ts";
import { clockOffset } from "../../../src/core/demand/clock-offset.ts";
import { extendByCalendar } from "../../../src/core/demand/extension.ts";
import { startingCalendar } from "../../../src/web/forms/starting-calendar.ts";
import { expectClose } from "../../support/close.ts";
import { calendarOf, madridClock } from "../../support/load-inputs.ts";

const shares = calendarShares(startingCalendar("days", "two-shifts")!, calendarOf(madridClock));
/** `rate` in hours `from` to `until`, NaN elsewhere; the year is a ring. */
const logOf = (rate: (t: number) => number, from: number, lasts_h: number) => {
  const log = new Float64Array(8760).fill(Number.NaN);
  for (let k = 0; k < lasts_h; k += 1) log[(from + k) % 8760] = rate((from + k) % 8760);
  return log;
};
const metered = (log: Float64Array) => Uint8Array.from(log, (value) => (Number.isNaN(value) ? 0 : 1));
const extend = (log: Float64Array) => extendByCalendar(log, metered(log), shares, shares);

describe("extendByCalendar(hourly, metered, sharesThen, shares)", () => {
  it("gives back a year that goes by the calendar from any stretch of three weeks (any base and level)", () => {
    const figure = fc.double({ min: 0, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(figure, figure, fc.integer({ min: 0, max: 8759 }), (base, level, from) => {
        const rate = (t: number) => base + level * shares[t]!;
        const year = extend(logOf(rate, from, 3 * 168))!;
        const size = Math.max(1e-6, base + level);
        for (let t = 0; t < 8760; t += 1) expectClose(year.hourly[t]!, rate(t), 1e-8 * size);
        expect(year.extended_h).toBe(8760 - 3 * 168);
      }),
      { numRuns: 30 },
    );
  });

  it("keeps every logged hour, and tells the error of weeks that it was not fitted to", () => {
    // Eight weeks, each a tenth above or below the plan in turn.
    const from = hourIndex(3, 3, 0);
    const factor = (t: number) => (Math.floor((t - from) / 168) % 2 === 0 ? 1.1 : 0.9);
    const log = logOf((t) => 400 * shares[t]! * factor(t), from, 8 * 168);
    const { hourly, fit, extended, extendedError } = extend(log)!;
    log.forEach((value, t) => {
      if (!Number.isNaN(value)) expect(hourly[t]).toBe(value);
    });
    expect(fit.weeks).toHaveLength(8);
    // Seven weeks' mean is 1 ± 0.1/7 of the plan, so a week left out is missed by about 0.1143 of it.
    expectClose(fit.weekError, 0.1143, 0.001);
    // Error of a fit to eight weeks and of the 44 weeks themselves; the halves are alike.
    const weeks = (8760 - 8 * 168) / 168;
    expectClose(fit.halfError, 0, 1e-9);
    expectClose(extendedError, extended * fit.weekError * Math.sqrt(1 / 8 + 1 / weeks), 1e-9 * extended);
  });

  it("tells a drift: weeks that grow from one half of the log to the other by a fifth", () => {
    const from = hourIndex(3, 3, 0);
    const log = logOf((t) => 400 * shares[t]! * (t - from < 4 * 168 ? 1 : 1.2), from, 8 * 168);
    const { fit, extended, extendedError } = extend(log)!;
    // One half foretells the other 1/6 too low or 1/5 too high.
    expectClose(fit.halfError, Math.sqrt((0.2 ** 2 + (1 - 1 / 1.2) ** 2) / 2), 1e-9);
    expectClose(extendedError, extended * fit.halfError, 1e-9 * extended);
  });

  it("has R² 1 on the plan itself and less with scatter", () => {
    const scatter = (t: number) => 100 * (((t * 7919) % 97) / 97 - 0.5);
    expectClose(extend(logOf((t) => 100 + 300 * shares[t]!, 0, 1000))!.fit.r2, 1, 1e-12);
    const { r2 } = extend(logOf((t) => 100 + 300 * shares[t]! + scatter(t), 0, 1000))!.fit;
    expect(r2).toBeGreaterThan(0.9);
    expect(r2).toBeLessThan(0.99);
  });

  it("never goes below nothing: a log against the plan is its mean, one without rest has no base", () => {
    const against = extend(logOf((t) => 10 - 5 * shares[t]!, 0, 800))!;
    expect(against.fit.level).toBe(0);
    const steep = extend(logOf((t) => (shares[t]! > 0 ? 10 + 0.01 * (t % 3) : 0), 0, 800))!;
    expect(steep.fit.base).toBeGreaterThanOrEqual(0);
    for (const year of [against, steep])
      for (const value of year.hourly) expect(value).toBeGreaterThanOrEqual(0);
  });

  it("refuses less than two weeks, and a plan that is even in the log", () => {
    expect(extend(logOf(() => 1, 0, 335))).toBeNull();
    const even = new Float64Array(8760).fill(0.4);
    const log = logOf((t) => t, 0, 1000);
    expect(extendByCalendar(log, metered(log), even, even)).toBeNull();
  });

  it("tells no error of fewer than three weeks", () => {
    const { fit, extendedError } = extend(logOf((t) => shares[t]!, 0, 400))!;
    expect(fit.weeks).toEqual([]);
    expect(extendedError).toBeNaN();
  });
});

describe("clockOffset(hourly, shares)", () => {
  it("finds by how many hours a logger's clock was wrong, from eight weeks of log (any offset to 12 h)", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -11, max: 11 }).filter((move) => move !== 0),
        fc.integer({ min: 0, max: 8759 }),
        (move_h, from) => {
          // The log has at its own time t what was drawn at t + move.
          const drawn = (t: number) => 50 + 200 * shares[(t + 8760) % 8760]! + 40 * (((t * 7919) % 97) / 97);
          const found = clockOffset(
            logOf((t) => drawn(t + move_h), from, 8 * 168),
            shares,
          );
          expect(found?.move_h).toBe(move_h);
        },
      ),
      { numRuns: 30 },
    );
  });

  it("says nothing of a right clock, of a log that follows no plan, and of an even plan", () => {
    expect(
      clockOffset(
        logOf((t) => 50 + 200 * shares[t]!, 100, 1344),
        shares,
      ),
    ).toBeNull();
    expect(
      clockOffset(
        logOf((t) => ((t * 7919) % 97) / 97, 100, 1344),
        shares,
      ),
    ).toBeNull();
    expect(
      clockOffset(
        logOf((t) => t % 24, 0, 1344),
        new Float64Array(8760).fill(1),
      ),
    ).toBeNull();
    expect(
      clockOffset(
        logOf((t) => shares[t + 3]!, 0, 100),
        shares,
      ),
    ).toBeNull();
  });
});
