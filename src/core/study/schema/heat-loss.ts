import { type Static, Type } from "typebox";
import { quantity, record, tagged } from "./building-blocks.ts";

const heatCapacity = Type.Optional(quantity("Effective heat capacity", "kJ/(m²·K)", { least: 0, most: 200 }));
const apertureWidth_m = quantity("Aperture width per metre of tube", "m", { above: 0, most: 30 });

export const HeatLoss = tagged("by", "Heat loss", [
  record("ISO 9806 coefficients, per m² of aperture, or as a test report given beside has them", {
    by: Type.Literal("iso-9806"),
    a1_W_m2K: quantity("a1", "W/(m²·K)", { least: 0, most: 50 }),
    a2_W_m2K2: quantity("a2", "W/(m²·K²)", { least: 0, most: 1 }),
    a3_J_m3K: Type.Optional(quantity("a3, wind dependence of heat loss", "J/(m³·K)", { least: 0, most: 20 })),
    a4: Type.Optional(quantity("a4, dependence on the sky's heat radiation", "1", { least: 0, most: 1 })),
    a5_kJ_m2K: Type.Optional(quantity("a5, effective heat capacity", "kJ/(m²·K)", { least: 0, most: 200 })),
    a6_s_m: Type.Optional(quantity("a6, wind dependence of optics", "s/m", { least: 0, most: 1 })),
    a7_s_m: Type.Optional(
      quantity("a7, wind dependence of the sky's heat radiation", "s/m", { least: 0, most: 1 }),
    ),
    a8_W_m2K4: Type.Optional(quantity("a8", "W/(m²·K⁴)", { least: 0, most: 1e-6 })),
  }),
  record("Receiver tube", {
    by: Type.Literal("receiver-tube"),
    linear_W_mK: quantity("Loss, linear in absorber temperature", "W/(m·°C)", { least: 0, most: 50 }),
    quartic_W_mK4: quantity("Loss, fourth power of absorber temperature", "W/(m·°C⁴)", {
      least: 0,
      most: 1e-6,
    }),
    apertureWidth_m,
    a5_kJ_m2K: heatCapacity,
  }),
  record("Evacuated receiver tube, published test", {
    by: Type.Literal("evacuated-tube"),
    condition: Type.Enum(["vacuum", "lost-vacuum", "hydrogen", "broken-glass"], {
      title: "Condition",
      description: "Burkholder and Kutscher, NREL/TP-550-45633 (2009), tables 6 and 8: with sun and wind.",
    }),
    apertureWidth_m,
    a5_kJ_m2K: heatCapacity,
  }),
  record("Computed from receiver", {
    by: Type.Literal("computed"),
    receiver: Type.Enum(["bare-tube", "flat", "cavity"], { title: "Receiver" }),
    concentration: quantity("Concentration ratio", "m² aperture per m² receiver", {
      least: 1,
      most: 50_000,
      description: "Receiver: the tube's surface, the plate, or the cavity's opening.",
    }),
    width_m: quantity("Tube diameter, plate width or opening", "m", { above: 0, most: 10 }),
    emittance: quantity("Thermal emittance at 0 °C", "1", {
      least: 0,
      most: 1,
      description: "Of the surface or the coating; near 1 for a cavity's opening.",
    }),
    emittanceGrowth_per_C2: Type.Optional(
      quantity("Growth of the emittance with temperature squared", "1/°C²", { least: 0, most: 1e-5 }),
    ),
    insulated_W_m2K: Type.Optional(
      quantity("Loss through insulation and supports", "W/(m² aperture·K)", { least: 0, most: 5 }),
    ),
    a5_kJ_m2K: heatCapacity,
  }),
]);
export type HeatLoss = Static<typeof HeatLoss>;
