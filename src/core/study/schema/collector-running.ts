import { type Static, Type } from "typebox";
import { quantity, record } from "./building-blocks.ts";

export const Storm = record("Storm", {
  stowWind_m_s: quantity("Stow above a wind of", "m/s at 10 m, hourly mean", { above: 0, most: 60 }),
  backAfter_h: Type.Integer({ title: "Back in use after", unit: "h", minimum: 0, maximum: 72 }),
});
export type Storm = Static<typeof Storm>;
