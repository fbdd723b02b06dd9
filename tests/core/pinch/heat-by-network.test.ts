import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compositeCurve } from "../../../src/core/pinch/composite-curve.ts";
import { type HeatSource, heatByNetwork } from "../../../src/core/pinch/heat-by-network.ts";
import { problemTable } from "../../../src/core/pinch/problem-table.ts";
import { type ProcessStream, processStreams } from "../../../src/core/pinch/process-stream.ts";
import { fourStreams, someStreams, totalHeat_kW } from "./made-up-streams.ts";

const source: fc.Arbitrary<HeatSource> = fc
  .record({
    supply_C: fc.integer({ min: 20, max: 400 }),
    drop_K: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 120 })),
    approach_K: fc.integer({ min: 0, max: 10 }),
  })
  .map(({ supply_C, drop_K, approach_K }) => ({
    id: "n",
    supply_C,
    return_C: supply_C - drop_K,
    approach_K,
  }));

const asStream = (source: HeatSource, heat_kW: number): ProcessStream => ({
  id: source.id,
  isHot: true,
  warm_C: source.supply_C,
  cool_C: source.return_C,
  heat_kW,
  approach_K: source.approach_K,
});

describe("heatByNetwork(table, networks)", () => {
  // Read off the grand composite of the four-stream example by hand: past 90 shifted flow 7.5 kW.
  it("lets steam of 95 °C carry 7.5 of the 20 kW of the four-stream example", () => {
    const table = problemTable(processStreams(fourStreams, 10));
    const steam = (id: string, supply_C: number) => ({ id, supply_C, return_C: supply_C, approach_K: 5 });
    const { networks, beyond_kW } = heatByNetwork(table, [steam("hot", 165), steam("cool", 95)]);
    expect(networks.map(({ network, heat_kW }) => [network, heat_kW])).toEqual([
      ["cool", 7.5],
      ["hot", 12.5],
    ]);
    expect(beyond_kW).toBe(0);
  });

  it("gives nothing to a network that returns below the pinch, and tells what it could carry at its supply", () => {
    const table = problemTable(processStreams(fourStreams, 10));
    const { networks, beyond_kW } = heatByNetwork(table, [
      { id: "water", supply_C: 95, return_C: 70, approach_K: 5 },
    ]);
    expect(networks).toEqual([{ network: "water", heat_kW: 0, atSupply_kW: 7.5 }]);
    expect(beyond_kW).toBe(20);
  });

  it("shares out the heating without remainder and without a kilowatt more to cool", () => {
    fc.assert(
      fc.property(someStreams, fc.array(source, { maxLength: 4 }), (streams, sources) => {
        const table = problemTable(streams);
        const named = sources.map((one, i) => ({ ...one, id: `n${i}` }));
        const { networks, beyond_kW } = heatByNetwork(table, named);
        const carried_kW = networks.reduce((sum, { heat_kW }) => sum + heat_kW, 0);
        const tolerance = 1e-8 * (1 + totalHeat_kW(streams));
        expect(Math.abs(carried_kW + beyond_kW - table.heating_kW)).toBeLessThan(tolerance);
        for (const { heat_kW, atSupply_kW } of networks) {
          expect(heat_kW).toBeGreaterThanOrEqual(0);
          expect(atSupply_kW).toBeGreaterThanOrEqual(heat_kW);
        }
        // The networks as hot streams among the others: the problem table itself is the judge.
        const heated = problemTable([
          ...streams,
          ...networks.map(({ network, heat_kW }) =>
            asStream(named.find(({ id }) => id === network)!, heat_kW),
          ),
        ]);
        expect(Math.abs(heated.heating_kW - beyond_kW)).toBeLessThan(tolerance);
        expect(Math.abs(heated.cooling_kW - table.cooling_kW)).toBeLessThan(tolerance);
      }),
      { numRuns: 400 },
    );
  });

  it("has the coolest network carry all that it can: a tenth more would have to be cooled away", () => {
    fc.assert(
      fc.property(someStreams, source, (streams, one) => {
        const table = problemTable(streams);
        const { networks, beyond_kW } = heatByNetwork(table, [one]);
        const carried_kW = networks[0]!.heat_kW;
        const more_kW = carried_kW + 0.1 * table.heating_kW;
        fc.pre(beyond_kW > 0.2 * table.heating_kW);
        const heated = problemTable([...streams, asStream(one, more_kW)]);
        expect(heated.cooling_kW).toBeGreaterThan(table.cooling_kW);
      }),
    );
  });
});

describe("compositeCurve(streams, side)", () => {
  // Worked by hand from the example's streams: 30 to 60 °C 1.5 kW/K, to 150 °C 4.5, to 170 °C 3.
  it("adds the heat capacity flows of the hot streams of the four-stream example", () => {
    const curve = compositeCurve(processStreams(fourStreams, 10), "hot");
    expect(curve.map((point) => [point.temperature_C, point.heat_kW])).toEqual([
      [30, 0],
      [60, 45],
      [150, 450],
      [170, 510],
    ]);
  });

  it("ends at all the heat of its side", () => {
    fc.assert(
      fc.property(someStreams, fc.constantFrom("hot" as const, "cold" as const), (streams, side) => {
        const own = streams.filter(({ isHot }) => isHot === (side === "hot"));
        const end_kW = compositeCurve(streams, side).at(-1)?.heat_kW ?? 0;
        expect(Math.abs(end_kW - totalHeat_kW(own))).toBeLessThan(1e-8 * (1 + totalHeat_kW(own)));
      }),
    );
  });

  it("keeps the hot curve above the cold one by the least approach, and meets it at the pinch", () => {
    const streams = processStreams(fourStreams, 10);
    const { cooling_kW } = problemTable(streams);
    const at = (points: ReturnType<typeof compositeCurve>, heat_kW: number) => {
      const next = points.findIndex((point) => point.heat_kW >= heat_kW);
      const [a, b] = [points[Math.max(0, next - 1)]!, points[next]!];
      const share = b.heat_kW === a.heat_kW ? 0 : (heat_kW - a.heat_kW) / (b.heat_kW - a.heat_kW);
      return a.temperature_C + share * (b.temperature_C - a.temperature_C);
    };
    const hot = compositeCurve(streams, "hot");
    const cold = compositeCurve(streams, "cold", cooling_kW);
    const gaps = [...hot, ...cold]
      .map(({ heat_kW }) => heat_kW)
      .filter((heat_kW) => heat_kW >= cooling_kW && heat_kW <= hot.at(-1)!.heat_kW)
      .map((heat_kW) => at(hot, heat_kW) - at(cold, heat_kW));
    expect(Math.min(...gaps)).toBeCloseTo(10, 9);
  });
});
