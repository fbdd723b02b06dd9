import type { Study } from "../../core/study/schema/study.ts";
import { buildInput, type FormContext } from "../forms/build-form.ts";
import type { InputField } from "../forms/form-field.ts";
import type { ItemList } from "../forms/study-paths.ts";

/** A piece of a sentence: words, or an input that stands in it. */
export type Segment = { readonly words: string } | { readonly input: InputField };

/*
 * The sentences in which the main inputs of each thing stand. {name} is an input, by its path below
 * the thing's own; §currency is replaced.
 */
const sentences: Readonly<Record<string, string>> = {
  head: "This study is called {title}. It is made for {client} by {author}.",
  site: "{name} lies at latitude {latitude_deg}° (north positive) and longitude {longitude_deg}° (east positive), {elevation_m} m above the sea. Its standard time is {utcOffset_h} h ahead of UTC; the factory’s clock follows {timeZone}, and weekdays are those of {calendarYear}.",
  weather: "The weather is read from {file}.",
  networks:
    "{name} carries {carrier} out at {supply_C} °C and takes it back at {return_C} °C; an exchanger costs {exchangerApproach_K} K.",
  calendars: "{name} tells when the factory works.",
  "loads/process-heat": "{name} draws heat from {network}: [heat_kW in kW].",
  "loads/steam":
    "{name} draws steam of {pressure_bar} bar {pressureIs} from {network}; {condensateReturnShare} of it comes back as condensate at {condensateReturn_C} °C, the rest is made up at {makeUp_C} °C. It draws [flow_kg_h in kg/h].",
  "loads/hot-water":
    "{name} draws water at {use_C} °C, made from cold water of {coldWater_C} °C with heat from {network}: [draw_m3_h in m³/h]. Its tank of {tank_m3} m³ is heated with up to {heater_kW} kW.",
  "loads/thermal-oil":
    "{name} takes oil of {in_C} °C from {network} and sends it back at {out_C} °C. Its flow, in {flowIs}, is [flow in that unit].",
  "loads/desalination":
    "{name} owes {order_m3_per_day} m³ of water a day, makes at most {capacity_m3_h} m³ an hour on heat from {network}, and keeps up to {tank_m3} m³ in its tank.",
  "loads/drying":
    "{name} takes its heat from {network} and dries from a moisture of {moistureIn} to {moistureOut}, wet basis. Wet product: [wetProduct_kg_h in kg/h].",
  "loads/batch-drying":
    "{name} needs {heat_kWh_per_batch} kWh a batch from {network}, at most {power_kW} kW at a time, within {lasts_h} hours from {opens_h} o’clock.",
  "loads/cooling": "{name} needs cold at {coldSupply_C} °C: [cold_kW in kW].",
  collectors:
    "{name} gives heat up to {highestOutlet_C} °C. Its mirrors are {cleanliness} clean, lose {ageing_per_year} of their optical efficiency with each year of film age, and stow above {storm/stowWind_m_s} m/s of wind.",
  stores:
    "{name} holds {medium} between {cold_C} °C and {hot_C} °C and loses {standingLoss_per_day} of its content a day.",
  stepDowns:
    "Heat may pass from {from} down to {to} where at least {approach_K} K lie between them, with an efficiency of {efficiency}.",
  chillers: "{name} turns heat from {network} into cold for {load}: {cop} kWh of cold from a kWh of heat.",
  backups:
    "{name} heats {network} with {fuel/kind} at {fuel/price_per_kWh} §currency a kWh in the first year, at an efficiency of {efficiency}.",
  electricity:
    "Electricity costs {price_per_kWh} §currency a kWh in the first year; its price rises by {escalation_per_year} a year in real terms.",
  money:
    "Money is counted in {currency} over {years} years, at a real discount rate of {realDiscountRate}. A tonne of CO₂ costs {carbonPrice_per_t} §currency in the first year.",
  limits:
    "Collectors may take {land_m2} m² of land; new plant may cost {budget} §currency at first; solar must cover at least {leastSolarFraction} of the heat. An empty place is no limit.",
  chosenPoint:
    "Compare with a total aperture of {aperture_m2} m² and {storePerAperture_kWh_m2} kWh of store for each m². Leave both empty to compare nothing.",
};

/** How an hourly profile is given, within its load's sentence. */
const profileWords = {
  constant: "{level} §unit in every hour",
  calendar: "{level} §unit at share 1 of the calendar {calendar}",
  bills: "by bills in {unit}, on the days of the calendar {calendar}",
  file: "hour by hour from the file {file}, in §unit",
} as const;

/** Puts the words of a load's profile in place of `[property in unit]`. */
function withProfile(template: string, study: Study, path: string): string {
  return template.replace(/\[(\w+) in ([^\]]+)\]/, (_whole, property: string, unit: string) => {
    const load = study.loads[Number(path.split("/")[1])] as Record<string, unknown> | undefined;
    const from = (load?.[property] as { from?: keyof typeof profileWords } | undefined)?.from ?? "constant";
    return profileWords[from].replaceAll("§unit", unit).replace(/\{(\w+)\}/g, `{${property}/$1}`);
  });
}

/** The sentence of a thing with its inputs in place. `path` is the thing's own, empty for the study's head. */
export function proseFor(context: FormContext, key: string, path: string): Segment[] {
  const template = sentences[key];
  if (template === undefined) return [];
  const segments: Segment[] = [];
  const sentence = withProfile(template, context.study, path);
  for (const part of sentence.replaceAll("§currency", context.study.money.currency).split(/(\{[^}]+\})/)) {
    if (!part.startsWith("{")) {
      if (part !== "") segments.push({ words: part });
      continue;
    }
    const name = part.slice(1, -1);
    const input = buildInput(context, path === "" ? name : `${path}/${name}`);
    if (input !== null) segments.push({ input });
  }
  return segments;
}

/** Which sentence an item of a list takes. */
export function proseKey(study: Study, list: ItemList, index: number): string {
  return list === "loads" ? `loads/${study.loads[index]?.kind}` : list;
}
