/** Words for the values that a choice may have; a value without an entry is shown as it is. */
const words: Readonly<Record<string, string>> = {
  free: "free: the program chooses",
  bounded: "chosen within bounds",
  fixed: "fixed",
  "axis-north-south": "one horizontal axis, north–south",
  "axis-east-west": "one horizontal axis, east–west",
  "vertical-axis": "vertical axis",
  "two-axes": "two axes",
  measured: "measured in a test",
  computed: "computed from film, mirror and receiver",
  none: "none",
  b0: "one coefficient b0",
  polynomial: "polynomial",
  table: "table of angles",
  "iso-9806": "ISO 9806 coefficients",
  "receiver-tube": "loss per metre of receiver tube",
  "thermal-oil": "thermal oil",
  "pressurised-water": "pressurised water",
  "oil-rock": "oil with rock",
  "molten-salt": "molten salt",
  "chilled-water": "chilled water",
  "natural-gas": "natural gas",
  "gas-oil": "gas oil (diesel, heating oil)",
  "residual-fuel-oil": "residual fuel oil",
  lpg: "liquefied petroleum gas",
  "bituminous-coal": "bituminous coal",
  "performance-ratio": "performance ratio",
  "specific-heat": "specific heat use",
  air: "once-through air",
  "2326-kJ-per-kg": "2326 kJ per kg of steam",
  "latent-heat": "latent heat at the steam temperature",
  "process-heat": "process heat",
  "batch-drying": "batch drying",
  desalination: "thermal desalination",
  cooling: "absorption cooling",
  calendar: "from a week calendar",
  constant: "constant",
  file: "from a file",
  epw: "EPW",
  tmy3: "TMY3",
  csv: "plain CSV",
  single: "single effect",
  double: "double effect",
};

export function wordFor(value: unknown): string {
  const key = String(value);
  return words[key] ?? key;
}

export const weekdays = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;
