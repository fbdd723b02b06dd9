import type { DispatchCase } from "../dispatch/case.ts";

/** A way for heat from one network to another through step-downs; none for a network's own heat. */
export interface HeatRoute {
  readonly source: number;
  /** Step-downs from the source on. */
  readonly steps: Int32Array;
  /** Share of the source's heat that enters each of them. */
  readonly entering: Float64Array;
  /** Share of the source's heat that arrives. */
  readonly efficiency: number;
}

/** Every way into each network, its own heat first, then by the number of step-downs. */
export function heatRoutes({ networks, stepDowns }: DispatchCase): HeatRoute[][] {
  return networks.map((_, target) => {
    const routes: HeatRoute[] = [];
    let reached: { source: number; steps: number[]; passed: number[] }[] = [
      { source: target, steps: [], passed: [target] },
    ];
    while (reached.length > 0) {
      routes.push(...reached.map(({ source, steps }) => routeOf(source, steps, stepDowns)));
      reached = reached.flatMap(({ source, steps, passed }) =>
        stepDowns.flatMap(({ from, to }, i) =>
          to === source && !passed.includes(from)
            ? [{ source: from, steps: [i, ...steps], passed: [...passed, from] }]
            : [],
        ),
      );
    }
    return routes;
  });
}

function routeOf(source: number, steps: readonly number[], stepDowns: DispatchCase["stepDowns"]): HeatRoute {
  let efficiency = 1;
  const entering = Float64Array.from(steps, (i) => {
    const share = efficiency;
    efficiency *= stepDowns[i].efficiency;
    return share;
  });
  return { source, steps: Int32Array.from(steps), entering, efficiency };
}
