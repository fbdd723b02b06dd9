import { type Static, Type } from "typebox";
import { idOf, quantity, record, share, text } from "./building-blocks.ts";
import { YearFactors } from "./hour-factors.ts";

const CountsOn = Type.Enum(["solar-plant", "all-new-plant"], {
  title: "Counts on",
  description:
    "solar-plant: collectors, their pipes and heat stores; all-new-plant: chillers, step-downs and boilers too.",
});

/** What a plant costs beside its parts: engineering, contingency, permits, insurance. */
export const SharedCost = record("Shared cost", {
  name: text("Name", 80),
  on: CountsOn,
  share: Type.Optional(
    quantity("Share of the first price of all parts", "1", {
      least: 0,
      most: 2,
      description: "0 if left out.",
    }),
  ),
  amount: Type.Optional(
    quantity("Amount, paid once if any of it is built", "currency", {
      least: 0,
      description: "0 if left out.",
    }),
  ),
  share_per_year: Type.Optional(
    quantity("Yearly, as a share of the first price of all parts", "1/a", {
      least: 0,
      most: 0.5,
      description: "Insurance or upkeep told so; 0 if left out.",
    }),
  ),
  amount_per_year: Type.Optional(
    quantity("Yearly amount if any of it is built", "currency per year", {
      least: 0,
      description: "0 if left out.",
    }),
  ),
});
export type SharedCost = Static<typeof SharedCost>;

export const LandPrice = record(
  "Land under new collectors",
  {
    price_per_m2: quantity("Price, which it keeps", "currency/m²", { least: 0 }),
    rent_per_m2_year: quantity("Rent", "currency/m²·a", { least: 0 }),
  },
  "Land that is bought keeps its price to the end of the period; give rent or price, or both as 0 where land costs nothing.",
);
export type LandPrice = Static<typeof LandPrice>;

export const Grant = record("Grant or tax credit", {
  name: text("Name", 80),
  on: CountsOn,
  share: share("Share of the first price"),
  most: Type.Optional(quantity("At most", "currency", { above: 0 })),
  paid: Type.Enum(["with-purchase", "after-first-year"], {
    title: "Paid",
    description: "with-purchase: lowers the capital. after-first-year: a tax credit, money of that year.",
  }),
});
export type Grant = Static<typeof Grant>;

export const Tax = record("Tax on the profit of whoever owns the plant", {
  rate: quantity("Tax rate", "1", { least: 0, most: 0.9 }),
  depreciation: Type.Enum(["straight-line", "declining-balance", "by-year"], {
    title: "Depreciation",
    description:
      "straight-line: equal shares. declining-balance: a share of what is left, the rest in the last year. by-year: shares of the first price that you list.",
  }),
  depreciation_years: Type.Optional(
    Type.Integer({ title: "Depreciated over", unit: "years", minimum: 1, maximum: 60 }),
  ),
  decliningRate: Type.Optional(quantity("Share of what is left", "1/a", { above: 0, most: 1 })),
  shares: Type.Optional(
    Type.Array(share("Share of the first price"), {
      title: "Shares of the first price by year",
      minItems: 1,
      maxItems: 60,
    }),
  ),
  losses: Type.Enum(["used-at-once", "carried-forward"], {
    title: "A year's loss is",
    description:
      "used-at-once: it lowers tax on the owner's other profit in the same year. carried-forward: it lowers the plant's own later profit.",
  }),
});
export type Tax = Static<typeof Tax>;

export const Loan = record("Loan", {
  share: quantity("Share of the capital at the start", "1", { least: 0, most: 1 }),
  interest_per_year: quantity("Interest, as the bank writes it (nominal)", "1/a", { least: 0, most: 0.5 }),
  years: Type.Integer({ title: "Repaid over", unit: "years", minimum: 1, maximum: 60 }),
  repayment: Type.Enum(["annuity", "equal-principal"], {
    title: "Repaid by",
    description: "annuity: equal payments. equal-principal: equal repayment and falling interest.",
  }),
  interestOnly_years: Type.Optional(
    Type.Integer({ title: "Years of interest only, at the start", unit: "years", minimum: 0, maximum: 59 }),
  ),
});
export type Loan = Static<typeof Loan>;

export const Contract = record(
  "Heat-supply contract",
  {
    wantedReturn_per_year: quantity("Return that the seller wants, real", "1/a", { least: 0, most: 0.5 }),
    sellerShare: share(
      "Seller's share of the room between both prices",
      "0: the lowest price at which the seller earns the wanted return. 1: the price at which the client saves nothing.",
    ),
    index: Type.Enum(["yearly-rate", "inflation", "fuel-price"], {
      title: "The price of heat follows",
      description:
        "inflation: constant in real money. fuel-price: the price by year of the backup named below.",
    }),
    index_per_year: Type.Optional(
      quantity("Yearly rise of the price of heat, as written in the contract (nominal)", "1/a", {
        least: -0.1,
        most: 0.3,
      }),
    ),
    indexFuel: Type.Optional(idOf("Backup whose fuel price it follows")),
  },
  "The seller buys and keeps all new plant and sells its solar heat; the client keeps boilers and fuel.",
);
export type Contract = Static<typeof Contract>;

/** One price on another course through the period; rows of one name are one path. */
export const PricePath = record(
  "Price path",
  {
    name: text("Name of the path", 80),
    of: text("Price of", 40, "A backup by its id, electricity, or carbon."),
    escalation_per_year: quantity("Price rise", "1/a", { least: -0.2, most: 0.3 }),
    yearFactors: YearFactors,
  },
  "Another course of a price through the period, for the same plant run the same way.",
);
export type PricePath = Static<typeof PricePath>;
