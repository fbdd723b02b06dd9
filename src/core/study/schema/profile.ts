import { type Static, Type } from "typebox";
import { BillsProfile } from "./bills.ts";
import { idOf, quantity, record, tagged, text } from "./building-blocks.ts";
import { FuelMeter } from "./fuel-meter.ts";

/** How a demand file is to be read. What is left out is found out from the file and shown. */
export const DemandReading = record("Reading of a demand file", {
  sheet: Type.Optional(text("Sheet", 100, "Of an xlsx file; the first that is not hidden where left out.")),
  timeColumn: Type.Optional(text("Time column")),
  valueColumn: Type.Optional(text("Value column")),
  unit: Type.Optional(
    Type.Enum(
      [
        "kW",
        "MW",
        "kWh",
        "MWh",
        "MJ",
        "GJ",
        "kWh/d",
        "MWh/d",
        "kg/h",
        "t/h",
        "m3/h",
        "m3",
        "per kWh",
        "per MWh",
      ],
      {
        title: "Unit",
        description:
          "kWh, MWh, MJ, GJ and m3 are taken per interval; per kWh and per MWh are prices in the study's currency.",
      },
    ),
  ),
  fuel: Type.Optional(FuelMeter),
  values: Type.Optional(
    Type.Enum(["interval", "counter"], {
      title: "A value is",
      description:
        "interval: the figure of its own interval. counter: the reading of a meter that only rises; the difference to the next row is used, and t/h, kg/h and m3/h then count t, kg and m3.",
    }),
  ),
  clock: Type.Optional(
    Type.Enum(["standard", "civil"], {
      title: "Clock",
      description: "standard: one fixed UTC offset all year. civil: the site's clock with daylight saving.",
    }),
  ),
  stamp: Type.Optional(
    Type.Enum(["start", "end"], { title: "A time stamp marks", description: "start or end of its interval" }),
  ),
  clockOffset_h: Type.Optional(
    quantity("Clock of the logger, times moved by", "h", {
      least: -24,
      most: 24,
      description: "Added to every time of the file; below 0 for a clock that was fast.",
    }),
  ),
  calendar: Type.Optional(idOf("Calendar that it should follow")),
  extend: Type.Optional(
    Type.Boolean({
      title: "Extend by the calendar",
      description: "Hours that were not logged go by the calendar, fitted to those that were.",
    }),
  ),
  dateOrder: Type.Optional(Type.Enum(["ymd", "dmy", "mdy"], { title: "Order of the date" })),
  decimal: Type.Optional(Type.Enum([".", ","], { title: "Decimal sign" })),
  delimiter: Type.Optional(Type.Enum([",", ";", "\t"], { title: "Column separator" })),
});
export type DemandReading = Static<typeof DemandReading>;

/** A rate for each hour of the year, in the unit that its owner says. */
export const Profile = tagged("from", "Profile", [
  record("From a file", {
    from: Type.Literal("file"),
    file: text("File", 300, "Relative to the study file."),
    reading: Type.Optional(DemandReading),
  }),
  record("From a calendar", {
    from: Type.Literal("calendar"),
    level: quantity("Level at share 1", "profile's unit", { least: 0 }),
    calendar: idOf("Calendar"),
  }),
  BillsProfile,
  record("Constant", {
    from: Type.Literal("constant"),
    level: quantity("Level", "profile's unit", { least: 0 }),
  }),
]);
export type Profile = Static<typeof Profile>;

export type { Bill, BillsProfile, BillUnit } from "./bills.ts";
export type { FuelMeter } from "./fuel-meter.ts";
