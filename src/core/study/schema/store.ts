import { type Static, Type } from "typebox";
import { Id, idOf, Parts, quantity, record, Size, text } from "./building-blocks.ts";
import { storeSwitching } from "./running-limits.ts";

const Charging = record(
  "Charging power with a size of its own",
  {
    existing_kW: quantity("Existing", "kW", { least: 0 }),
    size: Size,
    parts: Parts,
  },
  "Heat or cold that can be taken into the store at once, in kW: pumps and exchanger, priced by their own parts. Left out, charging costs nothing beyond the store.",
);

export const Store = record(
  "Store",
  {
    id: Id,
    name: text("Name", 80),
    network: Type.Optional(idOf("Heat network that it serves")),
    load: Type.Optional(idOf("Cooling load that it serves")),
    medium: Type.Enum(
      ["water", "pressurised-water", "thermal-oil", "oil-rock", "molten-salt", "chilled-water"],
      {
        title: "Medium",
      },
    ),
    hot_C: quantity("Hot", "°C", { least: -20, most: 600 }),
    cold_C: quantity("Cold", "°C", { least: -20, most: 600 }),
    usableShare: quantity("Usable share of the volume", "1", { above: 0, most: 1 }),
    chargeEfficiency: quantity("Charge efficiency", "1", { above: 0, most: 1 }),
    dischargeEfficiency: quantity("Discharge efficiency", "1", { above: 0, most: 1 }),
    standingLoss_per_day: quantity("Standing loss", "share of content per day", { least: 0, most: 0.99 }),
    chargeLimit_kW: Type.Optional(quantity("Charging at most", "kW", { least: 0 })),
    dischargeLimit_kW: Type.Optional(quantity("Discharging at most", "kW", { least: 0 })),
    ...storeSwitching,
    existing_kWh: quantity("Existing", "kWh", { least: 0 }),
    size: Size,
    parts: Parts,
    charging: Type.Optional(Charging),
  },
  "Serves one heat network (network) or one cooling load (load).",
);
export type Store = Static<typeof Store>;
