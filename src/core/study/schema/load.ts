import type { Static } from "typebox";
import { tagged } from "./building-blocks.ts";
import { BatchHeat } from "./loads/batch-heat.ts";
import { Cooling } from "./loads/cooling.ts";
import { Desalination } from "./loads/desalination.ts";
import { Drying } from "./loads/drying.ts";
import { ProcessHeat } from "./loads/process-heat.ts";
import { SteamLoad } from "./loads/steam.ts";

export const Load = tagged("kind", "Load", [
  ProcessHeat,
  SteamLoad,
  Desalination,
  Drying,
  BatchHeat,
  Cooling,
]);
export type Load = Static<typeof Load>;
export type LoadOf<K extends Load["kind"]> = Extract<Load, { kind: K }>;
