import { type CollectorRecord, published, toReplace } from "./collector-record.ts";

/** Large single-glazed flat plate, fixed. */
export const flatPlate: CollectorRecord = {
  id: "flat-plate",
  description: "Fixed single-glazed flat plate for water below 100 °C.",
  body: {
    name: "Flat plate collector",
    mount: { type: "fixed", tilt_deg: 25, azimuth_deg: 180 },
    optics: { by: "measured", opticalEfficiency: 0.8 },
    modifier: { type: "b0", b0: 0.1 },
    diffuseModifier: 0.91,
    groundCover: 0.5,
    rowShading: true,
    cleanliness: 0.96,
    heatLoss: { by: "iso-9806", a1_W_m2K: 3.5, a2_W_m2K2: 0.015, a5_kJ_m2K: 7 },
    highestOutlet_C: 100,
    storm: { stowWind_m_s: 40, backAfter_h: 0 },
    ageing_per_year: 0,
    parasitic_W_m2: 2,
    parts: [{ name: "Panel with frame", price_per_unit: 180, life_years: 25, upkeep_per_unit_year: 1.5 }],
  },
  origins: {
    mount: toReplace(
      "tilt about the latitude, toward the equator; a site south of it turns the azimuth to 0°.",
    ),
    optics: toReplace(
      "0.80 lies within the usual 0.70–0.82 of test reports (from memory); replace by the test report, on aperture.",
    ),
    modifier: published(
      "b0 0.10 gives the modifier 0.90 at 60° of a published certification data sheet in the layout of ISO 9806:2017.",
    ),
    diffuseModifier: published(
      "Kd 0.91 of a published certification data sheet in the layout of ISO 9806:2017.",
    ),
    groundCover: toReplace("rows with the usual gaps."),
    rowShading: toReplace("parallel rows shade each other when the sun is low."),
    cleanliness: toReplace("mean over the washing interval, measured on site."),
    heatLoss: toReplace(
      "a1 3.5 and a2 0.015 lie within the usual 3–4.5 and 0.005–0.020 of test reports (from memory), a5 typical; replace by the test report.",
    ),
    highestOutlet_C: toReplace("water without boiling; the maker's figure rules."),
    storm: toReplace(
      "fixed panels are not stowed; above this hourly mean wind they are taken out of the account.",
    ),
    ageing_per_year: toReplace("glass and absorber keep their optics."),
    parasitic_W_m2: toReplace("pump."),
    parts: toReplace("price, life and upkeep by offer."),
  },
};
