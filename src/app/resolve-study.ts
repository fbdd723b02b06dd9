import type { StudyCalendar } from "../core/calendar.ts";
import { studyCalendar } from "../core/calendar.ts";
import { chillerRunRemarks } from "../core/cooling/chiller-run-remarks.ts";
import type { BilledQuantity } from "../core/demand/bills/bill-amount.ts";
import { billFindings, billHourFaults } from "../core/demand/bills/bill-findings.ts";
import { type BillYear, billYear } from "../core/demand/bills/bill-year.ts";
import { profileHours } from "../core/demand/calendar-profile.ts";
import { calendarShares } from "../core/demand/calendar-shares.ts";
import { chillerRemarks } from "../core/demand/chiller-remarks.ts";
import { checkLoad } from "../core/demand/loads/check-load.ts";
import type { LoadInputs } from "../core/demand/loads/load-inputs.ts";
import { type LoadProfile, loadProfile } from "../core/demand/loads/load-profile.ts";
import { nameplateRemarks } from "../core/demand/loads/nameplate-remarks.ts";
import { resolveLoad } from "../core/demand/loads/resolve-load.ts";
import type { ResolvedLoad } from "../core/demand/resolved-load.ts";
import { checkFuel } from "../core/economics/fuel-terms.ts";
import { found, type Outcome, type Problem, refused } from "../core/problem.ts";
import { constantYear, hoursPerYear } from "../core/series.ts";
import { checkStore } from "../core/storage/store-capacity.ts";
import { checkStudy, studyRemarks } from "../core/study/check-study.ts";
import { frostRemarks } from "../core/study/checks/frost-remarks.ts";
import { backupLimitFaults, coldStoreLimitFaults } from "../core/study/checks/plant.ts";
import type { BillsProfile, Load, Study } from "../core/study/schema/study.ts";
import type { Question } from "../formats/demand/account.ts";
import { readDemand } from "../formats/demand/read-demand.ts";
import { readPrices } from "../formats/prices/read-prices.ts";
import { readWeather } from "../formats/weather/read-weather.ts";
import { weatherOptions } from "../formats/weather/weather-options.ts";
import type { ResolvedStudy, StudyBundle } from "./types.ts";

export const resolveProblems = {
  STUDY_FILE_MISSING: "The study names a file that is not there.",
} as const;

/**
 * Reads every file of a study and turns its loads into hours. All faults of the study and of all its
 * files are told at once; the hours exist only when there is none.
 */
export function resolveStudy(bundle: StudyBundle): Outcome<ResolvedStudy> {
  const { study } = bundle;
  const faults: Problem[] = checkStudy(study);
  // Without a sound site there is no calendar to read files by.
  if (faults.length > 0) return refused(faults);
  const findings: Problem[] = studyRemarks(study);
  const calendar = studyCalendar(study.site);
  const bytesOf = (file: string, path: string): Uint8Array | null => {
    const bytes = bundle.files.get(file);
    if (bytes !== undefined) return bytes;
    faults.push({
      code: "STUDY_FILE_MISSING",
      message: `The study names the file "${file}", which is not there; give a file that exists beside the study.`,
      place: { path },
    });
    return null;
  };

  const weatherBytes = bytesOf(study.weather.file, "weather/file");
  const weather =
    weatherBytes === null
      ? null
      : readWeather(weatherBytes, {
          ...weatherOptions(study, study.weather.file),
          ...(study.weather.format === undefined ? {} : { format: study.weather.format }),
        });
  if (weather !== null) {
    if (weather.ok) findings.push(...weather.findings, ...frostRemarks(study, weather.value));
    else faults.push(...weather.problems);
  }

  const billYears: Record<string, BillYear> = {};
  const billed = (load: Load, profile: BillsProfile, quantity: BilledQuantity, path: string) => {
    if (weather === null || !weather.ok) return null;
    const calendarOf = study.calendars.find(({ id }) => id === profile.calendar)!;
    const year = billYear(profile, quantity, {
      clock: calendar,
      shares: calendarShares(calendarOf, calendar),
      ambient_C: weather.value.ambient_C,
    });
    faults.push(...billHourFaults(profile, year, path));
    findings.push(...billFindings(load, profile, quantity, year, path));
    billYears[load.id] = year;
    return year.hourly;
  };
  const rates = (load: Load, { rate: profile, quantity }: LoadProfile, path: string): Float64Array | null => {
    if (profile.from === "bills") return billed(load, profile, quantity, path);
    if (profile.from !== "file") return profileHours(profile, study.calendars, calendar);
    const bytes = bytesOf(profile.file, `${path}/file`);
    if (bytes === null) return null;
    const account = readDemand(bytes, {
      file: profile.file,
      reading: profile.reading ?? {},
      calendar,
      calendars: study.calendars,
      quantity,
    });
    faults.push(...account.problems);
    findings.push(...account.questions.map((question) => openQuestion(question, profile.file)));
    findings.push(
      ...account.quality.findings.map((finding) => ({
        code: `DEMAND_${finding.kind.toUpperCase().replaceAll("-", "_")}`,
        message: finding.sentence,
        place: { file: profile.file },
      })),
    );
    return account.hourly;
  };

  const loads = study.loads.map((load, i): ResolvedLoad | null => {
    const path = `loads/${i}`;
    const profile = loadProfile(load);
    const hours = profile === null ? null : rates(load, profile, `${path}/${profile.property}`);
    if (weather === null || !weather.ok || (profile !== null && hours === null)) return null;
    return resolveOne(load, hours, path, { study, calendar, weather: weather.value, faults, findings });
  });

  study.backups.forEach((backup, i) => {
    faults.push(...checkFuel(backup.fuel, backup.efficiency, `backups/${i}`));
  });
  study.stores.forEach((store, i) => {
    faults.push(...checkStore(store, `stores/${i}`));
  });
  study.chillers.forEach((chiller, i) => {
    const load = study.loads.find(({ id }) => id === chiller.load);
    if (load?.kind !== "cooling") return;
    const path = `chillers/${i}`;
    findings.push(...chillerRemarks(chiller, path, load.coldSupply_C));
    if (weather?.ok) findings.push(...chillerRunRemarks(chiller, load.coldSupply_C, weather.value, path));
  });
  const priceHours = (price: Priced, path: string) =>
    hourlyPrice(price, calendar, (file) => {
      const bytes = bytesOf(file, `${path}/priceFile`);
      if (bytes === null) return null;
      const account = readPrices(bytes, file, calendar);
      faults.push(...account.problems);
      findings.push(...account.findings);
      findings.push(...account.questions.map((question) => openQuestion(question, file)));
      return account.hourly;
    });
  const electricityPrice_per_kWh = priceHours(study.electricity, "electricity");
  if (electricityPrice_per_kWh !== null && study.electricity.priceFile !== undefined)
    faults.push(...coldStoreLimitFaults(study.stores, least(electricityPrice_per_kWh)));
  const fuelPrices = study.backups.map((backup, i) => {
    const hourly = priceHours(backup.fuel, `backups/${i}/fuel`);
    if (hourly !== null && backup.fuel.priceFile !== undefined)
      faults.push(...backupLimitFaults(backup, least(hourly), i));
    return hourly;
  });

  if (faults.length > 0 || weather === null || !weather.ok || electricityPrice_per_kWh === null)
    return refused(faults);
  return found(
    {
      study,
      calendar,
      weather: weather.value,
      loads: loads.filter((load) => load !== null),
      billYears,
      electricityPrice_per_kWh,
      fuelPrices_per_kWh: fuelPrices.filter((hourly) => hourly !== null),
      findings,
    },
    findings,
  );
}

