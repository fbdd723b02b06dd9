import type { Collector, HeatLoss } from "../study/schema/collector.ts";
import { grossToAperture } from "./gross-to-aperture.ts";
import { beamEfficiency } from "./hemispherical-efficiency.ts";

/** What optics and heat of a collector are computed from. */
type Tested = Pick<Collector, "optics" | "heatLoss" | "diffuseModifier" | "testReport">;

/**
 * A collector whose measured optical efficiency and loss coefficients are those of its test report, with
 * both per m² of aperture and the efficiency for beam: η0,b = η0,hem/(0.85 + 0.15·Kd), and all of η0 and a1 … a8
 * times gross/aperture area (ISO 9806:2017). The report itself is left out of what is given
 * back, so that nothing is converted twice. Without one the collector is given back as it is.
 *
 * @throws ModelError OUT_OF_RANGE where the areas are missing or the gross area is the smaller
 */
export function perAperture<C extends Tested>(collector: C): C {
  const { testReport, optics, heatLoss, diffuseModifier } = collector;
  if (testReport === undefined || optics.by !== "measured") return collector;
  const isGross = testReport.basis === "gross";
  const { gross_m2 = Number.NaN, aperture_m2 = Number.NaN } = testReport;
  const convert = (figure: number) => (isGross ? grossToAperture(figure, gross_m2, aperture_m2) : figure);
  const beam =
    testReport.efficiencyIs === "beam"
      ? optics.opticalEfficiency
      : beamEfficiency(optics.opticalEfficiency, diffuseModifier);
  const { testReport: _, ...converted } = { ...collector };
  return {
    ...(converted as C),
    optics: { ...optics, opticalEfficiency: convert(beam) },
    heatLoss: heatLoss.by === "iso-9806" && isGross ? lossPerAperture(heatLoss, convert) : heatLoss,
  };
}

type IsoLoss = Extract<HeatLoss, { by: "iso-9806" }>;

function lossPerAperture(heatLoss: IsoLoss, convert: (figure: number) => number): IsoLoss {
  const figures = Object.entries(heatLoss).map(([key, value]) => [
    key,
    typeof value === "number" ? convert(value) : value,
  ]);
  return Object.fromEntries(figures) as IsoLoss;
}
