import { collectorYear } from "../core/collector/collector-year.ts";
import { filmStatesByMonth } from "../core/collector/film-history.ts";
import { collectorFromRecord } from "../core/collector/records.ts";
import type { Collector } from "../core/study/schema/study.ts";
import { sunYear } from "../core/sun/sun-year.ts";
import { resolvedExample } from "./example-problem.ts";
import { medianTime_s } from "./measure.ts";
import { milliseconds, wanted } from "./table.ts";

type Row = [string, string, string];

const levels = [100, 180, 240].map((mean_C) => ({ collectorIn_C: mean_C - 10, collectorOut_C: mean_C + 10 }));

/** A film trough with every loss that a collector's year knows. */
function everyLoss(): Collector {
  const { collector } = collectorFromRecord("inflated-film-trough", { id: "trough", networks: ["a"] });
  return {
    ...collector,
    diffuseModifier: 0.1,
    soiling: { lossPerDay: 0.003, washEvery_days: 14 },
    leastIrradiance_W_m2: 120,
    outages: [{ fromMonth: 1, fromDay: 10, days: 7 }],
    availability: 0.98,
    tracking_W_m2: 0.5,
    blower_W_m2: 0.3,
    storm: { stowWind_m_s: 12, returnWind_m_s: 10, backAfter_h: 2, stowing: "emptied" },
    pipes: {
      length_m: 400,
      forAperture_m2: 2000,
      outerDiameter_mm: 76.1,
      wall_mm: 2.9,
      insulation_mm: 80,
      insulation_W_mK: 0.045,
      fluid: "thermal-oil",
    },
  };
}

/** Times of a collector's year and of the years of its film, the longest wished for 25. */
export async function collectorRows(): Promise<Row[]> {
  const { study, weather } = resolvedExample();
  const climate = { latitude_deg: study.site.latitude_deg, sun: sunYear(study.site), weather };
  const collector = everyLoss();
  const year_s = await medianTime_s(41, () => collectorYear(collector, climate, levels));
  const aged = { ...collector, parts: collector.parts.map((part) => ({ ...part, life_years: 7.3 })) };
  const years = 25;
  const ageing_s = await medianTime_s(7, () =>
    filmStatesByMonth(aged, years).map(
      (filmState) =>
        collectorYear(aged, climate, levels.slice(1, 2), { filmState }).levels[0]!.useful_kWh_per_m2,
    ),
  );
  return [
    [
      "A collector's year at three temperatures with every loss",
      milliseconds(year_s),
      wanted("under 20 ms", year_s < 0.02),
    ],
    [
      `${years} years of a film's ageing, each computed`,
      milliseconds(ageing_s),
      wanted("under 300 ms", ageing_s < 0.3),
    ],
  ];
}
