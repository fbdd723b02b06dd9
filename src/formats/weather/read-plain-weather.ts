import type { Problem } from "../../core/problem.ts";
import type { Site } from "../../core/study/schema/study.ts";
import type { WeatherMaking, WeatherStation } from "../../core/weather.ts";
import { findDelimiter } from "../demand/find-delimiter.ts";
import { readNumber } from "../demand/read-number.ts";
import { plainColumn, plainUnits } from "./plain-columns.ts";
import { plainTimes } from "./plain-times.ts";
import { pointNumber, readColumn } from "./read-column.ts";
import { splitRows } from "./split-rows.ts";
import { rowsInWords, weatherProblem } from "./weather-problems.ts";
import { quantityNames, type WeatherColumn, type WeatherQuantity, type WeatherRows } from "./weather-rows.ts";

const madeUp: Readonly<Record<WeatherMaking, string>> = {
  "monthly-means":
    "This weather was made from twelve monthly means: its days, storms and frosts never happened. An offer needs measured weather or a typical year of the place.",
  "clear-sky":
    "This weather is a year without a cloud: an upper bound to compare with. Nobody can be offered what it gives.",
};
const missingWords = /^(?:|-+|na|n\/a|nan|null|none|\?)$/i;

/** Plain CSV with a line of titles; lines that begin with # may say `name: value` of the station before it. */
export function readPlainWeather(text: string, file: string, site: Site): WeatherRows {
  const { notes, body } = splitNotes(text);
  const problems: Problem[] = [];
  const findings: Problem[] = [];
  const delimiter = findDelimiter(body) ?? ",";
  const { cells, line: lines, openQuoteAt } = splitRows(body, delimiter);
  if (openQuoteAt !== null)
    problems.push(
      weatherProblem(file, "WEATHER_QUOTE_OPEN", "A quotation mark is opened and never closed.", {
        row: openQuoteAt,
      }),
    );
  const titles = (cells[0] ?? []).map((title) => title.trim());
  const rows = cells.slice(1);
  const line = lines.slice(1);
  const odd = rows.flatMap((row, i) => (row.length === titles.length ? [] : [line[i]!]));
  if (odd.length > 0)
    problems.push(
      weatherProblem(
        file,
        "WEATHER_ROW_WIDTH",
        `The titles name ${titles.length} columns; another number of cells stands ${rowsInWords(odd)}.`,
        { row: odd[0]! },
      ),
    );

  const station = stationOf(notes);
  const clock = { file, utcOffset_h: station?.utcOffset_h ?? site.utcOffset_h };
  const times = plainTimes(titles, rows, line, clock);
  problems.push(...times.problems);
  findings.push(...times.findings);

  const decimal = delimiter !== "," && usesDecimalComma(rows) ? "," : ".";
  const columns: Partial<Record<WeatherQuantity, WeatherColumn>> = {};
  const told = new Set<WeatherQuantity>();
  const ignored: string[] = [];
  titles.forEach((title, place) => {
    if (times.places.includes(place)) return;
    const known = plainColumn(title);
    if (known === null) {
      ignored.push(title);
      return;
    }
    const { quantity, convert } = known;
    if (told.has(quantity))
      problems.push(
        weatherProblem(
          file,
          "WEATHER_COLUMN_DOUBLE",
          `The columns "${columns[quantity]?.title ?? quantity}" and "${title}" both hold ${quantityNames[quantity]}; one is allowed.`,
          { column: title },
        ),
      );
    told.add(quantity);
    if (convert === null) {
      problems.push(
        weatherProblem(
          file,
          "WEATHER_COLUMN_UNIT",
          `The title "${title}" does not name a unit that can be read; ${quantityNames[quantity]} may be in ${plainUnits(quantity)}.`,
          { column: title },
        ),
      );
      return;
    }
    const parse = decimal === "." ? pointNumber : (cell: string) => readNumber(cell, ",");
    const read = readColumn(rows, line, {
      file,
      title,
      place,
      convert,
      isMissing: (cell) => missingWords.test(cell),
      parse,
    });
    columns[quantity] = read.column;
    problems.push(...read.problems);
  });
  problems.push(...missingColumns(file, told));
  if (ignored.length > 0)
    findings.push(
      weatherProblem(
        file,
        "WEATHER_COLUMNS_IGNORED",
        `${ignored.length === 1 ? "The column" : `${ignored.length} columns`} ${ignored
          .slice(0, 8)
          .map((title) => `"${title.slice(0, 40)}"`)
          .join(
            ", ",
          )}${ignored.length > 8 ? " and others" : ""} ${ignored.length === 1 ? "is" : "are"} not used.`,
      ),
    );
  const { month, day, hour, year } = times;
  const description = notes.get("description") ?? `Plain CSV ${file}`;
  const estimated = notes.get("beam_estimated_by");
  const made = notes.get("made_from");
  const madeFrom = made === "monthly-means" || made === "clear-sky" ? made : null;
  if (madeFrom !== null) findings.push(weatherProblem(file, "WEATHER_MADE_UP", madeUp[madeFrom]));
  return {
    ...{ description, station, line, month, day, hour, columns, problems, findings },
    ...(estimated === "erbs" || estimated === "persistence" ? { beamEstimatedBy: estimated } : {}),
    ...(madeFrom === null ? {} : { madeFrom }),
    ...(year === undefined ? {} : { year }),
  };
}

function missingColumns(file: string, told: ReadonlySet<WeatherQuantity>): Problem[] {
  const needed = (["ghi", "dni", "dhi", "ambient", "wind"] as const).filter(
    (quantity) => !told.has(quantity),
  );
  return needed.flatMap((quantity) => {
    // Beam follows from global and diffuse, diffuse from global and beam, and both from global alone.
    if ((quantity === "dni" || quantity === "dhi") && told.has("ghi")) return [];
    return [
      weatherProblem(
        file,
        "WEATHER_COLUMN_MISSING",
        `No column of ${quantityNames[quantity]} was found; it is needed, with a unit in its title (${plainUnits(quantity)}).`,
      ),
    ];
  });
}

/** Notes are blanked, not cut, so that line numbers stay those of the file. */
function splitNotes(text: string): { notes: Map<string, string>; body: string } {
  const notes = new Map<string, string>();
  const body = text.replace(/^#[^\r\n]*/gm, (noteLine) => {
    const match = /^#\s*([A-Za-z_]+)\s*:\s*(.*?)\s*$/.exec(noteLine);
    if (match !== null) notes.set(match[1]!, match[2]!);
    return "";
  });
  return { notes, body };
}

function stationOf(notes: ReadonlyMap<string, string>): WeatherStation | null {
  const figure = (name: string) => pointNumber(notes.get(name) ?? "");
  const station = {
    name: notes.get("station") ?? "",
    latitude_deg: figure("latitude_deg"),
    longitude_deg: figure("longitude_deg"),
    elevation_m: figure("elevation_m"),
    utcOffset_h: figure("utcOffset_h"),
  };
  const { name, ...figures } = station;
  return name !== "" && Object.values(figures).every(Number.isFinite) ? station : null;
}

function usesDecimalComma(rows: readonly (readonly string[])[]): boolean {
  return rows.slice(0, 200).some((row) => row.some((cell) => /^\s*[+-]?\d+,\d+\s*$/.test(cell)));
}
