import { type Static, Type } from "typebox";
import { quantity, record, share, tagged } from "./building-blocks.ts";

/** Optical efficiency at normal incidence on the aperture: of a test, or computed; never both. */
export const Optics = tagged("by", "Optical efficiency", [
  record("Measured", {
    by: Type.Literal("measured"),
    opticalEfficiency: share("Optical efficiency η0, beam, normal incidence"),
  }),
  record("Computed", {
    by: Type.Literal("computed"),
    filmTransmittance: share("Transmittance of the cover film"),
    filmPasses: Type.Integer({
      title: "Passes through the cover film",
      minimum: 0,
      maximum: 2,
      description: "Twice where the receiver sits outside the film envelope, once inside, 0 without a cover.",
    }),
    reflectance: share("Mirror reflectance"),
    intercept: share("Intercept factor"),
    absorptance: share("Receiver absorptance"),
  }),
]);
export type Optics = Static<typeof Optics>;

export const IncidenceModifier = tagged("type", "Incidence angle modifier", [
  record("None", { type: Type.Literal("none") }),
  record("One coefficient", {
    type: Type.Literal("b0"),
    b0: quantity("b0 in 1 − b0·(1/cos θ − 1)", "1", { least: 0, most: 1 }),
  }),
  record("Polynomial", {
    type: Type.Literal("polynomial"),
    coefficients: Type.Array(Type.Number(), {
      title: "Coefficients of θ¹, θ², … (θ in degrees), added to 1 (to cos θ where it is contained)",
      minItems: 1,
      maxItems: 6,
    }),
    containsCosine: Type.Boolean({
      title: "Contains the cosine",
      description:
        "Some published modifiers already hold cos θ: then the coefficients are added to cos θ instead of 1, and it is not applied again.",
    }),
  }),
  record("Table", {
    type: Type.Literal("table"),
    angles_deg: Type.Array(quantity("Angle", "°", { least: 0, most: 90 }), { minItems: 2, maxItems: 20 }),
    longitudinal: Type.Array(quantity("Modifier", "1", { least: 0, most: 2 }), { minItems: 2, maxItems: 20 }),
    transversal: Type.Optional(
      Type.Array(quantity("Modifier", "1", { least: 0, most: 2 }), { minItems: 2, maxItems: 20 }),
    ),
  }),
]);
export type IncidenceModifier = Static<typeof IncidenceModifier>;
