import { gunzipSync, gzipSync } from "node:zlib";
import type { StudyCalendar } from "../core/calendar.ts";
import { ModelError } from "../core/errors.ts";
import { found, type Outcome, type Problem, refused } from "../core/problem.ts";
import type { DemandReading, Future, Load, Profile, Study } from "../core/study/schema/study.ts";
import { weatherIn } from "../core/study/weather-in.ts";
import type { WeatherYear } from "../core/weather.ts";
import type { DemandQuantity } from "./demand/account.ts";
import type { DemandUnit } from "./demand/find-unit.ts";
import { readDemand } from "./demand/read-demand.ts";
import { canonicalReading, writeHourlyCsv } from "./demand/write-hourly-csv.ts";
import { readPrices } from "./prices/read-prices.ts";
import { readStudyJson } from "./study-json.ts";
import { readWeather } from "./weather/read-weather.ts";
import { weatherOptions } from "./weather/weather-options.ts";
import { writePlainWeather } from "./weather/write-plain-weather.ts";

export const summaryStudyProblems = {
  SUMMARY_STUDY_MISSING: "The HTML file holds no study.",
  SUMMARY_STUDY_DAMAGED: "The study inside the HTML file was changed or cut and cannot be read.",
  SUMMARY_STUDY_TOO_LARGE: "The study inside the HTML file is larger than any that this program writes.",
  SUMMARY_STUDY_VERSION:
    "The study inside the HTML file was put there in a way that this version cannot read.",
} as const;
type SummaryStudyProblemCode = keyof typeof summaryStudyProblems;

/** Id and type of the script element that holds the study; browsers do not run this type. */
export const embeddedStudyId = "noonkeep-study";
export const embeddedStudyType = "application/octet-stream;base64";

/** Version of the way in which study and files are wrapped, not of the study. */
const wrappingVersion = 1;
const largestUnpacked_bytes = 64 * 2 ** 20;

/** A study with the bytes of its files, by the names that it uses for them. */
interface StudyFiles {
  readonly study: Study;
  readonly files: ReadonlyMap<string, Uint8Array>;
}

/** What reading the files has come to. */
interface ResolvedFiles {
  readonly weather: WeatherYear;
  readonly calendar: StudyCalendar;
}

/**
 * A study with its files as base64 of gzip of JSON, the same bytes for the same study. Weather and
 * hourly files are rewritten in the program's own plain CSV as they were understood, so that running
 * the study again gives bit-identical hours.
 *
 * @throws ModelError UNKNOWN_ID where a file of the bundle is missing or cannot be read; a resolved study has neither
 */
export function embedStudy(bundle: StudyFiles, resolved: ResolvedFiles): string {
  const { study } = bundle;
  const files: Record<string, string> = {};
  const keep = (file: string, quantity: DemandQuantity, name: string, reading: DemandReading = {}) => {
    const bytes = bundle.files.get(file);
    const { calendar } = resolved;
    const { calendars } = study;
    const read = (given: Uint8Array) =>
      quantity === "price"
        ? readPrices(given, file, calendar)
        : readDemand(given, { file, reading, calendar, calendars, quantity });
    const hourly = bytes === undefined ? null : read(bytes).hourly;
    if (hourly === null) throw new ModelError("UNKNOWN_ID", `the file ${file}, which gives no hours`);
    files[name] = writeHourlyCsv(hourly);
    return name;
  };

  files["weather-year.csv"] = writePlainWeather(onSiteClock(resolved.weather, study));
  const loads = study.loads.map((load): Load => {
    const hourly = hourlyProperty(load);
    if (hourly === null || hourly.profile.from !== "file") return load;
    const { property, unit, quantity, profile } = hourly;
    const name = keep(profile.file, quantity, `load-${load.id}.csv`, profile.reading);
    return { ...load, [property]: { from: "file", file: name, reading: canonicalReading(unit) } } as Load;
  });
  const { priceFile } = study.electricity;
  const electricity =
    priceFile === undefined
      ? study.electricity
      : {
          ...study.electricity,
          priceFile: keep(priceFile, "price", "electricity-price.csv"),
        };
  const backups = study.backups.map((backup) => {
    const { priceFile } = backup.fuel;
    if (priceFile === undefined) return backup;
    const name = keep(priceFile, "price", `fuel-price-${backup.id}.csv`);
    return { ...backup, fuel: { ...backup.fuel, priceFile: name } };
  });
  const futures = study.futures?.map((future) => withWeather(future, bundle, files));
  const wrapped = {
    formatVersion: wrappingVersion,
    study: {
      ...study,
      weather: { ...acceptedFor(study), file: "weather-year.csv", format: "csv" },
      loads,
      backups,
      electricity,
      ...(futures === undefined ? {} : { futures }),
    },
    files,
  };
  const packed = gzipSync(JSON.stringify(wrapped), { level: 9 });
  // The header's tenth byte names the operating system; 255 is "unknown" (RFC 1952, 2.3.1).
  packed[9] = 255;
  return packed.toString("base64");
}

/** What still holds for a file of one year with all its columns. */
function acceptedFor({ weather: { distanceAccepted_km } }: Study): Partial<Study["weather"]> {
  return distanceAccepted_km === undefined ? {} : { distanceAccepted_km };
}

/**
 * A possible year whose weather file is kept among `files`, in the program's own CSV where it can be
 * read. It was not needed for the answer, so a file that cannot be read is kept as it is.
 */
