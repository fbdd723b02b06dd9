import type { Static } from "typebox";
import { Id, idOf, Parts, quantity, record, Size } from "./building-blocks.ts";

export const StepDown = record("Step-down", {
  id: Id,
  from: idOf("From heat network"),
  to: idOf("To heat network"),
  approach_K: quantity("Least temperature difference", "K", { least: 0, most: 100 }),
  efficiency: quantity("Efficiency", "1", { above: 0, most: 1 }),
  existing_kW: quantity("Existing", "kW", { least: 0 }),
  size: Size,
  parts: Parts,
});
export type StepDown = Static<typeof StepDown>;
