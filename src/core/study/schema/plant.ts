import { type Static, Type } from "typebox";
import { Id, idOf, Parts, quantity, record, Size, share, text } from "./building-blocks.ts";
import { leastLoad, startUp, storeSwitching } from "./running-limits.ts";

const Charging = record(
  "Charging power with a size of its own",
  {
    existing_kW: quantity("Existing", "kW", { least: 0 }),
    size: Size,
    parts: Parts,
  },
  "Heat or cold that can be taken into the store at once, in kW: pumps and exchanger, priced by their own parts. Left out, charging costs nothing beyond the store.",
);

export const Store = record(
  "Store",
  {
    id: Id,
    name: text("Name", 80),
    network: Type.Optional(idOf("Heat network that it serves")),
    load: Type.Optional(idOf("Cooling load that it serves")),
    medium: Type.Enum(
      ["water", "pressurised-water", "thermal-oil", "oil-rock", "molten-salt", "chilled-water"],
      {
        title: "Medium",
      },
    ),
    hot_C: quantity("Hot", "°C", { least: -20, most: 600 }),
    cold_C: quantity("Cold", "°C", { least: -20, most: 600 }),
    usableShare: quantity("Usable share of the volume", "1", { above: 0, most: 1 }),
    chargeEfficiency: quantity("Charge efficiency", "1", { above: 0, most: 1 }),
    dischargeEfficiency: quantity("Discharge efficiency", "1", { above: 0, most: 1 }),
    standingLoss_per_day: quantity("Standing loss", "share of content per day", { least: 0, most: 0.99 }),
    chargeLimit_kW: Type.Optional(quantity("Charging at most", "kW", { least: 0 })),
    dischargeLimit_kW: Type.Optional(quantity("Discharging at most", "kW", { least: 0 })),
    ...storeSwitching,
    existing_kWh: quantity("Existing", "kWh", { least: 0 }),
    size: Size,
    parts: Parts,
    charging: Type.Optional(Charging),
  },
  "Serves one heat network (network) or one cooling load (load).",
);
export type Store = Static<typeof Store>;

export const StepDown = record("Step-down", {
  id: Id,
  from: idOf("From heat network"),
  to: idOf("To heat network"),
  approach_K: quantity("Least temperature difference", "K", { least: 0, most: 100 }),
  efficiency: quantity("Efficiency", "1", { above: 0, most: 1 }),
  existing_kW: quantity("Existing", "kW", { least: 0 }),
  size: Size,
  parts: Parts,
});
export type StepDown = Static<typeof StepDown>;

export const Chiller = record("Absorption chiller", {
  id: Id,
  name: text("Name", 80),
  load: idOf("Cooling load"),
  network: idOf("Heat network that drives it"),
  effect: Type.Enum(["single", "double", "other"], { title: "Effect" }),
  cop: quantity("COP, heat to cold", "1", { above: 0, most: 2.5 }),
  drivingLeast_C: quantity("Least driving temperature", "°C", { least: 50, most: 300 }),
  electricity_kWh_per_kWh: quantity("Electricity per kWh of cold", "kWh/kWh", { least: 0, most: 1 }),
  ...leastLoad,
  ...startUp,
  existing_kW: quantity("Existing", "kW of cold", { least: 0 }),
  size: Size,
  parts: Parts,
});
export type Chiller = Static<typeof Chiller>;

/** Fuels with IPCC 2006 defaults (core/economics/fuels.ts), or one of the user's own. */
export const fuelKinds = [
  "natural-gas",
  "gas-oil",
  "residual-fuel-oil",
  "lpg",
  "bituminous-coal",
  "lignite",
  "wood",
  "other",
] as const;

const HourFactors = Type.Optional(
  Type.Array(quantity("Factor on the price", "1", { least: -10, most: 20 }), {
    title: "Factors on the price by the hour of the day",
    minItems: 24,
    maxItems: 24,
    description: "By civil hour of the day; 1 where left out.",
  }),
);

