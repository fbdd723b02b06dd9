import { type Static, Type } from "typebox";
import { Id, idOf, quantity, record, share, tagged, text } from "./building-blocks.ts";
import { Closure, Profile } from "./profile.ts";
import { leastLoad, startUp } from "./running-limits.ts";

const heading = { id: Id, name: text("Name", 80) };
const onNetwork = { ...heading, network: idOf("Heat network") };

export const ProcessHeat = record("Process heat", {
  kind: Type.Literal("process-heat"),
  ...onNetwork,
  heat_kW: Profile,
});

export const SteamLoad = record("Steam", {
  kind: Type.Literal("steam"),
  ...onNetwork,
  flow_kg_h: Profile,
  pressure_bar: quantity("Pressure", "bar", { least: 0, most: 100 }),
  pressureIs: Type.Enum(["gauge", "absolute"], { title: "Pressure is" }),
  condensateReturn_C: quantity("Condensate return", "°C", { least: 5, most: 250 }),
  condensateReturnShare: share("Condensate returned"),
  makeUp_C: quantity("Make-up water", "°C", { least: 0, most: 100 }),
});

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

export const Drying = record("Drying", {
  kind: Type.Literal("drying"),
  ...onNetwork,
  wetProduct_kg_h: Profile,
  moistureIn: share("Moisture in, wet basis"),
  moistureOut: share("Moisture out, wet basis"),
  heatUse: tagged("by", "Heat use", [
    record("Specific heat use", {
      by: Type.Literal("specific-heat"),
      heat_kWh_per_kgWater: quantity("Heat", "kWh per kg of water removed", { above: 0, most: 10 }),
    }),
    record("Once-through air", {
      by: Type.Literal("air"),
      air_C: quantity("Drying air", "°C", { least: 30, most: 300 }),
      exhaustRelativeHumidity: quantity("Exhaust relative humidity", "1", { above: 0, most: 1 }),
      heatLossShare: quantity("Heat lost by the dryer, share of air heating", "1", { least: 0, most: 2 }),
    }),
  ]),
});

/** Heat that is due between two clock hours, when it suits the plant best. */
export const BatchHeat = record("Batch drying", {
  kind: Type.Literal("batch-drying"),
  ...onNetwork,
  heat_kWh_per_batch: quantity("Heat of a batch", "kWh", { least: 0 }),
  opens_h: Type.Integer({ title: "Window opens", unit: "civil hour", minimum: 0, maximum: 23 }),
  lasts_h: Type.Integer({ title: "Window lasts", unit: "h", minimum: 1, maximum: 72 }),
  power_kW: quantity("Largest heat rate", "kW", { above: 0 }),
  weekdays: Type.Array(Type.Integer({ minimum: 1, maximum: 7 }), {
    title: "Days on which a window opens",
    description: "1 Monday to 7 Sunday",
    minItems: 1,
    maxItems: 7,
  }),
  closed: Type.Optional(Type.Array(Closure, { title: "Closed days", maxItems: 20 })),
});

export const Cooling = record("Cooling", {
  kind: Type.Literal("cooling"),
  ...heading,
  cold_kW: Profile,
  coldSupply_C: quantity("Cold supply", "°C", { least: -40, most: 20 }),
  electricChiller: record("Electric chiller", {
    cop: quantity("COP", "1", { above: 0, most: 15 }),
    existing_kW: Type.Optional(
      quantity("Existing cooling power", "kW", { least: 0, description: "Large enough where left out." }),
    ),
  }),
});

export const Load = tagged("kind", "Load", [
  ProcessHeat,
  SteamLoad,
  Desalination,
  Drying,
  BatchHeat,
  Cooling,
]);
export type Load = Static<typeof Load>;
export type LoadOf<K extends Load["kind"]> = Extract<Load, { kind: K }>;
