import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stowedHours } from "../../../src/core/collector/stowed-hours.ts";

const winds = fc
  .array(fc.integer({ min: 0, max: 20 }), { minLength: 30, maxLength: 120 })
  .map((values) => Float64Array.from(values));
const back = fc.integer({ min: 0, max: 6 });

const spelt = (wind: readonly number[], storm: Parameters<typeof stowedHours>[1]) =>
  stowedHours(Float64Array.from(wind), storm).join("");

describe("stowedHours(wind, storm)", () => {
  it("stays stowed until the wind has fallen to the return wind, and for the hours after", () => {
    const wind = [3, 13, 9, 8.1, 8, 3, 9, 12, 3, 3];
    expect(spelt(wind, { stowWind_m_s: 12, returnWind_m_s: 8, backAfter_h: 0 })).toBe("0111000000");
    expect(spelt(wind, { stowWind_m_s: 12, returnWind_m_s: 8, backAfter_h: 1 })).toBe("0111100000");
    // The wait of two hours, 8 and 3 m/s, is over before the wind rises again; one of three hours is not.
    expect(spelt(wind, { stowWind_m_s: 12, returnWind_m_s: 8, backAfter_h: 2 })).toBe("0111110000");
    expect(spelt(wind, { stowWind_m_s: 12, returnWind_m_s: 8, backAfter_h: 3 })).toBe("1111111111");
    expect(spelt(wind, { stowWind_m_s: 12, backAfter_h: 1 })).toBe("0110000000");
  });

  it("carries a storm of the year's end into its beginning", () => {
    const wind = [9, 9, 5, 9, 5, 5, 5, 5, 13];
    expect(spelt(wind, { stowWind_m_s: 12, returnWind_m_s: 8, backAfter_h: 0 })).toBe("110000001");
    expect(spelt(wind, { stowWind_m_s: 12, returnWind_m_s: 8, backAfter_h: 2 })).toBe("111111001");
    expect(spelt(wind, { stowWind_m_s: 12, backAfter_h: 2 })).toBe("110000001");
  });

  it("is, without a return wind, every hour with a storm in it or in the hours before", () => {
    fc.assert(
      fc.property(winds, back, (wind_m_s, backAfter_h) => {
        const n = wind_m_s.length;
        const expected = Uint8Array.from(wind_m_s, (_, i) => {
          for (let k = 0; k <= backAfter_h; k += 1) if (wind_m_s[(i - k + n) % n]! > 12) return 1;
          return 0;
        });
        expect(stowedHours(wind_m_s, { stowWind_m_s: 12, backAfter_h })).toEqual(expected);
        expect(stowedHours(wind_m_s, { stowWind_m_s: 12, returnWind_m_s: 12, backAfter_h })).toEqual(
          expected,
        );
      }),
    );
  });

  it("does not depend on where the year begins", () => {
    fc.assert(
      fc.property(winds, back, fc.integer({ min: 0, max: 29 }), (wind_m_s, backAfter_h, turn) => {
        const storm = { stowWind_m_s: 15, returnWind_m_s: 7, backAfter_h };
        const turned = (series: Float64Array | Uint8Array) => [
          ...series.slice(turn),
          ...series.slice(0, turn),
        ];
        expect([...stowedHours(Float64Array.from(turned(wind_m_s)), storm)]).toEqual(
          turned(stowedHours(wind_m_s, storm)),
        );
      }),
    );
  });

  it("stows in no fewer hours the lower the return wind", () => {
    fc.assert(
      fc.property(winds, back, fc.integer({ min: 0, max: 12 }), (wind_m_s, backAfter_h, returnWind_m_s) => {
        const high = stowedHours(wind_m_s, {
          stowWind_m_s: 13,
          returnWind_m_s: returnWind_m_s + 1,
          backAfter_h,
        });
        const low = stowedHours(wind_m_s, { stowWind_m_s: 13, returnWind_m_s, backAfter_h });
        expect(high.every((stowed, i) => stowed <= low[i]!)).toBe(true);
      }),
    );
  });
});
