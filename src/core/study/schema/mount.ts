import { type Static, Type } from "typebox";
import { quantity, record, tagged } from "./building-blocks.ts";

const tilt = (title: string) => quantity(title, "°", { least: 0, most: 90 });
const facing = quantity("Azimuth", "° clockwise from north", { least: 0, most: 360 });

export const Mount = tagged("type", "Mount", [
  record("Fixed", { type: Type.Literal("fixed"), tilt_deg: tilt("Tilt"), azimuth_deg: facing }),
  record("Tilt changed by the month", {
    type: Type.Literal("monthly-tilt"),
    tilts_deg: Type.Array(tilt("Tilt in a month"), {
      title: "Tilt, January to December",
      minItems: 12,
      maxItems: 12,
    }),
    azimuth_deg: facing,
  }),
  record("One horizontal axis, north–south", { type: Type.Literal("axis-north-south") }),
  record("One horizontal axis, east–west", { type: Type.Literal("axis-east-west") }),
  record("One axis, any way", {
    type: Type.Literal("one-axis"),
    azimuth_deg: quantity("Azimuth of the axis", "° clockwise from north", {
      least: 0,
      most: 360,
      description: "The way the axis falls; 180 or 0 is north–south, 90 or 270 east–west.",
    }),
    axisTilt_deg: quantity("Tilt of the axis", "°", { least: 0, most: 90, description: "0 is horizontal." }),
    mostTurn_deg: Type.Optional(
      quantity("Turns to either side by at most", "°", {
        above: 0,
        most: 180,
        description:
          "90 if left out. A concentrator for beam only gets no light while it would have to turn further.",
      }),
    ),
    backtracking: Type.Boolean({
      title: "Turns back where rows would shade each other",
      description: "Not for concentrators, which lose their focus.",
    }),
  }),
  record("Vertical axis", { type: Type.Literal("vertical-axis"), tilt_deg: tilt("Tilt") }),
  record("Vertical axis and a mirror that tilts", {
    type: Type.Literal("vertical-axis-tilting"),
    leastTilt_deg: tilt("Tilts from"),
    mostTilt_deg: tilt("Tilts to"),
  }),
  record("Two axes", {
    type: Type.Literal("two-axes"),
    leastElevation_deg: Type.Optional(
      quantity("Looks no lower above the horizon than", "°", {
        least: 0,
        most: 90,
        description: "0 if left out. A concentrator for beam only gets no light while the sun stands lower.",
      }),
    ),
  }),
]);
export type Mount = Static<typeof Mount>;
