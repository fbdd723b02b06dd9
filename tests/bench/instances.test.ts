import { describe, expect, it } from "vitest";
import { growthInstances, yearInstances } from "../../src/bench/instances/instances.ts";
import { networkCase } from "../../src/bench/instances/network-case.ts";

describe("the bench's instances", () => {
  it("have names of their own", () => {
    const names = [...yearInstances, ...growthInstances].map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
  });

  it("are the same for the same seed and differ for another", () => {
    const [one, again, other] = [1, 1, 2].map((seed) => networkCase({ networks: 2, seed }));
    expect(again).toEqual(one);
    expect(other!.fields[0]!.yield_kW_per_m2).not.toEqual(one!.fields[0]!.yield_kW_per_m2);
  });

  it("fall with the temperature at which the field works, from cool to hot networks", () => {
    const year = networkCase({ networks: 4 });
    const sums = year.fields.map(({ yield_kW_per_m2 }) => yield_kW_per_m2.reduce((all, kW) => all + kW, 0));
    expect(sums).toEqual(sums.toSorted((a, b) => a - b));
    expect(sums[0]!).toBeGreaterThan(500);
  });

  it("count several years at their share and keep them apart", () => {
    const [one, two] = [networkCase({ networks: 1 }), networkCase({ networks: 1, years: 2 })];
    expect(two.blocks).toBe(2 * one.blocks);
    expect(two.weight.reduce((all, weight) => all + weight, 0)).toBeCloseTo(8760, 6);
    expect(two.networks[0]!.fixed_kW.slice(0, 8760)).toEqual(one.networks[0]!.fixed_kW);
    expect(two.networks[0]!.fixed_kW.slice(8760)).not.toEqual(one.networks[0]!.fixed_kW);
  });

  it("have some negative prices where they say so, and boilers with a limit then", () => {
    const { problem } = yearInstances.find(({ name }) => name === "three-negative")!;
    for (const { heatPrice_per_kWh, size } of problem().backups) {
      const negative = heatPrice_per_kWh.filter((price) => price < 0).length;
      expect(negative).toBeGreaterThan(50);
      expect(negative).toBeLessThan(4000);
      expect(size.existing).toBeLessThan(Number.POSITIVE_INFINITY);
    }
  });
});
