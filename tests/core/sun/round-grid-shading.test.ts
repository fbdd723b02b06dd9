import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { roundGridShare, roundGridShareAt } from "../../../src/core/sun/round-grid-shading.ts";
import { expectClose } from "../../support/close.ts";
import { evenly } from "../../support/evenly.ts";

const rad = Math.PI / 180;

/**
 * Share of rays toward the sun that leave a disc of a grid freely, cast in space: discs of diameter 1 that
 * face the sun, `spacing` apart on flat land, from points spread evenly over the middle one.
 */
function castRays(groundCover: number, height_deg: number, orientation_deg: number): number {
  const spacing = Math.sqrt(Math.PI / 4 / groundCover);
  const height = height_deg * rad;
  const turn = orientation_deg * rad;
  // The grid's lines lie east and north; the sun's azimuth counts from one of them.
  const sun = [Math.cos(height) * Math.sin(turn), Math.cos(height) * Math.cos(turn), Math.sin(height)];
  const side = [Math.cos(turn), -Math.sin(turn), 0];
  const slant = [-Math.sin(height) * Math.sin(turn), -Math.sin(height) * Math.cos(turn), Math.cos(height)];
  const far = Math.ceil(1 / (spacing * Math.sin(height))) + 1;
  const points = 1500;
  let free = 0;
  for (let n = 0; n < points; n += 1) {
    // Vogel's spiral spreads points evenly over a disc.
    const radius = 0.5 * Math.sqrt((n + 0.5) / points);
    const around = n * Math.PI * (3 - Math.sqrt(5));
    const point = sun.map(
      (_, axis) => radius * (Math.cos(around) * side[axis]! + Math.sin(around) * slant[axis]!),
    );
    let isFree = true;
    for (let i = -far; i <= far && isFree; i += 1) {
      for (let j = -far; j <= far && isFree; j += 1) {
        if (i === 0 && j === 0) continue;
        const to = [i * spacing - point[0]!, j * spacing - point[1]!, -point[2]!];
        const ahead = to.reduce((all, value, axis) => all + value * sun[axis]!, 0);
        if (ahead <= 1e-9) continue;
        const miss = Math.hypot(...to.map((value, axis) => value - ahead * sun[axis]!));
        if (miss < 0.5) isFree = false;
      }
    }
    if (isFree) free += 1;
  }
  return free / points;
}

describe("roundGridShareAt(groundCover, sine, orientation)", () => {
  // Area that two circles of radius r have in common at distance d: 2r²·acos(d/2r) − (d/2)·√(4r² − d²), plane
  // geometry. With the sun along a line of the grid and high enough only the next aperture throws a shadow.
  it.each([
    [0.25, 25],
    [0.25, 30],
    [0.1, 12],
    [0.6, 55],
  ])("loses the area that two circles share: ground cover %d, sun at %d degrees", (cover, height) => {
    const reach = Math.sqrt((4 * cover) / Math.PI);
    const d = Math.sin(height * rad) / reach;
    expect(d).toBeGreaterThan(0.5); // the second next is out of reach
    expect(d).toBeLessThan(1);
    const shared = (2 / Math.PI) * (Math.acos(d) - d * Math.sqrt(1 - d * d));
    expectClose(roundGridShareAt(cover, Math.sin(height * rad), 0), 1 - shared, 2e-3);
  });

  it("agrees with rays cast from disc to disc", () => {
    fc.assert(
      fc.property(evenly(0.05, 0.78), evenly(4, 90), evenly(0, 90), (cover, height, orientation) => {
        const cast = castRays(cover, height, orientation);
        expectClose(roundGridShareAt(cover, Math.sin(height * rad), orientation), cast, 0.012);
      }),
      { numRuns: 40 },
    );
  });
});

describe("roundGridShare(groundCover)", () => {
  it("is the mean over the grid's orientations", () => {
    for (const cover of [0.1, 0.25, 0.4, 0.78]) {
      const share = roundGridShare(cover);
      for (const height of [3, 8, 14, 21, 33, 48]) {
        let mean = 0;
        for (let turn = 0; turn < 90; turn += 1) {
          mean += roundGridShareAt(cover, Math.sin(height * rad), turn + 0.5) / 90;
        }
        expectClose(share(Math.sin(height * rad)), mean, 5e-3);
      }
    }
  });

  it("never takes more light than falls on the land, rises with the sun and falls with the cover", () => {
    fc.assert(
      fc.property(evenly(0.02, 0.785), evenly(0, 1), evenly(0, 1), (cover, a, b) => {
        const share = roundGridShare(cover);
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        expect(share(low)).toBeLessThanOrEqual(Math.min(1, low / cover) + 1e-9);
        expect(share(low)).toBeLessThanOrEqual(share(high) + 5e-3);
        expect(roundGridShare(cover / 2)(low)).toBeGreaterThanOrEqual(share(low) - 5e-3);
        expect(share(1)).toBe(1);
        expect(share(0)).toBe(0);
      }),
    );
  });

  it("refuses what round apertures cannot cover", () => {
    for (const cover of [0, 0.79, Number.NaN]) expect(() => roundGridShare(cover)).toThrow(/OUT_OF_RANGE/);
  });
});