/** What a file leaves open, and what is taken until the study's reading says it. */
function openQuestion({ code, sentence, field, choices, taken }: Question, file: string): Problem {
  const meaning = choices.find(({ value }) => value === taken)?.sentence ?? taken;
  return {
    code,
    message: `${sentence} Taken meanwhile: ${meaning} (say it by "${field}" in the study's reading of the file).`,
    place: { file },
  };
}

/** Remarks on a load that do not keep it from being computed. */
const loadRemarkCodes = new Set(["LOAD_NETWORK_TOO_COLD", "LOAD_WATER_CAPACITY", "LOAD_BATCH_POWER"]);

function resolveOne(
  load: Load,
  profile: Float64Array | null,
  path: string,
  shared: {
    readonly study: Study;
    readonly calendar: StudyCalendar;
    readonly weather: LoadInputs["weather"];
    readonly faults: Problem[];
    readonly findings: Problem[];
  },
): ResolvedLoad | null {
  const { study, calendar, weather } = shared;
  const network =
    load.kind === "cooling" ? null : (study.networks.find(({ id }) => id === load.network) ?? null);
  const inputs: LoadInputs = { profile, network, calendar, weather, elevation_m: study.site.elevation_m };
  const problems = checkLoad(load, inputs, path);
  const stopping = problems.filter(
    ({ code }) => code === "LOAD_NETWORK_TOO_COLD" || !loadRemarkCodes.has(code),
  );
  shared.faults.push(...stopping);
  shared.findings.push(...problems.filter((problem) => !stopping.includes(problem)));
  if (stopping.length > 0) return null;
  const resolved = resolveLoad(load, inputs);
  shared.findings.push(...nameplateRemarks(load, resolved, path));
  return resolved;
}

const least = (series: Float64Array) => series.reduce((low, value) => Math.min(low, value), Infinity);

/** What electricity and fuels have in common: one price, factors by the hour of the day, or a file. */
type Priced = Pick<Study["electricity"], "price_per_kWh" | "hourFactors" | "monthFactors" | "priceFile">;

function hourlyPrice(
  { price_per_kWh, hourFactors, monthFactors, priceFile }: Priced,
  calendar: StudyCalendar,
  read: (file: string) => Float64Array | null,
): Float64Array | null {
  if (priceFile !== undefined) return read(priceFile);
  if (hourFactors === undefined && monthFactors === undefined) return constantYear(price_per_kWh);
  return Float64Array.from(
    { length: hoursPerYear },
    (_, t) =>
      price_per_kWh *
      (hourFactors?.[calendar.civilHour[t]] ?? 1) *
      (monthFactors?.[calendar.civilMonth[t] - 1] ?? 1),
  );
}