export const Fuel = record("Fuel", {
  kind: Type.Enum([...fuelKinds], { title: "Fuel" }),
  price_per_kWh: quantity("Price in the first year", "currency per kWh of fuel", { least: -10, most: 100 }),
  hourFactors: HourFactors,
  priceFile: Type.Optional(
    text(
      "File of hourly prices",
      300,
      "CSV with 8760 hourly prices of the fuel, on the heating value below; replaces the price above.",
    ),
  ),
  heatingValue: Type.Enum(["net", "gross"], { title: "Price and efficiency are on the heating value" }),
  escalation_per_year: quantity("Price rise", "1/a", { least: -0.2, most: 0.3 }),
  co2_kg_per_kWh: Type.Optional(
    quantity("CO2 per kWh, net heating value", "kg/kWh", {
      least: 0,
      most: 2,
      description: "IPCC 2006 default where left out.",
    }),
  ),
});
export type Fuel = Static<typeof Fuel>;

export const Backup = record("Backup", {
  id: Id,
  name: text("Name", 80),
  network: idOf("Heat network"),
  fuel: Fuel,
  efficiency: quantity("Efficiency, heat per fuel", "1", { above: 0, most: 1.1 }),
  existing_kW: Type.Optional(
    quantity("Existing heat power", "kW", {
      least: 0,
      description: "Large enough for any hour where left out.",
    }),
  ),
  mayCharge: Type.Boolean({ title: "May charge a store" }),
  ...leastLoad,
  size: Size,
  parts: Parts,
});
export type Backup = Static<typeof Backup>;

export const Electricity = record("Electricity", {
  price_per_kWh: quantity("Price in the first year", "currency/kWh", { least: -10, most: 100 }),
  hourFactors: HourFactors,
  priceFile: Type.Optional(
    text("File of hourly prices", 300, "CSV with 8760 hourly prices; replaces the price above."),
  ),
  escalation_per_year: quantity("Price rise", "1/a", { least: -0.2, most: 0.3 }),
  co2_kg_per_kWh: Type.Optional(quantity("CO2", "kg/kWh", { least: 0, most: 2 })),
});
export type Electricity = Static<typeof Electricity>;

export const Money = record("Money", {
  currency: Type.String({
    title: "Currency",
    pattern: "^[A-Z]{3}$",
    description: "ISO 4217 code; XTS (reserved for testing) in the worked example.",
  }),
  realDiscountRate: quantity("Real discount rate", "1/a", { least: 0, most: 0.5 }),
  years: Type.Integer({ title: "Period of analysis", unit: "years", minimum: 1, maximum: 60 }),
  carbonPrice_per_t: quantity("Carbon price in the first year", "currency/t CO2", { least: 0 }),
  carbonEscalation_per_year: quantity("Carbon price rise", "1/a", { least: -0.2, most: 0.3 }),
  locale: Type.Optional(Type.String({ title: "Number format", pattern: "^[a-z]{2}(-[A-Z]{2})?$" })),
});
export type Money = Static<typeof Money>;

export const Limits = record("Limits", {
  land_m2: Type.Optional(quantity("Land for collectors", "m²", { least: 0 })),
  budget: Type.Optional(quantity("Initial capital at most", "currency", { least: 0 })),
  leastSolarFraction: Type.Optional(share("Solar fraction at least")),
});
export type Limits = Static<typeof Limits>;

/** The aperture and store that the reader wants compared with the optimum on the area curve. */
export const ChosenPoint = record("Chosen point", {
  aperture_m2: quantity("Total aperture", "m²", { least: 0 }),
  storePerAperture_kWh_m2: quantity("Store per aperture", "kWh/m²", { least: 0 }),
});
export type ChosenPoint = Static<typeof ChosenPoint>;

/** Where a value comes from; values without an entry were given by the user. */
export const Origin = record("Origin", {
  path: text("Path of the value", 200, "With ids for list items, e.g. collectors/film-dish/cleanliness."),
  status: Type.Enum(["assumption", "published", "confirmed"], { title: "Status" }),
  source: text("Source", 400),
});
export type Origin = Static<typeof Origin>;
