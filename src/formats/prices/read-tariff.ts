import type { StudyCalendar } from "../../core/calendar.ts";
import type { Problem } from "../../core/problem.ts";
import { hoursPerYear } from "../../core/series.ts";
import type { TariffProblemCode } from "./tariff-problems.ts";

export interface TariffAccount {
  readonly problems: readonly Problem[];
  /** What was read of it and is not counted, in sentences. */
  readonly findings: readonly Problem[];
  /** 8760 prices per kWh in the tariff's own currency; null where it is refused. */
  readonly hourly: Float64Array | null;
}

type Loose = Record<string, unknown>;

/**
 * Hourly prices of an electricity tariff in the form in which utility rates are published as open data: a
 * JSON object, or a list of one under `items`, with `energyratestructure` (periods, each a list of tiers
 * with `rate` and `adj` per kWh) and `energyweekdayschedule` and `energyweekendschedule` (12 months by 24
 * hours, the number of a period). Hours are those of the factory's clock, weekends Saturday and Sunday; the
 * first tier counts for every kWh. Demand, fixed, reactive and minimum charges are told and not counted.
 * All faults at once; never throws for any bytes.
 */
export function readTariff(text: string, file: string, clock: StudyCalendar): TariffAccount {
  const problems: Problem[] = [];
  const fault = (code: TariffProblemCode, message: string, path?: string) =>
    problems.push({ code, message, place: path === undefined ? { file } : { file, path } });
  const tariff = oneTariff(text, (message) => fault("TARIFF_JSON", message));
  if (tariff === null) return { problems, findings: [], hourly: null };

  const rates = periodRates(tariff.energyratestructure, (message, path) =>
    fault("TARIFF_RATES", message, path),
  );
  const [weekday, weekend] = (["energyweekdayschedule", "energyweekendschedule"] as const).map((name) =>
    schedule(tariff[name], name, rates?.length ?? 0, (message, path) =>
      fault("TARIFF_SCHEDULE", message, path),
    ),
  );
  if (problems.length > 0 || rates === null || weekday == null || weekend == null)
    return { problems, findings: [], hourly: null };
  const hourly = Float64Array.from({ length: hoursPerYear }, (_, t) => {
    const months = clock.civilWeekday[t]! >= 6 ? weekend : weekday;
    return rates[months[clock.civilMonth[t]! - 1]![clock.civilHour[t]!]!]!;
  });
  return { problems, findings: notCounted(tariff, file), hourly };
}

/** True where the bytes of a price file begin as JSON does. */
export function looksLikeTariff(bytes: Uint8Array): boolean {
  const start = new TextDecoder()
    .decode(bytes.subarray(0, 200))
    .replace(/^\uFEFF/, "")
    .trimStart();
  return start.startsWith("{") || start.startsWith("[");
}

function oneTariff(text: string, fault: (message: string) => void): Loose | null {
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch {
    fault("The file begins like JSON and is not; a tariff's JSON is needed.");
    return null;
  }
  const list = Array.isArray(value)
    ? value
    : isObject(value) && Array.isArray(value.items)
      ? value.items
      : [value];
  if (list.length !== 1) {
    fault(`The file holds ${list.length} tariffs; give one.`);
    return null;
  }
  if (isObject(list[0])) return list[0];
  fault("The file holds no tariff; an object with energyratestructure is needed.");
  return null;
}

function periodRates(value: unknown, fault: (message: string, path: string) => void): number[] | null {
  if (!Array.isArray(value) || value.length === 0) {
    fault("There are no rates per kWh; a list of periods is needed.", "energyratestructure");
    return null;
  }
  return value.map((tiers: unknown, period) => {
    const first: unknown = Array.isArray(tiers) ? tiers[0] : undefined;
    const rate = isObject(first) ? first.rate : undefined;
    const adjustment = isObject(first) ? (first.adj ?? 0) : 0;
    if (typeof rate === "number" && typeof adjustment === "number") return rate + adjustment;
    fault(
      `Period ${period} has no rate; a number per kWh is needed.`,
      `energyratestructure/${period}/0/rate`,
    );
    return Number.NaN;
  });
}

function schedule(
  value: unknown,
  name: string,
  periods: number,
  fault: (message: string, path: string) => void,
): number[][] | null {
  if (!Array.isArray(value) || value.length !== 12) {
    fault(`It has ${Array.isArray(value) ? value.length : "no"} months; 12 lists of 24 are needed.`, name);
    return null;
  }
  return value.map((hours: unknown, month) => {
    if (!Array.isArray(hours) || hours.length !== 24) {
      fault(
        `Month ${month + 1} has ${Array.isArray(hours) ? hours.length : "no"} hours; 24 are needed.`,
        `${name}/${month}`,
      );
      return [];
    }
    const odd = hours.findIndex(
      (period) => !Number.isInteger(period) || period < 0 || (periods > 0 && period >= periods),
    );
    if (odd >= 0)
      fault(
        `Hour ${odd} of month ${month + 1} has the period ${JSON.stringify(hours[odd])}; 0 to ${Math.max(0, periods - 1)} are there.`,
        `${name}/${month}/${odd}`,
      );
    return hours as number[];
  });
}

function notCounted(tariff: Loose, file: string): Problem[] {
  const parts = [
    ...rangeOf(tariff.demandratestructure, "demand charges by period of", "a kW and month"),
    ...rangeOf(tariff.flatdemandstructure, "a demand charge of", "a kW and month"),
    ...single(tariff.demandreactivepowercharge, "a charge for reactive power of", "a kVAr"),
    ...["fixedchargefirstmeter", "fixedmonthlycharge"].flatMap((name) =>
      single(tariff[name], "a fixed charge of", String(tariff.fixedchargeunits ?? "a month")),
    ),
    ...["mincharge", "minmonthlycharge"].flatMap((name) =>
      single(tariff[name], "a minimum bill of", "a month"),
    ),
    ...(Array.isArray(tariff.energyratestructure) &&
    tariff.energyratestructure.some((tiers) => Array.isArray(tiers) && tiers.length > 1)
      ? ["further tiers of energy, of which the first stands for all"]
      : []),
  ];
  const name = typeof tariff.name === "string" ? ` "${tariff.name.slice(0, 100)}"` : "";
  const counted = `Of the tariff${name} the energy rates are taken, in the study's currency, as they stand`;
  return [
    {
      code: "TARIFF_NOT_COUNTED" satisfies TariffProblemCode,
      message:
        parts.length === 0
          ? `${counted}; it names no other charge.`
          : `${counted}. Read and not counted: ${parts.join("; ")}. A demand charge makes power at peak hours dearer than the rates say.`,
      place: { file },
    },
  ];
}

function rangeOf(value: unknown, words: string, per: string): string[] {
  const rates = (Array.isArray(value) ? value : []).flatMap((tiers: unknown) =>
    (Array.isArray(tiers) ? tiers : []).flatMap((tier: unknown) =>
      isObject(tier) && typeof tier.rate === "number" ? [tier.rate] : [],
    ),
  );
  const most = Math.max(0, ...rates);
  if (!(most > 0)) return [];
  const least = Math.min(...rates);
  return [`${words} ${least === most ? most : `${least} to ${most}`} ${per}`];
}

function single(value: unknown, words: string, per: string): string[] {
  return typeof value === "number" && value > 0 ? [`${words} ${value} ${per}`] : [];
}

function isObject(value: unknown): value is Loose {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
