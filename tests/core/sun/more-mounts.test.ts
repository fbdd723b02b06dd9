import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hourIndex } from "../../../src/core/calendar.ts";
import type { Mount } from "../../../src/core/study/schema/mount.ts";
import { cosineTo, planeNormal, type UnitVector } from "../../../src/core/sun/incidence.ts";
import { aim } from "../../../src/core/sun/mounts.ts";
import { backtracked } from "../../../src/core/sun/one-axis.ts";
import { rowShading } from "../../../src/core/sun/row-shading.ts";
import { sunYear } from "../../../src/core/sun/sun-year.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import { evenly } from "../../support/evenly.ts";
import { skyOf } from "./sky-of.ts";

const rad = Math.PI / 180;
const oneAxis = (azimuth_deg: number, axisTilt_deg: number, more: object = {}): Mount => ({
  type: "one-axis",
  azimuth_deg,
  axisTilt_deg,
  backtracking: false,
  ...more,
});
const sky = fc
  .tuple(evenly(-89, 89), evenly(-23.45, 23.45), evenly(-180, 180))
  .map(([latitude, declination, hour]) => ({
    latitude,
    sun: skyOf(latitude, declination, hour),
    declination,
    hour,
  }))
  .filter(({ sun }) => sun.up[0]! > 1e-3);

describe("one axis, any way", () => {
  it("is the short names' mount where it lies north-south or east-west, to the last bit in figures", () => {
    fc.assert(
      fc.property(sky, ({ latitude, sun }) => {
        const pairs: [Mount, Mount][] = [
          [oneAxis(180, 0), { type: "axis-north-south" }],
          [oneAxis(latitude < 0 ? 270 : 90, 0), { type: "axis-east-west" }],
        ];
        for (const [general, short] of pairs) {
          const a = aim(sun, general, latitude);
          const b = aim(sun, short, latitude);
          expectClose(a.cosIncidence[0]!, b.cosIncidence[0]!, 1e-12);
          expectClose(a.trackingAngle_deg[0]!, b.trackingAngle_deg[0]!, 1e-9);
          expectClose(a.apertureTilt_deg[0]!, b.apertureTilt_deg[0]!, 1e-9);
          expectClose(a.longitudinal_deg[0]!, b.longitudinal_deg[0]!, 1e-5);
        }
      }),
    );
  });

  // D&B section 1.7 (exact): an axis parallel to the earth's sees the sun at its declination.
  it("has cos θ = cos δ on an axis parallel to the earth's, and turns by the hour angle", () => {
    fc.assert(
      fc.property(sky, ({ latitude, sun, declination, hour }) => {
        const polar = oneAxis(latitude < 0 ? 0 : 180, Math.abs(latitude), { mostTurn_deg: 180 });
        const seen = aim(sun, polar, latitude);
        expectClose(seen.cosIncidence[0]!, Math.cos(declination * rad), 1e-12);
        expectClose(seen.longitudinal_deg[0]!, Math.abs(declination), 1e-6);
        expect(seen.transversal_deg[0]!).toBeLessThan(1e-5);
        // Toward A + 90°: west where the axis falls south, east where it falls north.
        expectClose(seen.trackingAngle_deg[0]!, latitude < 0 ? -hour : hour, 1e-6);
      }),
    );
  });

  it("finds no better turn within its range than the one it takes", () => {
    fc.assert(
      fc.property(
        sky,
        evenly(0, 360),
        evenly(0, 90),
        evenly(1, 180),
        evenly(-1, 1),
        ({ sun, latitude }, azimuth, tilt, most, share) => {
          const taken = aim(sun, oneAxis(azimuth, tilt, { mostTurn_deg: most }), latitude);
          expect(Math.abs(taken.trackingAngle_deg[0]!)).toBeLessThanOrEqual(most + 1e-9);
          // Rodrigues' rotation of the unturned normal about the axis.
          const turn = share * most * rad;
          const n = planeNormal(tilt, azimuth);
          const l = planeNormal(90 + tilt, azimuth);
          const cross = [l[1] * n[2] - l[2] * n[1], l[2] * n[0] - l[0] * n[2], l[0] * n[1] - l[1] * n[0]];
          const other = n.map(
            (value, i) => value * Math.cos(turn) + cross[i]! * Math.sin(turn),
          ) as unknown as UnitVector;
          expect(cosineTo(sun, 0, other)).toBeLessThanOrEqual(taken.cosIncidence[0]! + 1e-9);
        },
      ),
    );
  });

  it("gives a concentrator no light in hours in which it stops at its range", () => {
    const sun = skyOf(0, 0, 70); // the sun 70 degrees west of overhead
    const seen = (most: number, needsFocus: boolean) =>
      aim(sun, oneAxis(180, 0, { mostTurn_deg: most }), 0, { needsFocus });
    expectClose(seen(60, false).cosIncidence[0]!, Math.cos(10 * rad), 1e-9);
    expect(seen(60, false).trackingAngle_deg[0]).toBeCloseTo(60, 9);
    expect(seen(60, true).cosIncidence[0]).toBe(0);
    expect(seen(60, true).incidence_deg[0]).toBe(90);
    expectClose(seen(71, true).cosIncidence[0]!, 1, 1e-9);
  });
});

