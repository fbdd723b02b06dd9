import { type CollectorRecord, commonPractice, toReplace } from "./collector-record.ts";

/** Round film mirror held in shape by air pressure, receiver in front of it outside the envelope. */
export const inflatedFilmDish: CollectorRecord = {
  id: "inflated-film-dish",
  description:
    "Mirror and clear film form one cushion of air on two axes; the light passes the clear film twice.",
  body: {
    name: "Inflated film dish",
    mount: { type: "two-axes" },
    optics: {
      by: "computed",
      filmTransmittance: 0.92,
      filmPasses: 2,
      reflectance: 0.88,
      intercept: 0.9,
      absorptance: 0.92,
    },
    modifier: { type: "none" },
    diffuseModifier: 0,
    groundCover: 0.25,
    rowShading: true,
    cleanliness: 0.93,
    // Cavity receiver of about 1/100 of the aperture: convection in a1, radiation in a8.
    heatLoss: { by: "iso-9806", a1_W_m2K: 0.2, a2_W_m2K2: 0, a5_kJ_m2K: 3, a8_W_m2K4: 5e-10 },
    highestOutlet_C: 400,
    storm: { stowWind_m_s: 12, backAfter_h: 2 },
    ageing_per_year: 0.05,
    parasitic_W_m2: 3,
    filmPart: "Film",
    parts: [
      { name: "Heater without film", price_per_unit: 49, life_years: 15, upkeep_per_unit_year: 1 },
      { name: "Film", price_per_unit: 2.5, life_years: 2, upkeep_per_unit_year: 0 },
    ],
  },
  origins: {
    optics: toReplace(
      "computed from film, mirror, intercept and absorber; replace by a test where there is one.",
    ),
    mount: toReplace("two axes keep the dish on the sun."),
    "optics/filmTransmittance": toReplace(
      "transmittance of the clear film over the solar spectrum, measured on the film in use.",
    ),
    "optics/filmPasses": toReplace("two passes, the receiver sits outside the film envelope."),
    "optics/reflectance": toReplace(
      "solar reflectance of the metallised film, measured within the receiver's angle.",
    ),
    "optics/intercept": toReplace(
      "share that meets the receiver at the film's slope error, by flux measurement or ray tracing.",
    ),
    "optics/absorptance": toReplace("absorptance of the receiver with its cavity."),
    modifier: toReplace("none needed, a dish on two axes meets the beam head on."),
    diffuseModifier: toReplace("a concentrator of this kind uses beam only."),
    groundCover: toReplace("dishes spaced so that they seldom shade each other."),
    rowShading: toReplace(
      "dishes on a square grid shade each other when the sun is low; taken from the ground cover.",
    ),
    cleanliness: toReplace("mean over the washing interval, measured on site."),
    heatLoss: toReplace(
      "loss of an open cavity of about 1 % of the aperture at 300 to 400 °C, and its heat capacity; replace by a test.",
    ),
    highestOutlet_C: toReplace("limit of a synthetic thermal oil film; the oil's maker sets the limit."),
    storm: toReplace(
      "hourly mean wind at which the dish is stowed or emptied, and the time to fill it again; the designer's structural limit rules.",
    ),
    ageing_per_year: toReplace("optical loss per year of film age, from weathering tests."),
    parasitic_W_m2: toReplace("blower, drives and pump."),
    "parts/0": toReplace("life and upkeep of frame, drives and receiver."),
    "parts/0/price_per_unit": commonPractice(
      "whole heater about 50 per m² (US dollars); less the first film near 1 per m².",
    ),
    "parts/1": commonPractice(
      "film changed about every 2 years for 2 to 3 per m² with labour; the film itself near 1 per m² (US dollars).",
    ),
  },
};
