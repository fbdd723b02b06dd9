import { type Chart, type ChartFrame, type LossPanel, lossWaterfall } from "../../charts/index.ts";
import type { Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { collectorYears, isBuilt, type NamedCollectorYear } from "../../present/collector-losses.ts";
import type { ChartView } from "./document-charts.ts";

type Show = (prefix: string, draw: (frame: ChartFrame) => Chart, title?: string) => ChartView;

/** A waterfall for each collector, its heat networks beside each other; all on the scale of the brightest. */
export function lossCharts(study: Study, result: Result, show: Show): ChartView[] {
  const years = collectorYears(study, result);
  const charts = [...new Set(years.map(({ id }) => id))].map((id) => {
    const own = years.filter((year) => year.id === id);
    return { id, name: own[0]!.collector, panels: own.map(lossPanel) };
  });
  const all = charts.map(({ panels }) => panels);
  return charts.map(({ id, name, panels }) =>
    show(`losses-${id}`, (frame) => lossWaterfall(panels, frame, all), `Where does the light on ${name} go?`),
  );
}

function lossPanel(year: NamedCollectorYear): LossPanel {
  const { figures, network, meanFluid_C } = year;
  return {
    name: network,
    meanFluid_C,
    chain: isBuilt(year) ? figures : { ...figures, used_kWh_per_m2: null },
  };
}
