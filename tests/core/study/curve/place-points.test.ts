import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { placePoints } from "../../../../src/core/study/curve/place-points.ts";

interface Drawn {
  readonly x: number;
  readonly y: number;
}
const along =
  (curve: (x: number) => number) =>
  (x: number): Drawn => ({ x, y: curve(x) });
const place = (curves: readonly ((x: number) => number)[], most: number, places = [0, 0.25, 0.5, 0.75, 1]) =>
  placePoints({ places, lines: curves.map(along), measures: [({ y }) => y], most });

/** The largest distance of a curve from the chords between its points. */
function distance(points: readonly Drawn[], curve: (x: number) => number): number {
  let most = 0;
  for (let i = 0; i + 1 < points.length; i += 1) {
    const [a, b] = [points[i]!, points[i + 1]!];
    for (let n = 1; n < 20; n += 1) {
      const share = n / 20;
      most = Math.max(most, Math.abs(curve(a.x + share * (b.x - a.x)) - (1 - share) * a.y - share * b.y));
    }
  }
  return most;
}

describe("points where a line bends", () => {
  it("gather around a kink", () => {
    const [points] = place([(x) => Math.max(0, x - 0.3)], 15);
    const added = points!.filter(({ x }) => ![0, 0.25, 0.5, 0.75, 1].includes(x));
    expect(added).toHaveLength(10);
    expect(added.filter(({ x }) => Math.abs(x - 0.3) <= 0.125).length).toBeGreaterThanOrEqual(7);
  });

  it("go to the line that bends, not to the straight one", () => {
    const [straight, bent] = place([(x) => 2 * x, (x) => Math.exp(-6 * x)], 25);
    expect(straight).toHaveLength(5);
    expect(bent).toHaveLength(20);
  });

  it("draw a curve closer than the same number of even ones", () => {
    const curve = (x: number) => 1 - Math.exp(-12 * x);
    const [points] = place([curve], 12);
    const even = Array.from({ length: 12 }, (_, i) => along(curve)(i / 11));
    expect(distance(points!, curve)).toBeLessThan(0.6 * distance(even, curve));
  });

  it("rise, begin with the given places, never exceed the number, and are even where nothing bends", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 3, maxLength: 3 }),
        fc.integer({ min: 0, max: 60 }),
        ([a, b, c], most) => {
          const lines = place([(x) => a! * Math.sin(b! * x), (x) => c! * x * x], most);
          const count = lines.reduce((all, points) => all + points.length, 0);
          expect(count).toBe(Math.max(10, most));
          for (const points of lines) {
            const places = points.map(({ x }) => x);
            for (const x of [0, 0.25, 0.5, 0.75, 1]) expect(places).toContain(x);
            for (let i = 1; i < places.length; i += 1) expect(places[i]!).toBeGreaterThan(places[i - 1]!);
          }
        },
      ),
      { numRuns: 60 },
    );
    const [straight] = place([(x) => 3 - x], 9);
    expect(straight!.map(({ x }) => x)).toEqual([0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1]);
  });

  it("are as many as there are where all lie at one place", () => {
    expect(place([(x) => x], 60, [0])).toEqual([[{ x: 0, y: 0 }]]);
  });
});
