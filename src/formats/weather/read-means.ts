import { type Outcome, type Problem, refused } from "../../core/problem.ts";
import type { SunSite } from "../../core/sun/sun-year.ts";
import type { MonthlyMeans } from "../../core/sun/synthetic-year.ts";
import { decodeText } from "../demand/decode-text.ts";
import { findDelimiter } from "../demand/find-delimiter.ts";
import { type MeansQuantity, meansOf, meansQuantities, monthNames } from "./means-cells.ts";
import { splitRows } from "./split-rows.ts";

const isQuantity = (name: string): name is MeansQuantity => Object.hasOwn(meansQuantities, name);
const titles = ["month", ...Object.keys(meansQuantities)];

/**
 * Twelve monthly means out of a CSV (a title line, a row for each month) or a JSON object of lists of
 * twelve, under the names of meansQuantities. Lines that begin with # are notes. Every fault at once.
 */
export function readMeans(bytes: Uint8Array, file: string, site: SunSite): Outcome<MonthlyMeans> {
  const text = decodeText(bytes)?.text.replace(/^\ufeff/, "");
  if (text === undefined)
    return refused([fault("MEANS_FILE", "The file is not text; UTF-8 CSV or JSON is allowed.", { file })]);
  return text.trimStart().startsWith("{") ? fromJson(text, file, site) : fromCsv(text, file, site);
}

function fromCsv(text: string, file: string, site: SunSite): Outcome<MonthlyMeans> {
  const body = text.replace(/^#[^\r\n]*/gm, "");
  const { cells, line } = splitRows(body, findDelimiter(body) ?? ",");
  const head = (cells[0] ?? []).map((title) => title.trim());
  const problems: Problem[] = [];
  head.forEach((title, place) => {
    if (!titles.includes(title))
      problems.push(
        fault("MEANS_COLUMN", `The title "${title}" is not known; ${titles.join(", ")} are allowed.`, {
          ...{ file, row: line[0] ?? 1, column: title },
        }),
      );
    else if (head.indexOf(title) !== place)
      problems.push(
        fault("MEANS_COLUMN", `The title "${title}" stands twice; once is allowed.`, { file, column: title }),
      );
  });
  const monthPlace = head.indexOf("month");
  if (monthPlace < 0)
    problems.push(
      fault("MEANS_COLUMN", "No column month was found; it is needed, with 1 to 12 or a name.", { file }),
    );
  const rowOf = new Array<number>(12).fill(-1);
  cells.forEach((row, i) => {
    if (i === 0 || monthPlace < 0) return;
    const said = (row[monthPlace] ?? "").trim();
    const month = monthOf(said);
    const place = { file, row: line[i]!, column: "month" };
    if (month < 0)
      problems.push(
        fault("MEANS_MONTH", `The month is "${said}"; 1 to 12 or an English name is allowed.`, place),
      );
    else if (rowOf[month]! >= 0)
      problems.push(
        fault(
          "MEANS_MONTH",
          `${monthNames[month]} stands in row ${line[rowOf[month]!]} already; one row a month is allowed.`,
          place,
        ),
      );
    else rowOf[month] = i;
  });
  const absent = monthNames.filter((_, month) => rowOf[month]! < 0);
  if (monthPlace >= 0 && absent.length > 0)
    problems.push(
      fault("MEANS_MONTH", `No row was found for ${absent.join(", ")}; each month needs one.`, { file }),
    );
  const present = head.filter(isQuantity);
  const columns = Object.fromEntries(
    present.map((name) => [name, rowOf.map((i) => (i < 0 ? null : (cells[i]![head.indexOf(name)] ?? "")))]),
  );
  const outcome = meansOf(
    {
      cells: columns,
      placeOf: (quantity, month) => ({
        file,
        ...(month === null || rowOf[month]! < 0 ? {} : { row: line[rowOf[month]!]! }),
        column: quantity,
      }),
    },
    site,
  );
  if (problems.length === 0) return outcome;
  return refused([...problems, ...(outcome.ok ? [] : outcome.problems)]);
}

function monthOf(said: string): number {
  const number = /^0?\d{1,2}$/.test(said) ? Number(said) - 1 : -1;
  if (number >= 0 && number < 12) return number;
  const name = said.toLowerCase();
  return name.length < 3 ? -1 : monthNames.findIndex((month) => month.toLowerCase().startsWith(name));
}

function fromJson(text: string, file: string, site: SunSite): Outcome<MonthlyMeans> {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch (error) {
    const reason = error instanceof Error ? error.message : "";
    return refused([fault("MEANS_FILE", `The file is not JSON: ${reason}.`, { file })]);
  }
  const problems: Problem[] = [];
  const cells: Partial<Record<MeansQuantity, string[]>> = {};
  for (const [name, list] of Object.entries(read as Record<string, unknown>)) {
    // The seed is an option of the command; a file that keeps it beside the means may.
    if (name === "seed") continue;
    if (!isQuantity(name))
      problems.push(
        fault("MEANS_COLUMN", `"${name}" is not known; ${titles.slice(1).join(", ")} are allowed.`, {
          file,
          path: name,
        }),
      );
    else if (!Array.isArray(list) || list.length !== 12)
      problems.push(
        fault("MEANS_MONTH", `"${name}" must be a list of 12 numbers, January first.`, { file, path: name }),
      );
    else
      cells[name] = list.map((value) => (typeof value === "number" ? String(value) : JSON.stringify(value)));
  }
  const placeOf = (quantity: MeansQuantity, month: number | null) => ({
    file,
    path: month === null ? quantity : `${quantity}/${month}`,
  });
  const outcome = meansOf({ cells, placeOf }, site);
  if (problems.length === 0) return outcome;
  const named = new Set(problems.map(({ place }) => place.path));
  const others = outcome.ok
    ? []
    : outcome.problems.filter(
        ({ message }) => ![...named].some((name) => message.includes(`column ${name} `)),
      );
  return refused([...problems, ...others]);
}

function fault(code: string, message: string, place: Problem["place"]): Problem {
  return { code, message, place };
}