describe("backtracking", () => {
  // Anderson & Mikofski, NREL/TP-5K00-76626 (2020); computed from the equation, no slope across the axis.
  it.each([
    [80, 0.5, "10.322"],
    [70, 0.4, "38.765"],
    [60, 0.5, "60.000"],
  ])("turns back from %d degrees at a ground cover of %d", (facing, cover, turn) => {
    expectPrinted(backtracked(facing * rad, cover) / rad, turn);
    expectPrinted(backtracked(-facing * rad, cover) / rad, `-${turn}`);
  });

  it("keeps rows from shading each other, at the turn nearest to the sun", () => {
    fc.assert(
      fc.property(sky, evenly(0, 360), evenly(0.05, 1), ({ sun, latitude }, azimuth, groundCover) => {
        const mount = oneAxis(azimuth, 0, { backtracking: true });
        const back = aim(sun, mount, latitude, { groundCover });
        const straight = aim(sun, oneAxis(azimuth, 0), latitude);
        expectClose(rowShading(sun, back, groundCover, mount)[0]!, 1, 1e-9);
        // It gives up by the cosine what shading would take, so the light is the same.
        const shaded = rowShading(sun, straight, groundCover, mount)[0]!;
        expectClose(back.cosIncidence[0]!, straight.cosIncidence[0]! * shaded, 1e-9);
      }),
    );
  });

  it("refuses to turn back without a ground cover", () => {
    expect(() => aim(skyOf(0, 0, 0), oneAxis(180, 0, { backtracking: true }), 0)).toThrow(/OUT_OF_RANGE/);
  });
});

describe("rows on a tilted axis", () => {
  // Own geometry in the plane across the axes: rows of width 1, their axes 1/cover apart along `across`.
  it("agree with shadows cast from row to row, and take no more than falls on the land", () => {
    let sideways = 0;
    const year = fc.tuple(evenly(0, 60), evenly(-23, 23), evenly(-89, 89), evenly(0.2, 0.9));
    fc.assert(
      fc.property(year, ([tilt, declination, hour, cover]) => {
        const sun = skyOf(tilt, declination, hour); // an axis parallel to the earth's turns by the hour angle
        fc.pre(sun.up[0]! > 1e-3);
        const mount = oneAxis(180, tilt);
        const share = rowShading(sun, aim(sun, mount, tilt), cover, mount)[0]!;
        // The row leans toward the sun; its neighbour on the sun's side hides points behind its edge.
        const turn = Math.abs(hour) * rad;
        const beam = [Math.sin(turn), Math.cos(turn)] as const;
        const face = [Math.cos(turn), -Math.sin(turn)] as const;
        let lit = 0;
        const points = 2000;
        for (let i = 0; i < points; i += 1) {
          const s = (i + 0.5) / points - 0.5;
          const x = s * face[0] - 1 / cover;
          const y = s * face[1];
          // Where the ray meets the neighbour's plane, which lies across it: its place along the face.
          const along = x * face[0] + y * face[1];
          const ahead = -(x * beam[0] + y * beam[1]);
          if (!(ahead > 0 && Math.abs(along) <= 0.5)) lit += 1;
        }
        const onLand = sun.up[0]! / (cover * Math.cos(declination * rad));
        if (lit / points < Math.min(1, onLand) - 0.01) sideways += 1;
        expectClose(share, Math.min(lit / points, onLand), 2e-3);
      }),
      { numRuns: 400 },
    );
    expect(sideways).toBeGreaterThan(5); // where the rows, not the land, set the limit
  });
});

