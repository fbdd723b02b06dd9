import { Type } from "typebox";
import { record } from "../building-blocks.ts";
import { Profile } from "../profile.ts";
import { nameplate, onNetwork } from "./load-heading.ts";

export const ProcessHeat = record("Process heat", {
  kind: Type.Literal("process-heat"),
  ...onNetwork,
  ...nameplate,
  heat_kW: Profile,
});
