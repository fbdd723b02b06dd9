import { currentFormatVersion, type Study } from "../../src/core/study/schema/study.ts";

/**
 * A small valid study on invented figures: one network with a constant process heat, one collector,
 * one store, one backup. Each call gives a new object, so a test may change it.
 */
export function smallStudy(): Study {
  return {
    formatVersion: currentFormatVersion,
    title: "Small study",
    site: {
      name: "Test field",
      latitude_deg: 33.45,
      longitude_deg: -111.98,
      elevation_m: 337,
      utcOffset_h: -7,
      timeZone: "America/Phoenix",
      calendarYear: 2025,
    },
    weather: { file: "weather.csv" },
    networks: [
      {
        id: "hot-water",
        name: "Hot water",
        carrier: "water",
        supply_C: 90,
        return_C: 70,
        exchangerApproach_K: 5,
      },
    ],
    calendars: [],
    loads: [
      {
        kind: "process-heat",
        id: "wash",
        name: "Washing",
        network: "hot-water",
        heat_kW: { from: "constant", level: 500 },
      },
    ],
    collectors: [
      {
        id: "trough",
        name: "Film trough",
        networks: ["hot-water"],
        mount: { type: "axis-north-south" },
        optics: { by: "measured", opticalEfficiency: 0.6 },
        modifier: { type: "none" },
        diffuseModifier: 0,
        groundCover: 0.4,
        rowShading: false,
        cleanliness: 0.95,
        heatLoss: { by: "iso-9806", a1_W_m2K: 0.5, a2_W_m2K2: 0.002 },
        highestOutlet_C: 200,
        storm: { stowWind_m_s: 14, backAfter_h: 1 },
        ageing_per_year: 0.02,
        parasitic_W_m2: 2,
        existing_m2: 0,
        size: { choice: "free" },
        filmPart: "Film",
        parts: [
          { name: "Frame and receiver", price_per_unit: 80, life_years: 20, upkeep_per_unit_year: 1 },
          { name: "Film", price_per_unit: 4, life_years: 2, upkeep_per_unit_year: 0 },
        ],
      },
    ],
    stores: [
      {
        id: "tank",
        name: "Water tank",
        network: "hot-water",
        medium: "water",
        hot_C: 95,
        cold_C: 70,
        usableShare: 0.9,
        chargeEfficiency: 0.99,
        dischargeEfficiency: 0.99,
        standingLoss_per_day: 0.02,
        existing_kWh: 0,
        size: { choice: "free" },
        parts: [{ name: "Tank", price_per_unit: 15, life_years: 25, upkeep_per_unit_year: 0.1 }],
      },
    ],
    stepDowns: [],
    chillers: [],
    backups: [
      {
        id: "boiler",
        name: "Oil boiler",
        network: "hot-water",
        fuel: { kind: "gas-oil", price_per_kWh: 0.07, heatingValue: "net", escalation_per_year: 0.02 },
        efficiency: 0.85,
        mayCharge: false,
        size: { choice: "fixed", fixed: 0 },
        parts: [],
      },
    ],
    electricity: { price_per_kWh: 0.1, escalation_per_year: 0.01, co2_kg_per_kWh: 0.4 },
    money: {
      currency: "XTS",
      realDiscountRate: 0.06,
      years: 20,
      carbonPrice_per_t: 0,
      carbonEscalation_per_year: 0,
    },
    limits: {},
  };
}
