import fc from "fast-check";
import type { ProcessStream } from "../../../src/core/pinch/process-stream.ts";
import type { Stream } from "../../../src/core/study/schema/stream.ts";

/** Kemp, Pinch Analysis and Process Integration, 2nd ed. 2007, ch. 2; from memory, sure. */
export const fourStreams: readonly Stream[] = [
  { id: "c1", name: "Cold 1", in_C: 20, out_C: 135, heatCapacityFlow_kW_K: 2 },
  { id: "h1", name: "Hot 1", in_C: 170, out_C: 60, heatCapacityFlow_kW_K: 3 },
  { id: "c2", name: "Cold 2", in_C: 80, out_C: 140, heatCapacityFlow_kW_K: 4 },
  { id: "h2", name: "Hot 2", in_C: 150, out_C: 30, heatCapacityFlow_kW_K: 1.5 },
];

const aStream: fc.Arbitrary<ProcessStream> = fc
  .record({
    isHot: fc.boolean(),
    cool_C: fc.integer({ min: -20, max: 300 }),
    span_K: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 200 })),
    heat_kW: fc.double({ min: 0.1, max: 5000, noNaN: true }),
    approach_K: fc.integer({ min: 0, max: 20 }),
  })
  .map(({ span_K, cool_C, ...rest }) => ({ id: "s", ...rest, cool_C, warm_C: cool_C + span_K }));
export const someStreams = fc.array(aStream, { minLength: 1, maxLength: 9 });

export const totalHeat_kW = (streams: readonly ProcessStream[]) =>
  streams.reduce((sum, { heat_kW }) => sum + heat_kW, 0);
