import type { Problem } from "../../problem.ts";
import type { Stream, Study } from "../schema/study.ts";

/** What process streams must keep to. */
export const streamProblems = {
  STREAM_ID_TWICE: "an id may be used once among the process streams",
  STREAM_HEAT: "a process stream gives either its heat capacity flow or its heat",
  STREAM_PHASE: "a process stream at one temperature must say its heat and whether it gives or takes it",
  STREAM_DIRECTION: "a stream that cools gives heat, one that warms takes it",
} as const;

/** Every fault of the process streams, at once. The study must fit the schema. */
export function checkStreams({ streams = [] }: Study): Problem[] {
  const problems: Problem[] = [];
  const fault = (code: keyof typeof streamProblems, path: string, message: string) => {
    problems.push({ code, message, place: { path } });
  };
  streams.forEach((stream, i) => {
    const path = `streams/${i}`;
    const first = streams.findIndex(({ id }) => id === stream.id);
    if (first < i)
      fault(
        "STREAM_ID_TWICE",
        `${path}/id`,
        `The id "${stream.id}" is already that of streams/${first}; every stream needs its own.`,
      );
    const { heat_kW, heatCapacityFlow_kW_K } = stream;
    if (heat_kW !== undefined && heatCapacityFlow_kW_K !== undefined)
      fault(
        "STREAM_HEAT",
        `${path}/heat_kW`,
        `"${stream.id}" gives a heat of ${heat_kW} kW and a heat capacity flow of ${heatCapacityFlow_kW_K} kW/K; leave one of them out.`,
      );
    if (stream.in_C === stream.out_C) atOneTemperature(stream, path, fault);
    else betweenTwo(stream, path, fault);
  });
  return problems;
}

type Fault = (code: keyof typeof streamProblems, path: string, message: string) => void;

function atOneTemperature(stream: Stream, path: string, fault: Fault): void {
  if (stream.heat_kW === undefined)
    fault(
      "STREAM_PHASE",
      `${path}/heat_kW`,
      `"${stream.id}" stays at ${stream.in_C} °C, so its heat in kW is needed; a heat capacity flow gives none.`,
    );
  if (stream.does === undefined)
    fault(
      "STREAM_PHASE",
      `${path}/does`,
      `"${stream.id}" stays at ${stream.in_C} °C; say whether it gives heat (condensing) or takes it (boiling).`,
    );
}

function betweenTwo(stream: Stream, path: string, fault: Fault): void {
  const { in_C, out_C, does } = stream;
  if (stream.heat_kW === undefined && stream.heatCapacityFlow_kW_K === undefined)
    fault(
      "STREAM_HEAT",
      `${path}/heatCapacityFlow_kW_K`,
      `"${stream.id}" gives neither its heat capacity flow nor its heat; one of them is needed.`,
    );
  const meant = in_C > out_C ? "gives-heat" : "takes-heat";
  if (does !== undefined && does !== meant)
    fault(
      "STREAM_DIRECTION",
      `${path}/does`,
      `"${stream.id}" goes from ${in_C} to ${out_C} °C, so it ${in_C > out_C ? "gives" : "takes"} heat; change the temperatures or leave this out.`,
    );
}
