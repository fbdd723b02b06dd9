import { type Static, Type } from "typebox";
import { Id, idOf, Parts, quantity, record, Size, text } from "./building-blocks.ts";
import { ByTemperature } from "./chiller-temperatures.ts";
import { leastLoad, startUp } from "./running-limits.ts";

export const Chiller = record("Absorption chiller", {
  id: Id,
  name: text("Name", 80),
  load: idOf("Cooling load"),
  network: idOf("Heat network that drives it"),
  effect: Type.Enum(["single", "double", "ammonia-water", "other"], { title: "Effect" }),
  cop: quantity("COP, heat to cold", "1", {
    above: 0,
    most: 2.5,
    description: "In every hour, or at the rated point where COP and capacity go by temperature.",
  }),
  byTemperature: Type.Optional(ByTemperature),
  drivingLeast_C: quantity("Least driving temperature", "°C", { least: 50, most: 300 }),
  electricity_kWh_per_kWh: quantity("Electricity per kWh of cold", "kWh/kWh", { least: 0, most: 1 }),
  ...leastLoad,
  ...startUp,
  existing_kW: quantity("Existing", "kW of cold", { least: 0 }),
  size: Size,
  parts: Parts,
});
export type Chiller = Static<typeof Chiller>;
