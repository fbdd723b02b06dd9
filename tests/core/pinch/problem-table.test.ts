import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { problemTable } from "../../../src/core/pinch/problem-table.ts";
import { type ProcessStream, processStreams } from "../../../src/core/pinch/process-stream.ts";
import { fourStreams, someStreams, totalHeat_kW } from "./made-up-streams.ts";

const total = (streams: readonly ProcessStream[], isHot: boolean) =>
  totalHeat_kW(streams.filter((stream) => stream.isHot === isHot));
const near = (a: number, b: number, scale: number) =>
  assert.ok(Math.abs(a - b) <= 1e-9 * (1 + scale), `${a} ${b}`);

describe("problemTable(streams)", () => {
  it("gives the printed targets, pinch and cascade of the four-stream example", () => {
    const streams = processStreams(fourStreams, 10);
    assert.deepEqual(
      streams.map(({ heat_kW }) => heat_kW),
      [230, 330, 240, 180],
    );
    const table = problemTable(streams);
    assert.equal(table.heating_kW, 20);
    assert.equal(table.cooling_kW, 60);
    assert.deepEqual(table.pinches_C, [85]);
    assert.deepEqual(
      table.cascade.map((point) => [point.shifted_C, point.heat_kW]),
      [
        [165, 20],
        [145, 80],
        [140, 82.5],
        [85, 0],
        [55, 75],
        [25, 60],
      ],
    );
  });

  // First law: checks.md 9.5.
  it("takes and rejects what the streams want more than they give", () => {
    fc.assert(
      fc.property(someStreams, (streams) => {
        const { heating_kW, cooling_kW } = problemTable(streams);
        const [hot, cold] = [total(streams, true), total(streams, false)];
        near(heating_kW - cooling_kW, cold - hot, hot + cold);
      }),
    );
  });

  it("never lets heat flow uphill, and stops it at every pinch", () => {
    fc.assert(
      fc.property(someStreams, (streams) => {
        const { cascade, pinches_C } = problemTable(streams);
        assert.ok(cascade.every(({ heat_kW }) => heat_kW >= 0));
        for (const pinch of pinches_C)
          assert.ok(cascade.some((point) => point.shifted_C === pinch && point.heat_kW === 0));
      }),
    );
  });

  it("needs no less when streams must keep further apart, and at most all that is wanted", () => {
    fc.assert(
      fc.property(someStreams, fc.integer({ min: 0, max: 40 }), (streams, more_K) => {
        const close = problemTable(streams);
        const apart = problemTable(streams.map((s) => ({ ...s, approach_K: s.approach_K + more_K })));
        const scale = total(streams, true) + total(streams, false);
        assert.ok(apart.heating_kW >= close.heating_kW - 1e-9 * scale);
        assert.ok(apart.cooling_kW >= close.cooling_kW - 1e-9 * scale);
        assert.ok(apart.heating_kW <= total(streams, false) + 1e-9 * scale);
      }),
    );
  });

  it("does not mind the order of streams, nor a stream cut in two along its way or its flow", () => {
    fc.assert(
      fc.property(someStreams, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (streams, share) => {
        const whole = problemTable(streams);
        const cut = [...streams].reverse().flatMap((s): ProcessStream[] => {
          const middle_C = s.cool_C + share * (s.warm_C - s.cool_C);
          if (s.warm_C === s.cool_C)
            return [
              { ...s, heat_kW: share * s.heat_kW },
              { ...s, heat_kW: (1 - share) * s.heat_kW },
            ];
          return [
            { ...s, warm_C: middle_C, heat_kW: share * s.heat_kW },
            { ...s, cool_C: middle_C, heat_kW: (1 - share) * s.heat_kW },
          ];
        });
        const scale = total(streams, true) + total(streams, false);
        near(problemTable(cut).heating_kW, whole.heating_kW, scale);
        near(problemTable(cut).cooling_kW, whole.cooling_kW, scale);
      }),
    );
  });

  it("needs nothing for a boiling stream that a condensing one can heat, and all of it a kelvin too close", () => {
    const boiling: ProcessStream = {
      id: "b",
      isHot: false,
      warm_C: 120,
      cool_C: 120,
      heat_kW: 500,
      approach_K: 5,
    };
    const condensing = { ...boiling, id: "c", isHot: true, warm_C: 130, cool_C: 130 };
    assert.equal(problemTable([boiling, condensing]).heating_kW, 0);
    const tooCool = { ...condensing, warm_C: 129, cool_C: 129 };
    const apart = problemTable([boiling, tooCool]);
    assert.equal(apart.heating_kW, 500);
    assert.equal(apart.cooling_kW, 500);
  });

  it("has no pinch where only heat is wanted", () => {
    const streams = processStreams(
      fourStreams.filter(({ id }) => id.startsWith("c")),
      10,
    );
    const table = problemTable(streams);
    assert.equal(table.heating_kW, 470);
    assert.equal(table.cooling_kW, 0);
    assert.deepEqual(table.pinches_C, []);
  });

  it("gives nothing for no streams", () => {
    assert.deepEqual(problemTable([]), { heating_kW: 0, cooling_kW: 0, cascade: [], pinches_C: [] });
  });
});
