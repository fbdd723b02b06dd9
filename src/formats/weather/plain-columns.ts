import { type WeatherQuantity, weatherQuantities } from "./weather-rows.ts";

interface PlainUnit {
  readonly names: readonly string[];
  readonly convert: (value: number) => number;
}
const times = (factor: number) => (value: number) => value * factor;

/** Hourly energy counts as the mean over its hour. */
const irradiance: readonly PlainUnit[] = [
  { names: ["W/m2", "Wh/m2", "W m-2", "Wh m-2", "W/m2h"], convert: times(1) },
  { names: ["kW/m2", "kWh/m2", "kW m-2", "kWh m-2"], convert: times(1000) },
  { names: ["kJ/m2"], convert: times(1 / 3.6) },
  { names: ["MJ/m2"], convert: times(1 / 0.0036) },
  { names: ["J/cm2"], convert: times(1 / 0.36) },
];

const units: Readonly<Record<WeatherQuantity, readonly PlainUnit[]>> = {
  ghi: irradiance,
  dni: irradiance,
  dhi: irradiance,
  ambient: [
    { names: ["°C", "C", "degC", "deg C", "Celsius"], convert: times(1) },
    { names: ["K", "Kelvin"], convert: (value) => value - 273.15 },
    { names: ["°F", "F", "degF"], convert: (value) => (value - 32) / 1.8 },
  ],
  wind: [
    { names: ["m/s", "m s-1"], convert: times(1) },
    { names: ["km/h"], convert: times(1 / 3.6) },
    { names: ["kn", "kt", "knots"], convert: times(1852 / 3600) },
    { names: ["mph"], convert: times(0.44704) },
  ],
  humidity: [
    { names: ["%", "pct", "percent"], convert: (value) => value / 100 },
    { names: ["share", "1", "-"], convert: times(1) },
  ],
  pressure: [
    { names: ["Pa"], convert: times(1) },
    { names: ["hPa", "mbar"], convert: times(100) },
    { names: ["kPa"], convert: times(1000) },
    { names: ["bar"], convert: times(1e5) },
  ],
};

const names: Readonly<Record<WeatherQuantity, readonly string[]>> = {
  ghi: ["ghi", "global horizontal", "global horizontal irradiance", "global horizontal radiation", "global"],
  dni: ["dni", "direct normal", "direct normal irradiance", "direct normal radiation", "beam normal"],
  dhi: [
    "dhi",
    "diffuse horizontal",
    "diffuse horizontal irradiance",
    "diffuse horizontal radiation",
    "diffuse",
  ],
  ambient: ["ambient", "ambient temperature", "temperature", "air temperature", "temp", "dry bulb", "t air"],
  wind: ["wind", "wind speed", "windspeed", "ws"],
  humidity: ["humidity", "relative humidity", "rh"],
  pressure: ["pressure", "station pressure", "air pressure"],
};

/** What a column's title says. `convert` is null where the unit is missing or cannot be read. */
export interface PlainColumn {
  readonly quantity: WeatherQuantity;
  readonly convert: ((value: number) => number) | null;
}

/** Titles are told without regard to case, brackets, and how words are joined: `ghi_W_m2`, `GHI (W/m²)`. */
export function plainColumn(title: string): PlainColumn | null {
  const key = canonical(title);
  const known = titles.get(key);
  if (known !== undefined) return known;
  for (const quantity of weatherQuantities)
    for (const name of names[quantity]) {
      const start = canonical(name);
      // A title such as "wind direction (deg)" begins with a known name and is something else.
      const rest = title.match(/[[(]([^)\]]*)[)\]]\s*$/)?.[1];
      const bare = rest === undefined ? key : canonical(title.replace(/[[(][^)\]]*[)\]]\s*$/, ""));
      if (bare === start) return { quantity, convert: null };
    }
  return null;
}

/** The units that a quantity may have, for sentences and the guide. */
export function plainUnits(quantity: WeatherQuantity): string {
  return units[quantity].map((unit) => unit.names[0]).join(", ");
}

function canonical(title: string): string {
  return title
    .toLowerCase()
    .replace(/²/g, "2")
    .replace(/⁻/g, "-")
    .replace(/[°^]/g, "")
    .replace(/%/g, "pct")
    .replace(/[[\]()\s_/\-.,:·*]+/g, "_")
    .replace(/^_|_$/g, "");
}

const titles = new Map<string, PlainColumn>();
for (const quantity of weatherQuantities)
  for (const name of names[quantity])
    for (const unit of units[quantity])
      for (const unitName of unit.names)
        if (canonical(unitName) !== "")
          titles.set(canonical(`${name} ${unitName}`), { quantity, convert: unit.convert });
