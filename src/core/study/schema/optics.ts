import { type Static, Type } from "typebox";
import { quantity, record, share, tagged } from "./building-blocks.ts";

const film = {
  filmTransmittance: share("Transmittance of the cover film"),
  filmPasses: Type.Integer({
    title: "Passes through the cover film",
    minimum: 0,
    maximum: 2,
    description: "Twice where the receiver sits outside the film envelope, once inside, 0 without a cover.",
  }),
  filmIndex: Type.Optional(
    quantity("Refractive index of the cover film", "1", {
      least: 1,
      most: 2,
      description:
        "Lets the film pass less at a slant (Fresnel); about 1.40 for ETFE, 1.49 for acrylic. Left out, the incidence angle modifier holds all of it.",
    }),
  ),
  reflectance: share("Mirror reflectance"),
};

const spread = (title: string, description: string) =>
  quantity(title, "mrad, standard deviation", { least: 0, most: 100, description });

/** Optical efficiency at normal incidence on the aperture: of a test, or computed; never both. */
export const Optics = tagged("by", "Optical efficiency", [
  record("Measured", {
    by: Type.Literal("measured"),
    opticalEfficiency: share(
      "Optical efficiency η0, beam, normal incidence",
      "Per m² of aperture. Beside a test report: as the report prints it, which converts it; do not convert twice.",
    ),
  }),
  record("Computed", {
    by: Type.Literal("computed"),
    ...film,
    intercept: share("Intercept factor"),
    absorptance: share("Receiver absorptance"),
  }),
  record("Computed from shape and errors", {
    by: Type.Literal("shape"),
    shape: Type.Enum(["trough", "dish"], { title: "Mirror" }),
    concentration: quantity("Concentration ratio", "m² aperture per m² receiver", {
      least: 1,
      most: 50_000,
      description: "Receiver: the tube's surface of a trough, the disc or the opening of a dish.",
    }),
    rimAngle_deg: quantity("Rim angle", "°", { above: 0, most: 120 }),
    slopeError_mrad: spread(
      "Slope error",
      "Of the surface against its ideal shape; doubles in the reflected ray.",
    ),
    specularity_mrad: spread(
      "Spread of the reflection",
      "Of the reflected ray, by a film that is not quite specular.",
    ),
    trackingError_mrad: spread(
      "Tracking error",
      "Of the optical axis, sag and receiver misplacement included.",
    ),
    sunShape: Type.Enum(["disc", "limb-darkened", "hazy"], {
      title: "Sun shape",
      description:
        "disc: evenly bright, half-angle 4.65 mrad. limb-darkened: the clear sky's. hazy: with a tenth of the beam in the aureole.",
    }),
    ...film,
    absorptance: share("Receiver absorptance"),
    receiverShadow: share("Aperture in the receiver's shadow"),
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
