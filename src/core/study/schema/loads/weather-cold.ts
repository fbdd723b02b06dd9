import { type Static, Type } from "typebox";
import { quantity, record } from "../building-blocks.ts";

export const WeatherCold = record(
  "Cold by the weather",
  {
    balance_C: quantity("Balance temperature", "°C", {
      least: -40,
      most: 50,
      description: "Outdoor air at or below it asks for no cold.",
    }),
    cold_kW_per_K: quantity("Cold per kelvin above it", "kW/K", { least: 0 }),
    humidity: Type.Optional(
      record(
        "Drying of outdoor air",
        {
          limit_g_kg: quantity("Humidity ratio to keep", "g/kg", { least: 0, most: 40 }),
          cold_kW_per_g_kg: quantity("Cold per g/kg above it", "kW per g/kg", { least: 0 }),
        },
        "Latent cold for moisture of the outdoor air above what is kept inside.",
      ),
    ),
    most_kW: Type.Optional(quantity("At most", "kW", { least: 0, description: "No limit where left out." })),
  },
  "By degree hours of the weather file, beside the cold above, which is then the base load. Left out: only the cold above.",
);
export type WeatherCold = Static<typeof WeatherCold>;
