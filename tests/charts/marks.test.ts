import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { zeroBasedScale } from "../../src/charts/axes.ts";
import { energyUnit, percent, plainText } from "../../src/charts/chart-text.ts";
import { freePlace, overlap } from "../../src/charts/free-place.ts";
import { hourName, monthOfHour } from "../../src/charts/months-of-year.ts";
import { spread } from "../../src/charts/spread.ts";
import { stepArea, stepLine } from "../../src/charts/step-path.ts";
import { escapeText, tag } from "../../src/charts/svg.ts";

describe("tag", () => {
  it("leaves out an element whose place is not a number", () => {
    expect(tag("rect", { x: Number.NaN, y: 1 })).toBe("");
    expect(tag("rect", { x: 1 / 3, y: -0.001 })).toBe('<rect x="0.33" y="0"/>');
  });
  it("escapes the five signs of XML and drops control characters", () => {
    expect(escapeText(`<a b="c">&'\u0007`)).toBe("&lt;a b=&quot;c&quot;&gt;&amp;&#39;");
  });
});

describe("plainText", () => {
  const text = plainText("en", "XTS");
  it.each([
    [1234.5, "1,230"],
    [-0, "0"],
    [1e-12, "0"],
    [-2.5, "−2.5"],
    [0.04567, "0.0457"],
    [Number.NaN, "no figure"],
  ])("writes %d as %s", (value, written) => expect(text.number(value)).toBe(written));
  it("writes money without cents from 100 on", () => {
    expect(text.money(123.7)).toBe("124 XTS");
    expect(text.money(9.25)).toBe("9.25 XTS");
  });
  it("follows the locale", () => expect(plainText("de").number(12345.6, 6)).toBe("12.345,6"));
  it("writes a share in percent", () => expect(percent(text, 0.6234)).toBe("62.3 %"));
  it("chooses a unit that keeps axis numbers short", () => {
    expect([500, 50_000, 5e7].map((kWh) => energyUnit(kWh).unit)).toEqual(["kWh", "MWh", "GWh"]);
  });
});

describe("step paths", () => {
  const x = (index: number) => index * 10;
  it("draws hourly means as levels", () => expect(stepLine(x, [1, 1, 2])).toBe("M0 1H20V2H30"));
  it("breaks at missing hours", () => expect(stepLine(x, [1, Number.NaN, 2])).toBe("M0 1H10M20 2H30"));
  it("closes an area along its lower side", () => {
    expect(stepArea(x, [9, 8], [1, 2])).toBe("M0 1H10V2H20V8H10V9H0Z");
  });
  it("leaves hours without thickness open", () => {
    expect(stepArea(x, [9, 9, 9], [1, 9, 1])).toBe("M0 1H10V9H0ZM20 1H30V9H20Z");
  });
});

describe("spread", () => {
  it("keeps labels a gap apart, in order and inside, wherever they fit", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 200, noNaN: true }), { maxLength: 8 }), (wanted) => {
        const places = spread(wanted, 17, 0, 200);
        const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
        for (let at = 1; at < order.length; at += 1) {
          expect(places[order[at]!]! - places[order[at - 1]!]!).toBeGreaterThanOrEqual(17 - 1e-9);
        }
        for (const place of places) {
          expect(place).toBeGreaterThanOrEqual(-1e-9);
          expect(place).toBeLessThanOrEqual(200 + 1e-9);
        }
      }),
    );
  });
  it("leaves labels alone that have room", () =>
    expect(spread([100, 10, 50], 17, 0, 200)).toEqual([100, 10, 50]));
});

describe("freePlace", () => {
  const plot = { left: 0, right: 240, top: 0, bottom: 200 };
  const level = (y: number) => new Float64Array(121).fill(y);
  it("puts the label just above its line", () => {
    const place = freePlace({ width: 40, height: 15 }, [level(100)], 0, plot, [])!;
    expect(place.bottom).toBe(94);
  });
  it("goes below where another line lies above", () => {
    const place = freePlace({ width: 40, height: 15 }, [level(100), level(90)], 0, plot, [])!;
    expect(place.top).toBe(106);
  });
  it("gives nothing where there is no room", () => {
    const lines = Array.from({ length: 20 }, (_, index) => level(index * 10));
    expect(freePlace({ width: 40, height: 15 }, lines, 10, plot, [])).toBeNull();
  });
  it("knows boxes that overlap", () => {
    const box = { left: 0, right: 10, top: 0, bottom: 10 };
    expect(overlap(box, { left: 9, right: 12, top: 9, bottom: 12 })).toBe(true);
    expect(overlap(box, { left: 10, right: 12, top: 0, bottom: 10 })).toBe(false);
  });
});

describe("axes and months", () => {
  it("begins at zero, holds what lies below, and does without data", () => {
    expect(zeroBasedScale([3, 7], { top: 0, bottom: 100 }).domain()).toEqual([0, 8]);
    expect(zeroBasedScale([-3, 7], { top: 0, bottom: 100 }).domain()[0]).toBeLessThanOrEqual(-3);
    expect(zeroBasedScale([Number.NaN], { top: 0, bottom: 100 }).domain()).toEqual([0, 1]);
  });
  it("names hours of the 365-day year", () => {
    expect(hourName(0)).toBe("1 January, 0:00");
    expect(hourName(59 * 24 + 13)).toBe("1 March, 13:00");
    expect(hourName(8759)).toBe("31 December, 23:00");
    expect([743, 744].map(monthOfHour)).toEqual([1, 2]);
  });
});
