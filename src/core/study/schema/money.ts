import { type Static, Type } from "typebox";
import { quantity, record, share, text } from "./building-blocks.ts";
import { Contract, Grant, LandPrice, Loan, PricePath, SharedCost, Tax } from "./finance.ts";

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
  inflation_per_year: Type.Optional(
    quantity("Inflation", "1/a", {
      least: -0.05,
      most: 0.5,
      description:
        "For loan, tax and contract, whose terms are in money of the day; 0 if left out. All other money is real.",
    }),
  ),
  sharedCosts: Type.Optional(
    Type.Array(SharedCost, {
      title: "Shared costs",
      maxItems: 12,
      description: "Engineering, contingency, permits, insurance: what belongs to no single part.",
    }),
  ),
  land: Type.Optional(LandPrice),
  grants: Type.Optional(
    Type.Array(Grant, {
      title: "Grants and tax credits",
      maxItems: 8,
      description: "Shares of the first price, shared costs included and land left out.",
    }),
  ),
  tax: Type.Optional(Tax),
  loan: Type.Optional(Loan),
  contract: Type.Optional(Contract),
  pricePaths: Type.Optional(
    Type.Array(PricePath, {
      title: "Price paths",
      maxItems: 40,
      description:
        "Other courses of prices for the same plant. Rows of the same name are one path; prices without a row stay as in the study.",
    }),
  ),
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
