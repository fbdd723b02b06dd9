import { type Chart, type ChartFrame, compositeCurves, grandComposite } from "../../charts/index.ts";
import { pinchFigures } from "../../core/study/pinch-figures.ts";
import type { Study } from "../../core/study/schema/study.ts";
import type { ChartView } from "./document-charts.ts";

/** Composite curves and grand composite curve of the study's process streams; none without streams. */
export function streamCharts(
  study: Study,
  show: (prefix: string, draw: (frame: ChartFrame) => Chart) => ChartView,
): ChartView[] {
  const figures = pinchFigures(study);
  if (figures === null) return [];
  const { hotCurve: hot, coldCurve: cold, cascade, pinches_C, beyond_kW, leastApproach_K } = figures;
  const networks = figures.networks.flatMap(({ network, heat_kW }) => {
    const given = study.networks.find(({ id }) => id === network);
    if (given === undefined) return [];
    return [{ name: given.name, shifted_C: given.supply_C - leastApproach_K / 2, heat_kW }];
  });
  return [
    show("composite", (frame) => compositeCurves({ ...figures, hot, cold }, frame)),
    show("grand-composite", (frame) => grandComposite({ cascade, pinches_C, networks, beyond_kW }, frame)),
  ];
}
