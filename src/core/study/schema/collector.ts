import { type Static, Type } from "typebox";
import { Id, Parts, quantity, record, Size, share, text } from "./building-blocks.ts";
import { FilmAgeing, Outage, Soiling, Storm } from "./collector-running.ts";
import { FieldPipes } from "./field-pipes.ts";
import { Frost } from "./frost.ts";
import { HeatLoss } from "./heat-loss.ts";
import { Mount } from "./mount.ts";
import { IncidenceModifier, Optics } from "./optics.ts";
import { TestReport } from "./test-report.ts";

export type { HeatLoss } from "./heat-loss.ts";
export type { Mount } from "./mount.ts";
export type { IncidenceModifier, Optics } from "./optics.ts";
export type { TestReport } from "./test-report.ts";

export const Collector = record("Collector", {
  id: Id,
  name: text("Name", 80),
  networks: Type.Array(Id, { title: "Heat networks it may serve", minItems: 1, maxItems: 10 }),
  mount: Mount,
  optics: Optics,
  modifier: IncidenceModifier,
  diffuseModifier: share("Modifier for diffuse light Kd", "0 for a concentrator that uses beam only."),
  endLoss: Type.Optional(
    record("End loss", {
      focalLength_m: quantity("Focal length", "m", { above: 0, most: 50 }),
      rowLength_m: quantity("Row length", "m", { above: 0, most: 2000 }),
    }),
  ),
  groundCover: quantity("Aperture per m² of land", "m²/m²", { above: 0, most: 1 }),
  rowShading: Type.Boolean({
    title: "Rows shade each other",
    description: "Taken from the ground cover; on two axes as round apertures on a square grid.",
  }),
  cleanliness: share("Cleanliness", "The mean of the year; with soiling, that just after washing."),
  soiling: Type.Optional(Soiling),
  heatLoss: HeatLoss,
  testReport: Type.Optional(TestReport),
  leastIrradiance_W_m2: Type.Optional(
    quantity("Least light to start at", "W/m²", {
      least: 0,
      most: 1000,
      description:
        "Beam, and diffuse light where Kd is above 0, on the aperture; in hours with less the loop stands still.",
    }),
  ),
  highestOutlet_C: quantity("Highest outlet temperature", "°C", { least: 30, most: 650 }),
  pipes: Type.Optional(FieldPipes),
  frost: Type.Optional(Frost),
  storm: Storm,
  outages: Type.Optional(Type.Array(Outage, { title: "Planned outages, the same every year", maxItems: 12 })),
  availability: Type.Optional(
    quantity("Share of the field in use outside planned outages", "1", {
      above: 0,
      most: 1,
      description: "The rest is taken to be under repair at any time; 1 if left out.",
    }),
  ),
  ageing_per_year: quantity("Optical efficiency lost per year of film age", "1/a", { least: 0, most: 0.5 }),
  filmAgeing: Type.Optional(FilmAgeing),
  parasitic_W_m2: quantity("Electric power while running", "W/m² of aperture", {
    least: 0,
    most: 100,
    description: "Pumps, and what is not given below, in hours with useful heat.",
  }),
  tracking_W_m2: Type.Optional(
    quantity("Electric power of the drives", "W/m² of aperture", {
      least: 0,
      most: 100,
      description: "While the sun is up, but not stowed or out of use; 0 if left out.",
    }),
  ),
  blower_W_m2: Type.Optional(
    quantity("Electric power of the blower", "W/m² of aperture", {
      least: 0,
      most: 100,
      description:
        "In every hour, by night and on days out of use too, but not while emptied of air; 0 if left out.",
    }),
  ),
  module_m2: Type.Optional(
    quantity("Aperture of one module", "m²", {
      above: 0,
      most: 100_000,
      description: "One dish, one row: new aperture is then rounded to whole modules and the year run again.",
    }),
  ),
  existing_m2: quantity("Existing", "m² aperture", { least: 0 }),
  size: Size,
  filmPart: Type.Optional(text("Name of the part whose life sets the film's age", 80)),
  parts: Parts,
});
export type Collector = Static<typeof Collector>;
