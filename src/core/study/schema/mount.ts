import { type Static, Type } from "typebox";
import { quantity, record, tagged } from "./building-blocks.ts";

export const Mount = tagged("type", "Mount", [
  record("Fixed", {
    type: Type.Literal("fixed"),
    tilt_deg: quantity("Tilt", "°", { least: 0, most: 90 }),
    azimuth_deg: quantity("Azimuth", "° clockwise from north", { least: 0, most: 360 }),
  }),
  record("One horizontal axis, north–south", { type: Type.Literal("axis-north-south") }),
  record("One horizontal axis, east–west", { type: Type.Literal("axis-east-west") }),
  record("Vertical axis", {
    type: Type.Literal("vertical-axis"),
    tilt_deg: quantity("Tilt", "°", { least: 0, most: 90 }),
  }),
  record("Two axes", { type: Type.Literal("two-axes") }),
]);
export type Mount = Static<typeof Mount>;
