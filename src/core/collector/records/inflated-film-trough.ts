import { type CollectorRecord, commonPractice, toReplace } from "./collector-record.ts";

/** Long film mirror in an air-filled tube, receiver inside the envelope, axis north–south. */
export const inflatedFilmTrough: CollectorRecord = {
  id: "inflated-film-trough",
  description:
    "A film tube with the mirror as its lower half and the receiver inside; the light passes the clear film once.",
  body: {
    name: "Inflated film trough",
    mount: { type: "axis-north-south" },
    optics: {
      by: "computed",
      filmTransmittance: 0.92,
      filmPasses: 1,
      reflectance: 0.88,
      intercept: 0.88,
      absorptance: 0.9,
    },
    modifier: { type: "b0", b0: 0.1 },
    diffuseModifier: 0,
    endLoss: { focalLength_m: 1, rowLength_m: 50 },
    groundCover: 0.4,
    rowShading: true,
    cleanliness: 0.93,
    // Coated steel tube in a plain glass sleeve, not evacuated, concentration about 40.
    heatLoss: { by: "iso-9806", a1_W_m2K: 0.4, a2_W_m2K2: 0.0008, a5_kJ_m2K: 4 },
    highestOutlet_C: 250,
    storm: { stowWind_m_s: 13, backAfter_h: 2 },
    ageing_per_year: 0.05,
    parasitic_W_m2: 2,
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
    mount: toReplace("one horizontal axis, north–south."),
    "optics/filmTransmittance": toReplace(
      "transmittance of the clear film over the solar spectrum, measured on the film in use.",
    ),
    "optics/filmPasses": toReplace("one pass, the receiver sits inside the film envelope."),
    "optics/reflectance": toReplace(
      "solar reflectance of the metallised film, measured within the receiver's angle.",
    ),
    "optics/intercept": toReplace(
      "share that meets the receiver at the film's slope error, by flux measurement or ray tracing.",
    ),
    "optics/absorptance": toReplace("absorptance of the receiver with its glass sleeve."),
    modifier: toReplace("modifier of film and sleeve at slanting light, from a test."),
    diffuseModifier: toReplace("a concentrator of this kind uses beam only."),
    endLoss: toReplace("focal length and row length of the offered design."),
    groundCover: toReplace("aperture width over row spacing."),
    rowShading: toReplace("parallel rows shade each other early and late."),
    cleanliness: toReplace("mean over the washing interval, measured on site."),
    heatLoss: toReplace(
      "loss of a coated tube in a sleeve that is not evacuated, concentration about 40, and its heat capacity; replace by a test.",
    ),
    highestOutlet_C: toReplace("limit of receiver and film near it; the maker sets the limit."),
    storm: toReplace(
      "hourly mean wind at which the tube is turned down or emptied, and the time to fill it again; the designer's structural limit rules.",
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
