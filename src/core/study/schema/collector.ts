import { type Static, Type } from "typebox";
import { Id, Parts, quantity, record, Size, share, tagged, text } from "./building-blocks.ts";

export const Mount = tagged("type", "Mount", [
  record("Fixed", {
    type: Type.Literal("fixed"),
    tilt_deg: quantity("Tilt", "°", { least: 0, most: 90 }),
    azimuth_deg: quantity("Azimuth", "° clockwise from north", { least: 0, most: 360 }),
  }),
  record("One horizontal axis, north–south", { type: Type.Literal("axis-north-south") }),
  record("One horizontal axis, east–west", { type: Type.Literal("axis-east-west") }),
  record("Vertical axis", {
    type: Type.Literal("vertical-axis"),
    tilt_deg: quantity("Tilt", "°", { least: 0, most: 90 }),
  }),
  record("Two axes", { type: Type.Literal("two-axes") }),
]);
export type Mount = Static<typeof Mount>;

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

export const HeatLoss = tagged("by", "Heat loss", [
  record("ISO 9806 coefficients, per m² of aperture", {
    by: Type.Literal("iso-9806"),
    a1_W_m2K: quantity("a1", "W/(m²·K)", { least: 0, most: 50 }),
    a2_W_m2K2: quantity("a2", "W/(m²·K²)", { least: 0, most: 1 }),
    a3_J_m3K: Type.Optional(quantity("a3, wind dependence of heat loss", "J/(m³·K)", { least: 0, most: 20 })),
    a5_kJ_m2K: Type.Optional(quantity("a5, effective heat capacity", "kJ/(m²·K)", { least: 0, most: 200 })),
    a6_s_m: Type.Optional(quantity("a6, wind dependence of optics", "s/m", { least: 0, most: 1 })),
    a8_W_m2K4: Type.Optional(quantity("a8", "W/(m²·K⁴)", { least: 0, most: 1e-6 })),
  }),
  record("Receiver tube", {
    by: Type.Literal("receiver-tube"),
    linear_W_mK: quantity("Loss, linear in absorber temperature", "W/(m·°C)", { least: 0, most: 50 }),
    quartic_W_mK4: quantity("Loss, fourth power of absorber temperature", "W/(m·°C⁴)", {
      least: 0,
      most: 1e-6,
    }),
    apertureWidth_m: quantity("Aperture width per metre of tube", "m", { above: 0, most: 30 }),
    a5_kJ_m2K: Type.Optional(quantity("Effective heat capacity", "kJ/(m²·K)", { least: 0, most: 200 })),
  }),
]);
export type HeatLoss = Static<typeof HeatLoss>;

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
  rowShading: Type.Boolean({ title: "Rows shade each other", description: "Taken from the ground cover." }),
  cleanliness: share("Cleanliness"),
  heatLoss: HeatLoss,
  highestOutlet_C: quantity("Highest outlet temperature", "°C", { least: 30, most: 650 }),
  storm: record("Storm", {
    stowWind_m_s: quantity("Stow above a wind of", "m/s at 10 m, hourly mean", { above: 0, most: 60 }),
    backAfter_h: Type.Integer({ title: "Back in use after", unit: "h", minimum: 0, maximum: 72 }),
  }),
  ageing_per_year: quantity("Optical efficiency lost per year of film age", "1/a", { least: 0, most: 0.5 }),
  parasitic_W_m2: quantity("Electric power while running", "W/m² of aperture", { least: 0, most: 100 }),
  existing_m2: quantity("Existing", "m² aperture", { least: 0 }),
  size: Size,
  filmPart: Type.Optional(text("Name of the part whose life sets the film's age", 80)),
  parts: Parts,
});
export type Collector = Static<typeof Collector>;