describe("a vertical axis and a mirror that tilts, two axes with a limit", () => {
  it("follows the sun's height within its range and no further", () => {
    fc.assert(
      fc.property(sky, evenly(0, 90), evenly(0, 90), ({ sun, latitude }, a, b) => {
        const [leastTilt_deg, mostTilt_deg] = [Math.min(a, b), Math.max(a, b)];
        const mount: Mount = { type: "vertical-axis-tilting", leastTilt_deg, mostTilt_deg };
        const seen = aim(sun, mount, latitude);
        const zenith = sun.zenith_deg[0]!;
        const off = Math.max(0, leastTilt_deg - zenith, zenith - mostTilt_deg);
        expectClose(seen.cosIncidence[0]!, Math.cos(off * rad), 1e-9);
        const focused = aim(sun, mount, latitude, { needsFocus: true });
        expectClose(focused.cosIncidence[0]!, off > 0 ? 0 : 1, 1e-9);
        const low: Mount = { type: "two-axes", leastElevation_deg: a };
        const under = Math.max(0, a - (90 - zenith));
        expectClose(aim(sun, low, latitude).cosIncidence[0]!, Math.cos(under * rad), 1e-9);
      }),
    );
  });
});

describe("a tilt changed by the month", () => {
  it("is in each month the fixed mount of that tilt", () => {
    const place = { latitude_deg: 38, longitude_deg: 20, elevation_m: 0, utcOffset_h: 1, calendarYear: 2026 };
    const sun = sunYear(place);
    const tilts_deg = [60, 50, 40, 30, 20, 10, 15, 25, 35, 45, 55, 65];
    const monthly = aim(sun, { type: "monthly-tilt", tilts_deg, azimuth_deg: 170 }, 38);
    for (const [month, tilt_deg] of tilts_deg.entries()) {
      const fixed = aim(sun, { type: "fixed", tilt_deg, azimuth_deg: 170 }, 38);
      const from = hourIndex(month + 1, 1, 0);
      const to = month === 11 ? 8760 : hourIndex(month + 2, 1, 0);
      for (const key of ["cosIncidence", "apertureTilt_deg", "longitudinal_deg"] as const) {
        expect(monthly[key].slice(from, to)).toEqual(fixed[key].slice(from, to));
      }
    }
  });
});

describe("an unshaded two-axis mount", () => {
  const anyMount: fc.Arbitrary<Mount> = fc.oneof(
    fc.record({ type: fc.constant("fixed" as const), tilt_deg: evenly(0, 90), azimuth_deg: evenly(0, 360) }),
    fc.record({
      type: fc.constant("monthly-tilt" as const),
      tilts_deg: fc.array(evenly(0, 90), { minLength: 12, maxLength: 12 }),
      azimuth_deg: evenly(0, 360),
    }),
    fc.constant<Mount>({ type: "axis-north-south" }),
    fc.constant<Mount>({ type: "axis-east-west" }),
    fc.record({
      type: fc.constant("one-axis" as const),
      azimuth_deg: evenly(0, 360),
      axisTilt_deg: evenly(0, 90),
      mostTurn_deg: evenly(1, 180),
      backtracking: fc.boolean(),
    }),
    fc.record({ type: fc.constant("vertical-axis" as const), tilt_deg: evenly(0, 90) }),
    fc.record({
      type: fc.constant("vertical-axis-tilting" as const),
      leastTilt_deg: evenly(0, 45),
      mostTilt_deg: evenly(45, 90),
    }),
    fc.record({ type: fc.constant("two-axes" as const), leastElevation_deg: evenly(0, 90) }),
  );

  it("never receives less beam than any other, in any hour of a year", () => {
    fc.assert(
      fc.property(
        anyMount,
        evenly(-90, 90),
        fc.integer({ min: 1970, max: 2100 }),
        (mount, latitude_deg, year) => {
          const sun = sunYear({
            latitude_deg,
            longitude_deg: 0,
            elevation_m: 0,
            utcOffset_h: 0,
            calendarYear: year,
          });
          const best = aim(sun, { type: "two-axes" }, latitude_deg).cosIncidence;
          const other = aim(sun, mount, latitude_deg, { groundCover: 0.5 }).cosIncidence;
          for (let hour = 0; hour < 8760; hour += 1) {
            if (!(other[hour]! <= best[hour]! + 1e-12)) throw new Error(`hour ${hour}: ${other[hour]}`);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});
