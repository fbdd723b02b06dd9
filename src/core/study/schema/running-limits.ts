import { Type } from "typebox";
import { quantity, share } from "./building-blocks.ts";

/** How equipment must be run; only the replay keeps to it, since none of it is linear. */
export const leastLoad = {
  leastLoadShare: Type.Optional(
    share(
      "Least load",
      "Runs at this share of its power or more, or stands still; any part of its power where left out. Kept by the replay only.",
    ),
  ),
};

export const startUp = {
  startUp_h: Type.Optional(
    quantity("Start-up", "h", {
      least: 0,
      most: 1,
      description:
        "Full heat drawn so long without product after an hour of standing still; 0 where left out. Kept by the replay only.",
    }),
  ),
};

export const storeSwitching = {
  leastPower_kW: Type.Optional(
    quantity("Charges and discharges at least at", "kW", {
      least: 0,
      description: "Below it the store stands still; 0 where left out. Kept by the replay only.",
    }),
  ),
  contentDeadBand: Type.Optional(
    quantity("Dead band of the content", "1", {
      least: 0,
      most: 0.5,
      description:
        "Once empty it gives heat again from this share of its capacity on, once full it takes heat again from as much below; 0 where left out. Kept by the replay only.",
    }),
  ),
};
