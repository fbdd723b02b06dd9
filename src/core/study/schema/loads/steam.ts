import { Type } from "typebox";
import { quantity, record, share } from "../building-blocks.ts";
import { Profile } from "../profile.ts";
import { nameplate, onNetwork } from "./load-heading.ts";

const asSteam = "Gauge or absolute as the steam's pressure.";

const BlowDown = record(
  "Blow-down",
  {
    shareOfFeed: quantity("Blow-down, share of feed water", "1", { above: 0, most: 0.5 }),
    flashPressure_bar: Type.Optional(
      quantity("Flash vessel's pressure", "bar", {
        least: 0,
        most: 100,
        description: `${asSteam} Its flash steam goes to the feed water; without a vessel none does.`,
      }),
    ),
    drain_C: Type.Optional(
      quantity("Drained at", "°C", {
        least: 0,
        most: 250,
        description: "After an exchanger that warms make-up water; without one it drains boiling.",
      }),
    ),
  },
  "Boiler water let out to keep salts down; it leaves boiling at the steam's pressure.",
);

const CondensateFlash = record(
  "Flash of the condensate",
  {
    pressure_bar: quantity("Pressure behind the traps", "bar", { least: 0, most: 100, description: asSteam }),
    steamIs: Type.Enum(["recovered", "vented"], {
      title: "Flash steam is",
      description: "recovered: condensed in the feed water. vented: lost with its water.",
    }),
  },
  "Condensate leaves the process boiling at the steam's pressure, and part of it flashes where the pressure falls.",
);

export const SteamLoad = record("Steam", {
  kind: Type.Literal("steam"),
  ...onNetwork,
  ...nameplate,
  flow_kg_h: Profile,
  pressure_bar: quantity("Pressure", "bar", { least: 0, most: 100 }),
  pressureIs: Type.Enum(["gauge", "absolute"], { title: "Pressure is" }),
  superheat_K: Type.Optional(
    quantity("Superheat", "K above boiling", {
      least: 0,
      most: 600,
      description: "None where left out; its network must be as hot.",
    }),
  ),
  dryness: Type.Optional(
    quantity("Dryness", "kg vapour per kg", {
      above: 0,
      most: 1,
      description: "Dry where left out. The flow counts vapour and water together.",
    }),
  ),
  condensateReturn_C: quantity("Condensate return", "°C", { least: 5, most: 250 }),
  condensateReturnShare: share("Condensate returned"),
  condensateFlash: Type.Optional(CondensateFlash),
  makeUp_C: quantity("Make-up water", "°C", { least: 0, most: 100 }),
  blowDown: Type.Optional(BlowDown),
  ventShareOfFeed: Type.Optional(
    quantity("Vent of the feed tank or deaerator, share of feed water", "1", {
      least: 0,
      most: 0.1,
      description: "Steam let off at the air's pressure with the gases; none where left out.",
    }),
  ),
});
