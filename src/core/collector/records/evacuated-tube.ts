import { type CollectorRecord, toReplace } from "./collector-record.ts";

/** Evacuated glass tubes side by side, fixed. */
export const evacuatedTube: CollectorRecord = {
  id: "evacuated-tube",
  description: "Fixed panel of evacuated glass tubes, tubes running up the slope.",
  body: {
    name: "Evacuated tube collector",
    mount: { type: "fixed", tilt_deg: 25, azimuth_deg: 180 },
    optics: { by: "measured", opticalEfficiency: 0.7 },
    modifier: {
      type: "table",
      angles_deg: [0, 10, 20, 30, 40, 50, 60, 70, 90],
      longitudinal: [1, 1, 0.99, 0.98, 0.96, 0.93, 0.88, 0.75, 0],
      transversal: [1, 1.01, 1.02, 1.06, 1.1, 1.16, 1.14, 0.95, 0],
    },
    diffuseModifier: 0.95,
    groundCover: 0.5,
    rowShading: true,
    cleanliness: 0.96,
    heatLoss: { by: "iso-9806", a1_W_m2K: 1.2, a2_W_m2K2: 0.008, a5_kJ_m2K: 9 },
    highestOutlet_C: 130,
    storm: { stowWind_m_s: 40, backAfter_h: 0 },
    ageing_per_year: 0,
    parasitic_W_m2: 2,
    parts: [{ name: "Panel with frame", price_per_unit: 220, life_years: 20, upkeep_per_unit_year: 2 }],
  },
  origins: {
    mount: toReplace(
      "tilt about the latitude, toward the equator; a site south of it turns the azimuth to 0°.",
    ),
    optics: toReplace(
      "0.70 lies within the usual 0.55–0.78 of test reports (from memory); replace by the test report, on aperture.",
    ),
    modifier: toReplace("typical of tubes with gaps, more light from the side; replace by the test report."),
    diffuseModifier: toReplace("typical; replace by the test report."),
    groundCover: toReplace("rows with the usual gaps."),
    rowShading: toReplace("parallel rows shade each other when the sun is low."),
    cleanliness: toReplace("mean over the washing interval, measured on site."),
    heatLoss: toReplace(
      "a1 1.2 and a2 0.008 lie within the usual 0.7–2 and 0.002–0.010 of test reports (from memory), a5 typical; replace by the test report.",
    ),
    highestOutlet_C: toReplace("pressure and glycol set the limit; the maker's figure rules."),
    storm: toReplace(
      "fixed panels are not stowed; above this hourly mean wind they are taken out of the account.",
    ),
    ageing_per_year: toReplace("sealed tubes keep their optics."),
    parasitic_W_m2: toReplace("pump."),
    parts: toReplace("price, life and upkeep by offer."),
  },
};
