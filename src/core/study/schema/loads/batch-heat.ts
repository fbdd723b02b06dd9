import { Type } from "typebox";
import { quantity, record } from "../building-blocks.ts";
import { Closure } from "../calendar.ts";
import { onNetwork } from "./load-heading.ts";

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
