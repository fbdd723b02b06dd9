import type { Problem } from "../problem.ts";
import type { Collector } from "../study/schema/collector.ts";
import { perAperture } from "./per-aperture.ts";

/** What can be wrong with a test report of a collector. */
export const testReportProblems = {
  COLLECTOR_TEST_REPORT:
    "A test report goes with measured optics, ISO 9806 coefficients and the areas of its basis.",
  COLLECTOR_TEST_EFFICIENCY: "A collector cannot turn more than all of the light on its aperture into heat.",
} as const;

/** Every fault of a collector's test report; `path` is the collector's place in the study. */
export function testReportFaults(collector: Collector, path: string): Problem[] {
  const { testReport, optics, heatLoss } = collector;
  if (testReport === undefined) return [];
  const problems: Problem[] = [];
  const fault = (code: keyof typeof testReportProblems, field: string, message: string) =>
    problems.push({ code, message, place: { path: `${path}/${field}` } });
  if (optics.by !== "measured")
    fault(
      "COLLECTOR_TEST_REPORT",
      "optics/by",
      'The optics are computed although there is a test report; "measured" is allowed beside a report, or no report.',
    );
  if (heatLoss.by !== "iso-9806")
    fault(
      "COLLECTOR_TEST_REPORT",
      "heatLoss/by",
      `The heat loss is by "${heatLoss.by}" although there is a test report; "iso-9806" is allowed beside a report, or no report.`,
    );
  const { basis, gross_m2, aperture_m2 } = testReport;
  if (basis === "gross") {
    for (const [field, what, area] of [
      ["gross_m2", "gross", gross_m2],
      ["aperture_m2", "aperture", aperture_m2],
    ] as const) {
      if (area === undefined)
        fault(
          "COLLECTOR_TEST_REPORT",
          `testReport/${field}`,
          `The report's figures are per m² of gross area and the ${what} area is missing; both areas are needed.`,
        );
    }
  }
  if (gross_m2 !== undefined && aperture_m2 !== undefined && !(gross_m2 >= aperture_m2))
    fault(
      "COLLECTOR_TEST_REPORT",
      "testReport/gross_m2",
      `The gross area of ${gross_m2} m² is smaller than the aperture area of ${aperture_m2} m²; it must be at least as large.`,
    );
  if (problems.length > 0 || optics.by !== "measured") return problems;
  const converted = perAperture(collector).optics;
  if (converted.by === "measured" && !(converted.opticalEfficiency <= 1))
    fault(
      "COLLECTOR_TEST_EFFICIENCY",
      "optics/opticalEfficiency",
      `An optical efficiency of ${optics.opticalEfficiency} is ${converted.opticalEfficiency.toFixed(3)} for beam per m² of aperture, by the report's basis and areas; at most 1 is allowed.`,
    );
  return problems;
}
