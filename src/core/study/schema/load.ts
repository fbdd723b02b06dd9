import type { Static } from "typebox";
import { tagged } from "./building-blocks.ts";
import { BatchHeat } from "./loads/batch-heat.ts";
import { Cooling } from "./loads/cooling.ts";
import { Desalination } from "./loads/desalination.ts";
import { Drying } from "./loads/drying.ts";
import { HotWater } from "./loads/hot-water.ts";
import { ProcessHeat } from "./loads/process-heat.ts";
import { SteamLoad } from "./loads/steam.ts";
import { ThermalOilLoad } from "./loads/thermal-oil.ts";

export const Load = tagged("kind", "Load", [
  ProcessHeat,
  SteamLoad,
  HotWater,
  ThermalOilLoad,
  Desalination,
  Drying,
  BatchHeat,
  Cooling,
]);
export type Load = Static<typeof Load>;
export type LoadOf<K extends Load["kind"]> = Extract<Load, { kind: K }>;
