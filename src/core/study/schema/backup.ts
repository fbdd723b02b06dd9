import { type Static, Type } from "typebox";
import { Id, idOf, Parts, quantity, record, Size, text } from "./building-blocks.ts";
import { Fuel } from "./fuel.ts";
import { leastLoad } from "./running-limits.ts";

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
