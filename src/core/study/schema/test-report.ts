import { type Static, Type } from "typebox";
import { quantity, record, text } from "./building-blocks.ts";

export const TestReport = record(
  "Test report by ISO 9806",
  {
    source: text("Laboratory, number and date of the report", 200),
    basis: Type.Enum(["gross", "aperture"], {
      title: "Its figures are per m² of",
      description: "ISO 9806:2017 reports on gross area, earlier reports often on aperture area.",
    }),
    gross_m2: Type.Optional(
      quantity("Gross area of the collector tested", "m²", {
        above: 0,
        most: 10_000,
        description: "Needed with the aperture area where the figures are per m² of gross area.",
      }),
    ),
    aperture_m2: Type.Optional(
      quantity("Aperture area of the collector tested", "m²", { above: 0, most: 10_000 }),
    ),
    efficiencyIs: Type.Enum(["beam", "hemispherical"], {
      title: "Its optical efficiency η0 is for",
      description: "hemispherical: for 85 % beam and 15 % diffuse light, as ISO 9806:2017 states η0,hem.",
    }),
    highestTested_C: quantity("Highest mean fluid temperature in the test", "°C", {
      least: 0,
      most: 650,
      description: "Beyond it the loss is extrapolated, and the program says so.",
    }),
  },
  "Optical efficiency and loss are typed as the report has them and converted to beam and aperture area.",
);
export type TestReport = Static<typeof TestReport>;
