import { type Static, Type } from "typebox";
import { Parts, quantity, record } from "./building-blocks.ts";

export const FieldPipes = record(
  "Field pipes",
  {
    length_m: quantity("Supply pipe; the return pipe is as long", "m", { above: 0, most: 50_000 }),
    forAperture_m2: quantity("That length serves a field of", "m² aperture", {
      above: 0,
      most: 10_000_000,
      description: "Other sizes are taken to have as many metres of pipe per m².",
    }),
    outerDiameter_mm: quantity("Outer diameter of the pipe", "mm", { above: 0, most: 2000 }),
    wall_mm: quantity("Wall of the pipe", "mm", { above: 0, most: 100 }),
    insulation_mm: quantity("Thickness of the insulation", "mm", { least: 0, most: 1000 }),
    insulation_W_mK: quantity("Conductivity of the insulation", "W/(m·K)", {
      above: 0,
      most: 1,
      description: "At its mean temperature in use.",
    }),
    surface_W_m2K: Type.Optional(
      quantity("Heat transfer from its surface to the air", "W/(m²·K)", {
        above: 0,
        most: 200,
        description: "25 if left out, that of surfaces in the open.",
      }),
    ),
    fluid: Type.Enum(["water", "thermal-oil", "molten-salt", "air"], { title: "Fluid in the pipes" }),
    parts: Type.Optional({
      ...Parts,
      title: "Parts of the pipes, by the metre",
      description:
        "Priced by the metre of supply and return pipe together, new pipe for new aperture; where left out, pipes are in the parts of the collector.",
    }),
  },
  "Mean figures of the steel pipes between collectors and factory; left out: they lose nothing.",
);
export type FieldPipes = Static<typeof FieldPipes>;
