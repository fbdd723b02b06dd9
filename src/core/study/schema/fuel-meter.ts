import { type Static, Type } from "typebox";
import { quantity, record } from "./building-blocks.ts";

/** What turns metered fuel into heat; heating value and efficiency are on the same basis. */
export const FuelMeter = record(
  "Metered fuel",
  {
    kWh_per_unit: quantity("Heating value", "kWh per m³, L or kg", {
      above: 0,
      most: 40,
      description: "Per m³ as metered, per norm m³, L or kg, or 1 where the meter counts kWh of fuel.",
    }),
    heatingValueIs: Type.Enum(["net", "gross"], { title: "Heating value and efficiency are" }),
    norm_per_metered: Type.Optional(
      quantity("Norm volume of a metered m³", "m³/m³", {
        above: 0,
        most: 20,
        description:
          "Where the heating value is per norm m³ (0 °C, 1.01325 bar) and the meter counts m³ as they pass.",
      }),
    ),
    efficiency: quantity("Boiler efficiency in the mean", "1", { above: 0, most: 1.1 }),
  },
  "What is metered is the fuel of a boiler whose heat is the load; only for loads in kW.",
);
export type FuelMeter = Static<typeof FuelMeter>;
