import type { Stream } from "../study/schema/stream.ts";

/** A stream as the problem table needs it: where it is hot and cool, and the heat in between. */
export interface ProcessStream {
  readonly id: string;
  /** Gives heat while it cools or condenses; a cold stream takes it. */
  readonly isHot: boolean;
  /** Equal to `cool_C` for a change of phase at one temperature. */
  readonly warm_C: number;
  readonly cool_C: number;
  /** Positive for hot and cold streams alike. */
  readonly heat_kW: number;
  /** Its share of the least temperature difference in an exchanger. */
  readonly approach_K: number;
}

/** Streams of a study without faults; a stream that says no approach of its own takes half the least one. */
export function processStreams(streams: readonly Stream[], leastApproach_K: number): ProcessStream[] {
  return streams.map((stream): ProcessStream => {
    const { id, in_C, out_C } = stream;
    return {
      id,
      isHot: in_C === out_C ? stream.does === "gives-heat" : in_C > out_C,
      warm_C: Math.max(in_C, out_C),
      cool_C: Math.min(in_C, out_C),
      heat_kW: stream.heat_kW ?? (stream.heatCapacityFlow_kW_K ?? 0) * Math.abs(in_C - out_C),
      approach_K: stream.approach_K ?? leastApproach_K / 2,
    };
  });
}

/** The temperature at which a stream meets others: hot ones lower and cold ones higher by their approach. */
export function shifted_C(
  stream: Pick<ProcessStream, "isHot" | "approach_K">,
  temperature_C: number,
): number {
  return stream.isHot ? temperature_C - stream.approach_K : temperature_C + stream.approach_K;
}
