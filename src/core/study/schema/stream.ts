import { type Static, Type } from "typebox";
import { Id, quantity, record, text } from "./building-blocks.ts";

/** A flow of the factory that is to be heated or cooled; it changes no size by itself. */
export const Stream = record(
  "Process stream",
  {
    id: Id,
    name: text("Name", 80),
    in_C: quantity("From", "°C", { least: -100, most: 1200 }),
    out_C: quantity("To", "°C", { least: -100, most: 1200 }),
    heatCapacityFlow_kW_K: Type.Optional(quantity("Heat capacity flow", "kW/K", { above: 0, most: 1e6 })),
    heat_kW: Type.Optional(quantity("or heat", "kW", { above: 0, most: 1e7 })),
    does: Type.Optional(
      Type.Enum(["gives-heat", "takes-heat"], {
        title: "Changes phase and",
        description: "Only where both temperatures are the same: condensing gives heat, boiling takes it.",
      }),
    ),
    approach_K: Type.Optional(
      quantity("Own share of the approach", "K", {
        least: 0,
        most: 100,
        description: "Half of the least approach where left out; more for gases, less for boiling.",
      }),
    ),
  },
  "Give either the heat capacity flow (mass flow times specific heat) or the heat.",
);
export type Stream = Static<typeof Stream>;

/** How the streams are looked at together. */
export const Pinch = record("Pinch analysis", {
  leastApproach_K: Type.Optional(
    quantity("Least approach between streams", "K", {
      least: 0,
      most: 200,
      description: "Least temperature difference in an exchanger between two streams; 10 where left out.",
    }),
  ),
});
export type Pinch = Static<typeof Pinch>;
