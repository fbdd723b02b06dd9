import { Type } from "typebox";
import { quantity, record, share, text } from "../building-blocks.ts";
import { Closure } from "../calendar.ts";
import { onNetwork } from "./load-heading.ts";

const BatchProduct = record(
  "Product of a batch",
  {
    name: text("Product", 80),
    wet_kg: quantity("Wet product in a batch", "kg", { above: 0 }),
    moistureIn: share("Moisture in, wet basis"),
    moistureOut: share("Moisture out, wet basis"),
    heat_kWh_per_kgWater: quantity("Heat", "kWh per kg of water removed", { above: 0, most: 10 }),
  },
  "In place of the heat: water removed times what a kg of it takes.",
);

/** Heat that is due between two clock hours, when it suits the plant best. */
export const BatchHeat = record("Batch drying", {
  kind: Type.Literal("batch-drying"),
  ...onNetwork,
  heat_kWh_per_batch: Type.Optional(
    quantity("Heat of a batch", "kWh", { least: 0, description: "Given here, or by the product below." }),
  ),
  product: Type.Optional(BatchProduct),
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
