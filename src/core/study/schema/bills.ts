import { type Static, Type } from "typebox";
import { idOf, quantity, record, share } from "./building-blocks.ts";
import { FuelMeter } from "./fuel-meter.ts";

const date = (title: string) =>
  Type.String({
    title,
    pattern: "^\\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$",
    description: "A date such as 2026-01-31.",
  });

const Bill = record("Bill", {
  from: date("First day"),
  to: date("Last day"),
  amount: quantity("Amount", "in the bills' unit", { least: 0 }),
  degreeDays_Kd: Type.Optional(
    quantity("Degree days", "K·d", {
      least: 0,
      description: "Of the days billed; taken from the study's weather where left out.",
    }),
  ),
});
export type Bill = Static<typeof Bill>;

export const billUnits = ["kWh", "MWh", "MJ", "GJ", "m3", "Nm3", "L", "kg", "t"] as const;
export type BillUnit = (typeof billUnits)[number];

/** Metered totals with their dates, spread over the hours between so that every total is kept. */
export const BillsProfile = record("From bills", {
  from: Type.Literal("bills"),
  unit: Type.Enum([...billUnits], {
    title: "Unit of the bills",
    description:
      "Energy, or fuel with its heating value below; kg and t are of steam or product where the load is a mass, m³ and L of water where it is a volume.",
  }),
  fuel: Type.Optional(FuelMeter),
  calendar: idOf("Calendar"),
  baseShare: share(
    "Base load",
    "Share of each bill that is drawn evenly through its days and nights; the rest goes by the calendar.",
  ),
  weather: Type.Optional(
    record(
      "Share that goes by the weather",
      {
        for: Type.Enum(["heating", "cooling"], { title: "Degree days are of" }),
        base_C: quantity("Outdoor temperature at which it begins", "°C", { least: -20, most: 40 }),
      },
      "Found by a regression of the bills on degree days; it takes its part of each bill before base load and calendar share the rest.",
    ),
  ),
  bills: Type.Array(Bill, {
    title: "Bills",
    maxItems: 60,
    description: "Both days included; together at most one year, in any order.",
  }),
});
export type BillsProfile = Static<typeof BillsProfile>;
