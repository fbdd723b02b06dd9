import { type CollectorRecord, published, toReplace } from "./collector-record.ts";

/** Glass mirrors on a steel frame with evacuated receivers. */
export const glassMirrorTrough: CollectorRecord = {
  id: "glass-mirror-trough",
  description: "Parabolic trough of glass mirrors, 5.77 m wide, with evacuated receivers.",
  body: {
    name: "Glass-mirror trough",
    mount: { type: "axis-north-south" },
    optics: { by: "measured", opticalEfficiency: 0.733 },
    modifier: { type: "polynomial", coefficients: [0.000884, -0.00005369], containsCosine: true },
    diffuseModifier: 0,
    endLoss: { focalLength_m: 1.71, rowLength_m: 148.5 },
    groundCover: 0.35,
    rowShading: true,
    cleanliness: 0.95,
    heatLoss: {
      by: "receiver-tube",
      linear_W_mK: 0.141,
      quartic_W_mK4: 6.48e-9,
      apertureWidth_m: 5.77,
      a5_kJ_m2K: 5,
    },
    highestOutlet_C: 393,
    storm: { stowWind_m_s: 14, backAfter_h: 1 },
    ageing_per_year: 0,
    parasitic_W_m2: 4,
    parts: [{ name: "Trough with receiver", price_per_unit: 250, life_years: 25, upkeep_per_unit_year: 3 }],
  },
  origins: {
    mount: toReplace("one horizontal axis, north–south."),
    optics: published(
      "Dudley et al., SAND94-1884 (1994): 73.3 %, cermet receiver with vacuum, from memory; a trough of 5 m aperture.",
    ),
    modifier: published(
      "Dudley et al., SAND94-1884 (1994), fig. 10: cos θ + 0.000884 θ − 0.00005369 θ², contains the cosine.",
    ),
    diffuseModifier: toReplace("a concentrator of this kind uses beam only."),
    endLoss: published(
      "Lippke, SAND95-1294 (1995), form; focal length 1.71 m and row of 148.5 m from literature on the 5.77 m trough.",
    ),
    groundCover: toReplace("aperture width over row spacing."),
    rowShading: toReplace("parallel rows shade each other early and late."),
    cleanliness: toReplace("mean over the washing interval, measured on site."),
    heatLoss: published(
      "Burkholder & Kutscher, NREL/TP-550-45633 (2009): 0.141 T + 6.48e-9 T⁴ W/m, T of the absorber in °C.",
    ),
    "heatLoss/apertureWidth_m": published("Geyer et al. (2002), trough of 5.77 m aperture."),
    "heatLoss/a5_kJ_m2K": toReplace("heat capacity of receiver and its oil per m² of aperture."),
    highestOutlet_C: toReplace(
      "usual limit of synthetic oil (diphenyl oxide and biphenyl); the oil's maker sets the limit.",
    ),
    storm: toReplace("hourly mean wind at which the field is stowed; the maker's structural limit rules."),
    ageing_per_year: toReplace("glass mirrors keep their reflectance; dirt is in the cleanliness."),
    parasitic_W_m2: toReplace("drives and pump."),
    parts: toReplace("price, life and upkeep by offer."),
  },
};
