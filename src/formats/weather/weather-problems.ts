import type { Problem } from "../../core/problem.ts";

/** Faults for which a weather file is refused, and findings about one that is read. */
export const weatherProblems = {
  WEATHER_NOT_TEXT: "a weather file must be text in UTF-8, UTF-16 or Latin-1",
  WEATHER_FORMAT_UNKNOWN: "a weather file must be EPW, TMY3 CSV or a plain CSV with named columns",
  WEATHER_QUOTE_OPEN: "a quotation mark that is opened must be closed",
  WEATHER_HEADER: "the head of the file must say what its format asks for",
  WEATHER_ROW_WIDTH: "a row must hold the columns that are read",
  WEATHER_COLUMN_MISSING: "a column that is needed must be there",
  WEATHER_COLUMN_DOUBLE: "a quantity may have one column only",
  WEATHER_COLUMN_UNIT: "a column of a known quantity must name a unit that can be read",
  WEATHER_TIME: "each row must carry a month, day and hour",
  WEATHER_LABELS: "it must be clear whether times mark the start or the end of their hour",
  WEATHER_YEARS: "of a file that holds several years the study must name the one to take",
  WEATHER_STEP: "a weather file must have one row an hour",
  WEATHER_HOUR_MISSING: "each of the 8760 hours must have a row",
  WEATHER_HOUR_DOUBLE: "no hour may have two rows",
  WEATHER_NUMBER: "a cell that is read must hold a number or the format's sign for a missing value",
  WEATHER_VALUE_MISSING: "radiation, temperature and wind may be missing for three hours running at most",
  WEATHER_IMPOSSIBLE: "a value must be physically possible",
  WEATHER_NO_LIGHT: "the year must have sunshine",
  WEATHER_NIGHT_LIGHT: "no radiation can be there while the sun is down",
  WEATHER_CLOCK_SHIFT: "the day's radiation must be centred on solar noon",
  WEATHER_CLOSURE:
    "global radiation must agree with diffuse plus direct times the cosine of the zenith angle",
  WEATHER_OFFSET: "the station's UTC offset may differ from the site's by whole hours only",
  WEATHER_LEAP_DAY: "29 February is left out of a study year",
  WEATHER_ORDER: "rows were put in the order of the year",
  WEATHER_COLUMNS_IGNORED: "columns that are not used were left unread",
  WEATHER_LABELS_READ: "how the times of a plain CSV were understood",
  WEATHER_FILLED: "short gaps were filled by straight lines",
  WEATHER_SMALL_NEGATIVE: "small negative radiation was taken as zero",
  WEATHER_PRESSURE_MISSING: "missing pressure was taken from the standard atmosphere",
  WEATHER_HUMIDITY_MISSING: "humidity is missing",
  WEATHER_HUMIDITY_ABOVE: "humidity slightly above 100 % was taken as 100 %",
  WEATHER_DNI_DERIVED: "direct normal radiation was computed from global and diffuse",
  WEATHER_DHI_DERIVED: "diffuse radiation was computed from global and direct",
  WEATHER_ABOVE_CLEAR: "beam should not lie above that of a cloudless sky of very clear air",
  WEATHER_MADE_UP: "the weather was made from monthly means or is a cloudless year",
  WEATHER_SPLIT: "beam and diffuse were estimated from global radiation alone",
  WEATHER_SPLIT_BEFORE: "the file was written with beam and diffuse that had been estimated",
  WEATHER_SPLIT_NOT_NEEDED: "a way to split global radiation is chosen, and the file holds beam or diffuse",
  WEATHER_STATION_FAR: "the station must lie near the site, or as far as the study accepts",
  WEATHER_PLACE_TURNED: "site and station must not differ by a sign or a swap of latitude and longitude",
  WEATHER_STUCK: "wind does not stand still for days",
  WEATHER_WIND_UNIT: "the year's wind must be plausible at 10 m, or its unit is another",
  WEATHER_DARK_DAY: "a day on which the sun rises has light",
  WEATHER_SEASON: "the light's summer must be the site's",
  WEATHER_CLOCK_SEASONS: "the file's clock must be the same in summer and winter",
} as const;
export type WeatherProblemCode = keyof typeof weatherProblems;

export interface WeatherPlace {
  readonly row?: number;
  readonly column?: string;
}

/** One sentence about the file. */
export function weatherProblem(
  file: string,
  code: WeatherProblemCode,
  message: string,
  place: WeatherPlace = {},
): Problem {
  return { code, message, place: { file, ...place } };
}

/** "once" for one row, else how many and which; long lists are cut. */
export function rowsInWords(rows: readonly number[]): string {
  if (rows.length === 1) return `in row ${rows[0]}`;
  const shown = [...rows].sort((a, b) => a - b);
  const head = shown.slice(0, 5).join(", ");
  return `in ${rows.length} rows (${head}${shown.length > 5 ? `, … ${shown.at(-1)}` : ""})`;
}
