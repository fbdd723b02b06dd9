import { type Static, Type } from "typebox";
import { Id, idOf, Parts, quantity, record, Size, tagged, text } from "./building-blocks.ts";
import { Closure } from "./calendar.ts";
import { Fuel } from "./fuel.ts";
import { leastLoad } from "./running-limits.ts";

const PartLoadPoint = record("Point", {
  load: quantity("Load, share of its power", "1", { above: 0, most: 1 }),
  efficiency: quantity("Efficiency, heat per fuel", "1", { above: 0, most: 10 }),
});

const HeatPump = record(
  "Heat pump",
  {
    shareOfReversible: quantity("Share of the reversible cycle", "1", {
      above: 0,
      most: 0.9,
      description: "0.4 to 0.55 for built machines; from its maker at the temperatures of the study.",
    }),
    source: tagged("from", "Heat source", [
      record("Outdoor air", { from: Type.Literal("outdoor-air") }),
      record("Source by the month", {
        from: Type.Literal("by-month"),
        months_C: Type.Array(quantity("Temperature", "°C", { least: -20, most: 120 }), {
          title: "Temperature by month",
          minItems: 12,
          maxItems: 12,
        }),
      }),
    ]),
    sourceApproach_K: quantity("Evaporator below the source by", "K", { least: 0, most: 30 }),
    sinkApproach_K: quantity("Condenser above the network's supply by", "K", { least: 0, most: 30 }),
  },
  "Only for electricity: the coefficient of performance by the hour, in place of the efficiency.",
);

export const Backup = record("Backup", {
  id: Id,
  name: text("Name", 80),
  network: idOf("Heat network"),
  fuel: Fuel,
  efficiency: quantity("Efficiency, heat per fuel", "1", {
    above: 0,
    most: 10,
    description: "At most 1.1 but for electricity, where a heat pump's coefficient of performance may stand.",
  }),
  partLoad: Type.Optional(
    Type.Array(PartLoadPoint, {
      title: "Efficiency at part load",
      maxItems: 12,
      description:
        "At least two points; the year's fuel goes by them, the sizing by the one efficiency above. Needs a power that is known.",
    }),
  ),
  standby_kW: Type.Optional(
    quantity("Standby fuel", "kW of fuel", {
      least: 0,
      description: "Burnt in hours in which it is ready and gives no heat; none where left out.",
    }),
  ),
  order: Type.Optional(
    Type.Integer({
      title: "Order on its network",
      minimum: 1,
      maximum: 20,
      description: "1 is called first, whatever it costs; by cost where left out. Kept by the replay only.",
    }),
  ),
  heatPump: Type.Optional(HeatPump),
  comesAt_C: Type.Optional(
    quantity("Waste heat comes at", "°C", {
      least: 0,
      most: 800,
      description: "Only for waste heat: its network must be no hotter.",
    }),
  ),
  calendar: Type.Optional(idOf("Calendar of its power")),
  outages: Type.Optional(
    Type.Array(Closure, {
      title: "Planned outages",
      maxItems: 20,
      description: "Both days included, as 08-01 to 08-14; it gives no heat on them.",
    }),
  ),
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