function withWeather(future: Future, bundle: StudyFiles, files: Record<string, string>): Future {
  const { weatherFile, weatherYear, ...rest } = future;
  if (weatherFile === undefined && weatherYear === undefined) return future;
  const { study } = bundle;
  const own = weatherIn(study, future);
  const bytes = bundle.files.get(own.file);
  if (bytes === undefined) return future;
  const weather = readWeather(bytes, weatherOptions({ site: study.site, weather: own }, own.file));
  const name = `weather-${future.id}.csv`;
  files[name] = weather.ok
    ? writePlainWeather(onSiteClock(weather.value, study))
    : new TextDecoder().decode(bytes);
  // The file that was written holds the one year alone.
  return weather.ok ? { ...rest, weatherFile: name } : { ...future, weatherFile: name };
}

/** The study inside a summary that this program wrote: every fault at once, or the study with its files. */
export function extractStudy(
  html: string,
): Outcome<{ study: Study; files: ReadonlyMap<string, Uint8Array> }> {
  const blocks = embeddedBlocks(html);
  if (blocks.length === 0)
    return fault(
      "SUMMARY_STUDY_MISSING",
      `The HTML file holds no study; a summary written by this program holds one in a script element with the id "${embeddedStudyId}".`,
    );
  const base64 = blocks[0]!.replace(/\s+/g, "");
  if (blocks.length > 1 || base64.length % 4 !== 0 || !/^[A-Za-z0-9+/]+={0,2}$/.test(base64))
    return damaged();
  let json: string;
  try {
    const bytes = gunzipSync(Buffer.from(base64, "base64"), { maxOutputLength: largestUnpacked_bytes });
    json = bytes.toString("utf8");
  } catch (error) {
    if ((error as { code?: unknown }).code !== "ERR_BUFFER_TOO_LARGE") return damaged();
    return fault(
      "SUMMARY_STUDY_TOO_LARGE",
      `The study inside the HTML file unpacks to more than ${largestUnpacked_bytes / 2 ** 20} MiB, which is the most that is read.`,
    );
  }
  return unwrapped(json);
}

function unwrapped(json: string): Outcome<StudyFiles> {
  let wrapped: unknown;
  try {
    wrapped = JSON.parse(json);
  } catch {
    return damaged();
  }
  if (!isObject(wrapped)) return damaged();
  if (wrapped.formatVersion !== wrappingVersion)
    return fault(
      "SUMMARY_STUDY_VERSION",
      `The study was put into the HTML file in version ${shortened(wrapped.formatVersion)}; version ${wrappingVersion} can be read.`,
    );
  if (!isObject(wrapped.files) || !isObject(wrapped.study)) return damaged();
  const texts = Object.entries(wrapped.files);
  if (!texts.every((entry): entry is [string, string] => typeof entry[1] === "string")) return damaged();
  const read = readStudyJson(JSON.stringify(wrapped.study), "study inside the HTML file");
  if (!read.ok) return read;
  const encoder = new TextEncoder();
  const files = new Map(texts.map(([name, text]) => [name, encoder.encode(text)]));
  return found({ study: read.value, files }, read.findings);
}

/** What stands between the tags of each element with the study's id. */
function embeddedBlocks(html: string): string[] {
  const blocks: string[] = [];
  const opening = `<script type="${embeddedStudyType}" id="${embeddedStudyId}">`;
  for (let at = html.indexOf(opening); at >= 0; at = html.indexOf(opening, at + 1)) {
    const end = html.indexOf("</script>", at);
    blocks.push(html.slice(at + opening.length, end < 0 ? undefined : end));
  }
  return blocks;
}

/** The rows are on the site's clock, which need not be the station's. */
function onSiteClock(weather: WeatherYear, { site }: Study): WeatherYear {
  if (weather.station === null) return weather;
  return { ...weather, station: { ...weather.station, utcOffset_h: site.utcOffset_h } };
}

interface HourlyProperty {
  readonly property: string;
  readonly profile: Profile;
  readonly unit: DemandUnit;
  readonly quantity: DemandQuantity;
}

function hourlyProperty(load: Load): HourlyProperty | null {
  switch (load.kind) {
    case "process-heat":
      return { property: "heat_kW", profile: load.heat_kW, unit: "kW", quantity: "power" };
    case "cooling":
      return { property: "cold_kW", profile: load.cold_kW, unit: "kW", quantity: "power" };
    case "steam":
      return { property: "flow_kg_h", profile: load.flow_kg_h, unit: "kg/h", quantity: "mass-flow" };
    case "thermal-oil":
      return {
        property: "flow",
        profile: load.flow,
        unit: load.flowIs,
        quantity: load.flowIs === "kg/h" ? "mass-flow" : "volume-flow",
      };
    case "hot-water":
      return { property: "draw_m3_h", profile: load.draw_m3_h, unit: "m3/h", quantity: "volume-flow" };
    case "drying":
      return {
        property: "wetProduct_kg_h",
        profile: load.wetProduct_kg_h,
        unit: "kg/h",
        quantity: "mass-flow",
      };
    case "desalination":
    case "batch-drying":
      return null;
  }
}

function fault<T>(code: SummaryStudyProblemCode, message: string): Outcome<T> {
  const problem: Problem = { code, message, place: {} };
  return refused([problem]);
}

function damaged<T>(): Outcome<T> {
  return fault(
    "SUMMARY_STUDY_DAMAGED",
    "The study inside the HTML file was changed or cut; take the file as the program wrote it, not a copy that was edited.",
  );
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function shortened(value: unknown): string {
  return String(JSON.stringify(value)).slice(0, 40);
}
