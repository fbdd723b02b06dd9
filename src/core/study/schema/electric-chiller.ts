import { type Static, Type } from "typebox";
import { quantity, record, tagged } from "./building-blocks.ts";

const ratedAmbient = {
  ratedAmbient_C: quantity("Outdoor air at which the COP holds", "°C", { least: -30, most: 60 }),
};
const cop = (title: string) => quantity(title, "1", { above: 0, most: 15 });

const ByAmbient = tagged("by", "COP against outdoor air", [
  record("By a slope", {
    by: Type.Literal("slope"),
    ...ratedAmbient,
    lostPerK: quantity("COP lost per kelvin of warmer air", "share of the rated COP per K", {
      least: 0,
      most: 0.1,
    }),
    leastCop: cop("Lowest COP"),
    mostCop: cop("Highest COP"),
  }),
  record("By the reversible cycle", {
    by: Type.Literal("reversible-share"),
    ...ratedAmbient,
    condenserApproach_K: quantity("Condensing above outdoor air", "K", { least: 0, most: 40 }),
    evaporatorApproach_K: quantity("Evaporating below cold supply", "K", { least: 0, most: 20 }),
    condenserLeast_C: quantity("Lowest condensing temperature", "°C", {
      least: -20,
      most: 60,
      description: "What the control holds on cold days.",
    }),
  }),
]);

export const ElectricChiller = record("Electric chiller", {
  cop: quantity("COP", "1", { above: 0, most: 15 }),
  existing_kW: Type.Optional(
    quantity("Existing cooling power", "kW", { least: 0, description: "Large enough where left out." }),
  ),
  byAmbient: Type.Optional(ByAmbient),
});
export type ElectricChiller = Static<typeof ElectricChiller>;
