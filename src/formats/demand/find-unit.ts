import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { DemandQuantity } from "./account.ts";

const MJ_per_kWh = 3.6;

export type DemandUnit = NonNullable<DemandReading["unit"]>;

/** A unit found in a header; `supported` is false for units that the reader knows but does not read. */
export interface HeaderUnit {
  readonly text: string;
  readonly unit: DemandUnit | null;
}

const energies = /(?<!\p{L})([kMG]?)W(?:att)?(h?)(\/h)?(?:_?th|_?el)?(?![\p{L}\d])/giu;
const flows = /(?<![A-Za-z])(kg|t|m3|m³)\s*\/\s*(?:h|hr|hour|std)(?![A-Za-z])/i;
const prices = /(?:\/|per)\s*(kWh|MWh)/i;
const others =
  /(?<![A-Za-z])(GJ|MJ|kJ|MMBtu|BTU|therms?|kcal|Gcal|kg\s*\/\s*s|t\s*\/\s*d|l\s*\/\s*h|m3\s*\/\s*d)(?![A-Za-z])/i;

/** The unit written in a column's header; null where none is seen. */
export function unitInHeader(header: string, quantity: DemandQuantity): HeaderUnit | null {
  const price = prices.exec(header);
  if (price !== null && (quantity === "price" || quantity === "any")) {
    return { text: price[0].trim(), unit: /m/i.test(price[1]![0]!) ? "per MWh" : "per kWh" };
  }
  const flow = flows.exec(header);
  if (flow !== null) {
    const what = flow[1]!.toLowerCase();
    return { text: flow[0], unit: what === "kg" ? "kg/h" : what === "t" ? "t/h" : "m3/h" };
  }
  const volume = /(?<![A-Za-z])(?:m3|m³)(?![A-Za-z\d]|\s*\/)/i.exec(header);
  if (volume !== null && !/(?:\/|per)\s*$/i.test(header.slice(0, volume.index)))
    return { text: volume[0], unit: "m3" };
  const joules = /(?<![A-Za-z])(MJ|GJ)(?![A-Za-z]|\s*\/)/.exec(header);
  if (joules !== null) return { text: joules[0], unit: joules[1] as DemandUnit };
  const other = others.exec(header);
  if (other !== null) return { text: other[0], unit: null };
  for (const energy of header.matchAll(energies)) {
    const [text, prefix = "", hours = "", perHour] = energy;
    // A lone W is a unit only in brackets; elsewhere it is too likely a letter.
    const bracketed =
      /[[(]\s*$/.test(header.slice(0, energy.index)) &&
      /^\s*[\])]/.test(header.slice(energy.index + text.length));
    if (prefix === "" && !bracketed) continue;
    const perInterval = hours !== "" && perHour === undefined;
    const size = prefix.toLowerCase();
    if (size === "k") return { text, unit: perInterval ? "kWh" : "kW" };
    return { text, unit: size === "m" ? (perInterval ? "MWh" : "MW") : null };
  }
  return null;
}

/** Unit of the hourly series by what is asked for and what the file has. */
export function hourlyUnit(quantity: DemandQuantity, unit: DemandUnit | null): string | null {
  if (quantity === "power") return "kW";
  if (quantity === "mass-flow") return "kg/h";
  if (quantity === "volume-flow") return "m3/h";
  if (quantity === "price") return "per kWh";
  return unit === null ? null : hourlyOf[unit];
}

const hourlyOf: Record<DemandUnit, string> = {
  kW: "kW",
  MW: "kW",
  kWh: "kW",
  MWh: "kW",
  MJ: "kW",
  GJ: "kW",
  "kWh/d": "kW",
  "MWh/d": "kW",
  "kg/h": "kg/h",
  "t/h": "kg/h",
  "m3/h": "m3/h",
  m3: "m3/h",
  "per kWh": "per kWh",
  "per MWh": "per kWh",
};

export function fits(quantity: DemandQuantity, unit: DemandUnit): boolean {
  return quantity === "any" || hourlyOf[unit] === hourlyUnit(quantity, unit);
}

/** Units that a file for this quantity may have, for messages and questions. */
export function allowedUnits(quantity: DemandQuantity): DemandUnit[] {
  return (Object.keys(hourlyOf) as DemandUnit[]).filter((unit) => fits(quantity, unit));
}

/** Multiplies a cell into the hourly unit; energy per interval becomes mean power over the interval. */
export function unitFactor(unit: DemandUnit, step_min: number): number {
  switch (unit) {
    case "MW":
    case "t/h":
      return 1000;
    case "kWh":
      return 60 / step_min;
    case "MWh":
      return 60_000 / step_min;
    case "m3":
      return 60 / step_min;
    case "MJ":
      return 60 / step_min / MJ_per_kWh;
    case "GJ":
      return 60_000 / step_min / MJ_per_kWh;
    case "kWh/d":
      return 1 / 24;
    case "MWh/d":
      return 1000 / 24;
    case "per MWh":
      return 1e-3;
    default:
      return 1;
  }
}
