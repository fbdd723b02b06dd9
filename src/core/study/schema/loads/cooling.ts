import { Type } from "typebox";
import { quantity, record } from "../building-blocks.ts";
import { Profile } from "../profile.ts";
import { heading } from "./load-heading.ts";

export const Cooling = record("Cooling", {
  kind: Type.Literal("cooling"),
  ...heading,
  cold_kW: Profile,
  coldSupply_C: quantity("Cold supply", "°C", { least: -40, most: 20 }),
  electricChiller: record("Electric chiller", {
    cop: quantity("COP", "1", { above: 0, most: 15 }),
    existing_kW: Type.Optional(
      quantity("Existing cooling power", "kW", { least: 0, description: "Large enough where left out." }),
    ),
  }),
});
