import { perAperture } from "../core/collector/per-aperture.ts";
import { testReportFaults } from "../core/collector/test-report-faults.ts";
import type { Collector, Study } from "../core/study/schema/study.ts";
import { asGiven, threeDigits } from "./numbers.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

const lossNames = {
  a1_W_m2K: ["a1", "W/(m²·K)"],
  a2_W_m2K2: ["a2", "W/(m²·K²)"],
  a3_J_m3K: ["a3", "J/(m³·K)"],
  a4: ["a4", ""],
  a5_kJ_m2K: ["a5", "kJ/(m²·K)"],
  a6_s_m: ["a6", "s/m"],
  a7_s_m: ["a7", "s/m"],
  a8_W_m2K4: ["a8", "W/(m²·K⁴)"],
} as const;

/** The figures of a collector's test report beside what the program computes with; null without a sound report. */
export function testReportTable(study: Study, collector: Collector): TableView | null {
  const { testReport, optics, heatLoss } = collector;
  if (testReport === undefined || testReportFaults(collector, "").length > 0) return null;
  const used = perAperture(collector);
  if (optics.by !== "measured" || heatLoss.by !== "iso-9806") return null;
  if (used.optics.by !== "measured" || used.heatLoss.by !== "iso-9806") return null;
  const { locale } = writingOf(study);
  const { basis, efficiencyIs } = testReport;
  const reported = efficiencyIs === "beam" ? "beam" : "85 % beam, 15 % diffuse";
  const losses = Object.entries(lossNames).flatMap(([key, [name, unit]]) => {
    const typed = heatLoss[key as keyof typeof lossNames];
    const converted = (used.heatLoss as typeof heatLoss)[key as keyof typeof lossNames];
    if (typed === undefined || converted === undefined) return [];
    return [
      [`${name}${unit === "" ? "" : `, ${unit}`}`, asGiven(typed, locale), threeDigits(converted, locale)],
    ];
  });
  return figuresTable(
    `Test report of ${collector.name}: ${testReport.source}`,
    ["Figure", `In the report, per m² of ${basis} area`, "Used, per m² of aperture"],
    [
      [
        `optical efficiency, reported for ${reported}, used for beam`,
        asGiven(optics.opticalEfficiency, locale),
        threeDigits(used.optics.opticalEfficiency, locale),
      ],
      ...losses,
      [
        "highest mean fluid temperature, °C",
        asGiven(testReport.highestTested_C, locale),
        asGiven(testReport.highestTested_C, locale),
      ],
    ],
  );
}
