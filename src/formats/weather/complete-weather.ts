import { standardPressure_Pa } from "../../core/air/psychrometrics.ts";
import type { Problem } from "../../core/problem.ts";
import type { Site } from "../../core/study/schema/study.ts";
import { decomposeGlobal } from "../../core/sun/decompose-global.ts";
import type { SunYear } from "../../core/sun/sun-year.ts";
import type { DiffuseModel, WeatherYear } from "../../core/weather.ts";
import { deriveDhi } from "./derive-dhi.ts";
import { deriveDni } from "./derive-dni.ts";
import { fillShortGaps } from "./fill-short-gaps.ts";
import { splitFindings } from "./split-findings.ts";
import { rowsInWords, weatherProblem } from "./weather-problems.ts";
import { quantityNames, type WeatherColumn, type WeatherQuantity, type WeatherRows } from "./weather-rows.ts";

export interface CompletedWeather {
  readonly weather: WeatherYear;
  /** DNI follows from GHI and DHI, so the three cannot disagree. */
  readonly dniDerived: boolean;
  readonly problems: readonly Problem[];
  readonly findings: readonly Problem[];
}

/** Pyranometers read a little below zero at night (thermal offset); common practice, no source. */
const smallNegative_W_m2 = -5;
const light = ["ghi", "dni", "dhi"] as const;

export interface CompleteOptions {
  readonly file: string;
  readonly site: Site;
  readonly sun: SunYear;
  /** What splits global light where it is all that is known; Erbs where left out. */
  readonly diffuseBy?: DiffuseModel;
}

