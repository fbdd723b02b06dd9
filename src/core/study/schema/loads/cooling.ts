import { Type } from "typebox";
import { quantity, record } from "../building-blocks.ts";
import { ElectricChiller } from "../electric-chiller.ts";
import { Profile } from "../profile.ts";
import { heading, nameplate } from "./load-heading.ts";
import { WeatherCold } from "./weather-cold.ts";

export const Cooling = record("Cooling", {
  kind: Type.Literal("cooling"),
  ...heading,
  ...nameplate,
  cold_kW: Profile,
  byWeather: Type.Optional(WeatherCold),
  coldSupply_C: quantity("Cold supply", "°C", { least: -40, most: 20 }),
  electricChiller: ElectricChiller,
});
