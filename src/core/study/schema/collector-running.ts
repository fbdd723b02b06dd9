import { type Static, Type } from "typebox";
import { quantity, record } from "./building-blocks.ts";

export const Storm = record("Storm", {
  stowWind_m_s: quantity("Stow above a wind of", "m/s at 10 m, hourly mean", { above: 0, most: 60 }),
  returnWind_m_s: Type.Optional(
    quantity("Stays stowed while the wind is above", "m/s at 10 m, hourly mean", {
      least: 0,
      most: 60,
      description: "At most the wind that stows it, which counts if this is left out.",
    }),
  ),
  backAfter_h: Type.Integer({ title: "Back in use after", unit: "h", minimum: 0, maximum: 72 }),
});
export type Storm = Static<typeof Storm>;