/** Puts the columns on the study's hours and mends what may be mended, saying so; the rest is told as faults. */
export function completeWeather(
  read: WeatherRows,
  rowOf: Int32Array,
  { file, site, sun, diffuseBy }: CompleteOptions,
): CompletedWeather {
  const rows = withoutEmptyLight(read);
  const problems: Problem[] = [];
  const findings: Problem[] = [];
  const tell = (
    list: Problem[],
    code: Parameters<typeof weatherProblem>[1],
    message: string,
    hours: readonly number[],
    column?: string,
  ) => {
    const rowsOf = hours.filter((hour) => rowOf[hour]! >= 0).map((hour) => rows.line[rowOf[hour]!]!);
    const row = rowsOf[0];
    list.push(
      weatherProblem(file, code, message.replace("{rows}", rowsOf.length === 0 ? "" : rowsInWords(rowsOf)), {
        ...(row === undefined ? {} : { row }),
        ...(column === undefined ? {} : { column }),
      }),
    );
  };
  const series = (quantity: WeatherQuantity) => {
    const column = rows.columns[quantity];
    return Float64Array.from(rowOf, (i) => (i < 0 || column === undefined ? Number.NaN : column.values[i]!));
  };
  /** Missing values in hours that have a row; hours without a row are told elsewhere. */
  const lacks = (values: Float64Array) =>
    Array.from(values.keys()).filter((hour) => Number.isNaN(values[hour]) && rowOf[hour]! >= 0);

  const required = (quantity: "ghi" | "dni" | "dhi" | "ambient" | "wind"): Float64Array => {
    const title = rows.columns[quantity]?.title;
    const values = series(quantity);
    if (title === undefined) return values;
    const isLight = (light as readonly string[]).includes(quantity);
    if (isLight) {
      const negative: number[] = [];
      const dark: number[] = [];
      for (let hour = 0; hour < values.length; hour += 1) {
        const value = values[hour]!;
        if (value < 0 && value >= smallNegative_W_m2) {
          negative.push(hour);
          values[hour] = 0;
        } else if (Number.isNaN(value) && rowOf[hour]! >= 0 && sun.sunlitShare[hour] === 0) {
          dark.push(hour);
          values[hour] = 0;
        }
      }
      if (negative.length > 0)
        tell(
          findings,
          "WEATHER_SMALL_NEGATIVE",
          `Values between ${smallNegative_W_m2} and 0 W/m² {rows} were taken as 0.`,
          negative,
          title,
        );
      if (dark.length > 0)
        tell(
          findings,
          "WEATHER_FILLED",
          "Missing values {rows}, with the sun down, were taken as 0.",
          dark,
          title,
        );
    }
    const missing = lacks(values);
    if (missing.length === 0) return values;
    const filled = fillShortGaps(values);
    const bridged = filled.filledHours.filter((hour) => rowOf[hour]! >= 0);
    const open = filled.missingHours.filter((hour) => rowOf[hour]! >= 0).sort((a, b) => a - b);
    if (bridged.length > 0)
      tell(
        findings,
        "WEATHER_FILLED",
        `Missing values {rows} were filled by straight lines over up to 3 hours.`,
        bridged,
        title,
      );
    if (open.length > 0)
      tell(
        problems,
        "WEATHER_VALUE_MISSING",
        `The ${quantityNames[quantity]} is missing for more than 3 hours running {rows}; longer gaps are not filled.`,
        open,
        title,
      );
    return filled.values;
  };

  const ghi = required("ghi");
  const onlyGlobal =
    rows.columns.ghi !== undefined && rows.columns.dni === undefined && rows.columns.dhi === undefined;
  const split = onlyGlobal ? decomposeGlobal(ghi, sun, site, diffuseBy ?? "erbs") : null;
  const dniDerived = rows.columns.dni === undefined;
  const dhiDerived = rows.columns.dhi === undefined && rows.columns.ghi !== undefined && !dniDerived;
  const measured = dhiDerived ? required("dni") : null;
  const rest = measured === null ? null : deriveDhi(ghi, measured, sun);
  const dhi = split?.dhi_W_m2 ?? rest?.dhi_W_m2 ?? required("dhi");
  const dni = split?.dni_W_m2 ?? measured ?? (dniDerived ? deriveDni(ghi, dhi, sun) : required("dni"));
  if (rest !== null) {
    const { negativeHours: below, least_W_m2 } = rest;
    const negative =
      below.length === 0
        ? ""
        : ` It came out below 0 {rows}, down to ${least_W_m2.toFixed(1)} W/m², and was taken as 0 there.`;
    tell(
      findings,
      "WEATHER_DHI_DERIVED",
      `Diffuse radiation was computed as GHI − DNI·cos θz, the sun at the middle of the hour's sunlit part; errors of both fall on it.${negative}`,
      below,
    );
  }
  // A file that this program wrote after such an estimate says so.
  const beamEstimatedBy = split === null ? rows.beamEstimatedBy : (diffuseBy ?? "erbs");
  findings.push(...splitFindings(file, dni, { beamEstimatedBy, diffuseBy, isBefore: split === null }));
  if (dniDerived && rows.columns.ghi !== undefined && rows.columns.dhi !== undefined)
    findings.push(
      weatherProblem(
        file,
        "WEATHER_DNI_DERIVED",
        "Direct normal radiation was computed as (GHI − DHI) / cos θz; near sunrise and sunset, with the sun below 3°, it was taken as 0.",
      ),
    );
  const ambient = required("ambient");
  const wind = required("wind");

  const humidity = fillShortGaps(series("humidity")).values;
  const humidMissing = lacks(humidity);
  if (humidMissing.length > 0)
    tell(
      findings,
      "WEATHER_HUMIDITY_MISSING",
      "Relative humidity is missing {rows}; a dryer with outside air cannot be computed for these hours.",
      humidMissing,
    );
  const above = Array.from(humidity.keys()).filter((hour) => humidity[hour]! > 1 && humidity[hour]! <= 1.1);
  for (const hour of above) humidity[hour] = 1;
  if (above.length > 0)
    tell(
      findings,
      "WEATHER_HUMIDITY_ABOVE",
      "Relative humidity of up to 110 % {rows} was taken as 100 %.",
      above,
    );

  const pressure = series("pressure");
  const pressureMissing = lacks(pressure);
  const standard_Pa = Math.round(standardPressure_Pa(site.elevation_m));
  for (const hour of pressureMissing) pressure[hour] = standard_Pa;
  if (pressureMissing.length > 0)
    tell(
      findings,
      "WEATHER_PRESSURE_MISSING",
      `Pressure is missing {rows}; the standard atmosphere at ${site.elevation_m} m, ${standard_Pa} Pa, was taken.`,
      pressureMissing,
    );

  const weather: WeatherYear = {
    description: rows.description,
    ghi_W_m2: ghi,
    dni_W_m2: dni,
    dhi_W_m2: dhi,
    ambient_C: ambient,
    humidity_share: humidity,
    wind_m_s: wind,
    pressure_Pa: pressure,
    station: rows.station,
    ...(beamEstimatedBy === undefined ? {} : { beamEstimatedBy }),
    ...(rows.madeFrom === undefined ? {} : { madeFrom: rows.madeFrom }),
  };
  return { weather, dniDerived, problems, findings };
}

/** A column of beam or diffuse that holds no value at all is a column that is not there. */
function withoutEmptyLight(rows: WeatherRows): WeatherRows {
  const { dni, dhi, ...others } = rows.columns;
  const isEmpty = (column: WeatherColumn | undefined) => column?.values.every(Number.isNaN) ?? true;
  if (others.ghi === undefined || isEmpty(others.ghi)) return rows;
  const kept = {
    ...(dni === undefined || isEmpty(dni) ? {} : { dni }),
    ...(dhi === undefined || isEmpty(dhi) ? {} : { dhi }),
  };
  return { ...rows, columns: { ...others, ...kept } };
}
