import { Type } from "typebox";
import { quantity, record, tagged } from "../building-blocks.ts";
import { leastLoad, startUp } from "../running-limits.ts";
import { onNetwork } from "./load-heading.ts";

const Seawater = record(
  "Sea water",
  {
    months_C: Type.Array(quantity("Temperature", "°C", { least: -2, most: 45 }), {
      title: "Temperature by month",
      minItems: 12,
      maxItems: 12,
      description: "January to December, at the intake.",
    }),
    reference_C: Type.Optional(
      quantity("Heat use is given at", "°C", {
        least: -2,
        most: 45,
        description: "The mean of the months where left out.",
      }),
    ),
    heatChange_per_K: Type.Optional(
      quantity("Change of the heat use with warmer sea water", "share per K", {
        least: -0.05,
        most: 0.05,
        description:
          "From the plant's own records or its maker; none where left out. Flash stages follow the temperature by themselves.",
      }),
    ),
  },
  "Changes the heat of a m³ month by month.",
);

export const Desalination = record("Thermal desalination", {
  kind: Type.Literal("desalination"),
  ...onNetwork,
  order_m3_per_day: quantity("Water ordered", "m³/d", { least: 0 }),
  orderMonths: Type.Optional(
    Type.Array(quantity("Factor of a month", "1", { least: 0, most: 10 }), {
      title: "Factors on the order by month",
      minItems: 12,
      maxItems: 12,
      description: "January to December; 1 where left out.",
    }),
  ),
  drawShares: Type.Optional(
    Type.Array(quantity("Relative draw in an hour", "1", { least: 0 }), {
      title: "Draw by the hour of the day",
      minItems: 24,
      maxItems: 24,
      description: "How the day's order leaves the tank, hour by hour of civil time; even where left out.",
    }),
  ),
  plant: Type.Optional(
    Type.Enum(["multi-effect", "multi-stage-flash", "membrane-distillation"], {
      title: "Kind of plant",
      description: "Only to compare its figures with what such plants usually need.",
    }),
  ),
  topBrine_C: Type.Optional(
    quantity("Top brine", "°C", {
      least: 30,
      most: 130,
      description: "The hottest that the sea water becomes; the heat must come hotter by the approach below.",
    }),
  ),
  topBrineApproach_K: Type.Optional(
    quantity("Heat comes hotter than the top brine by", "K", {
      least: 0,
      most: 60,
      description: "5 where left out.",
    }),
  ),
  seawater: Type.Optional(Seawater),
  capacity_m3_h: quantity("Plant capacity", "m³/h", { above: 0 }),
  heatUse: tagged("by", "Heat use", [
    record("Performance ratio", {
      by: Type.Literal("performance-ratio"),
      performanceRatio: quantity("Performance ratio", "kg distillate per kg steam", { above: 0, most: 30 }),
      convention: Type.Enum(["2326-kJ-per-kg", "latent-heat"], {
        title: "Convention",
        description:
          "Heat per kg of steam: 2326 kJ (1000 Btu/lb), or the latent heat at the steam temperature.",
      }),
      steam_C: Type.Optional(quantity("Heating steam", "°C", { least: 40, most: 200 })),
    }),
    record("Flash stages", {
      by: Type.Literal("flash-stages"),
      stages: Type.Integer({ title: "Stages", minimum: 2, maximum: 60 }),
      losses_K: quantity("Losses of temperature in a stage", "K", {
        least: 0.5,
        most: 20,
        description: "Boiling point elevation, non-equilibrium and terminal difference together.",
      }),
      lastStageAboveSea_K: quantity("Brine of the last stage above sea water", "K", { least: 1, most: 40 }),
    }),
    record("Specific heat use", {
      by: Type.Literal("specific-heat"),
      heat_kWh_per_m3: quantity("Heat", "kWh/m³", { above: 0, most: 1000 }),
    }),
  ]),
  electricity_kWh_per_m3: quantity("Electricity", "kWh/m³", { least: 0, most: 50 }),
  tank_m3: quantity("Product tank", "m³", { least: 0 }),
  ...leastLoad,
  ...startUp,
});
