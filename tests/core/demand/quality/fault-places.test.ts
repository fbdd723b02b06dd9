import { describe, expect, it } from "vitest";
import { faultPlaces, mostFaultPlaces } from "../../../../src/core/demand/quality/fault-places.ts";

const stuck = (from: number, to: number) => ({
  kind: "stuck" as const,
  sentence: `stuck ${from}`,
  rows: null,
  from,
  to,
  count: to - from + 1,
});

describe("places of faults in a year", () => {
  it("are the findings' hours and each run of filled hours, in the order of the year", () => {
    const { places, leftOut } = faultPlaces({
      findings: [stuck(500, 530), { ...stuck(0, 0), from: null, to: null }],
      filled: [{ rule: "straight line", hours: [701, 100, 101, 700] }],
    });
    expect(places.map(({ from, to }) => [from, to])).toEqual([
      [100, 101],
      [500, 530],
      [700, 701],
    ]);
    expect(places[0]!.sentence).toBe("2 h filled from 5 Jan 04:00: straight line.");
    expect(leftOut).toBe(0);
  });

  it("are counted where they are too many to draw", () => {
    const findings = Array.from({ length: mostFaultPlaces + 3 }, (_, k) => stuck(100 * k, 100 * k + 30));
    const { places, leftOut } = faultPlaces({ findings, filled: [] });
    expect([places.length, leftOut]).toEqual([mostFaultPlaces, 3]);
  });
});
