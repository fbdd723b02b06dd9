import { Type } from "typebox";
import { quantity, record, share } from "../building-blocks.ts";
import { Profile } from "../profile.ts";
import { onNetwork } from "./load-heading.ts";

export const SteamLoad = record("Steam", {
  kind: Type.Literal("steam"),
  ...onNetwork,
  flow_kg_h: Profile,
  pressure_bar: quantity("Pressure", "bar", { least: 0, most: 100 }),
  pressureIs: Type.Enum(["gauge", "absolute"], { title: "Pressure is" }),
  condensateReturn_C: quantity("Condensate return", "°C", { least: 5, most: 250 }),
  condensateReturnShare: share("Condensate returned"),
  makeUp_C: quantity("Make-up water", "°C", { least: 0, most: 100 }),
});
