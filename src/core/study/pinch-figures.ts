import { type CompositePoint, compositeCurve } from "../pinch/composite-curve.ts";
import { heatByNetwork, type NetworkHeat } from "../pinch/heat-by-network.ts";
import { type ProblemTable, problemTable } from "../pinch/problem-table.ts";
import { processStreams } from "../pinch/process-stream.ts";
import type { Study } from "./schema/study.ts";

/** Taken where a study does not say; common practice for liquids, no source. */
export const usualApproach_K = 10;

/** What the factory's own streams could do for each other, before any heat is bought. */
export interface PinchFigures extends ProblemTable {
  readonly leastApproach_K: number;
  /** All that is to be heated, and all that is to be cooled. */
  readonly wanted_kW: number;
  readonly given_kW: number;
  /** Of `wanted_kW`, what the hot streams could give at most. */
  readonly recovered_kW: number;
  /** Neither heating and cooling, but one of them or none, is needed: a threshold problem has no pinch. */
  readonly kind: "pinched" | "heating-only" | "cooling-only" | "neither";
  readonly hotCurve: readonly CompositePoint[];
  /** Moved right by the least cooling, so that the two curves stand at their least approach. */
  readonly coldCurve: readonly CompositePoint[];
  /** Cool to hot. */
  readonly networks: readonly NetworkHeat[];
  /** Heating that no network of the study is hot enough for. */
  readonly beyond_kW: number;
}

/**
 * Pinch analysis of a study's process streams; null without any. Networks count as sources that keep
 * half the least approach to what they heat; steam condenses at its supply, others cool to their return.
 */
export function pinchFigures(study: Study): PinchFigures | null {
  if ((study.streams ?? []).length === 0) return null;
  const leastApproach_K = study.pinch?.leastApproach_K ?? usualApproach_K;
  const streams = processStreams(study.streams!, leastApproach_K);
  const table = problemTable(streams);
  const sum = (hot: boolean) =>
    streams.reduce((all, { isHot, heat_kW }) => all + (isHot === hot ? heat_kW : 0), 0);
  const wanted_kW = sum(false);
  const shared = heatByNetwork(
    table,
    study.networks.map(({ id, carrier, supply_C, return_C }) => ({
      id,
      supply_C,
      return_C: carrier === "steam" ? supply_C : Math.min(return_C, supply_C),
      approach_K: leastApproach_K / 2,
    })),
  );
  const { heating_kW, cooling_kW } = table;
  return {
    ...table,
    leastApproach_K,
    wanted_kW,
    given_kW: sum(true),
    recovered_kW: Math.max(0, wanted_kW - heating_kW),
    kind:
      heating_kW > 0
        ? cooling_kW > 0
          ? "pinched"
          : "heating-only"
        : cooling_kW > 0
          ? "cooling-only"
          : "neither",
    hotCurve: compositeCurve(streams, "hot"),
    coldCurve: compositeCurve(streams, "cold", cooling_kW),
    networks: shared.networks,
    beyond_kW: shared.beyond_kW,
  };
}
