import { type CellObject, read, SSF, type WorkBook, type WorkSheet } from "@e965/xlsx";
import { strFromU8, unzipSync, zipSync } from "fflate";
import type { Decimal } from "./read-number.ts";
import { serialColumns } from "./serial-columns.ts";
import type { Records } from "./split-records.ts";

/** One sheet of an xlsx file as text cells; `line` holds the sheet's own row numbers. */
export interface SheetRecords {
  readonly records: Records;
  readonly sheet: string;
  /** Visible sheets first, each in the file's order. */
  readonly sheets: readonly { readonly name: string; readonly hidden: boolean }[];
  /** Whether the file counts its days from 1904 instead of 1900. */
  readonly from1904: boolean;
}

export type WorkbookFault =
  | { readonly fault: "not-xlsx"; readonly message: string }
  | { readonly fault: "no-sheet"; readonly message: string };

/** Unpacked size beyond which a workbook is refused. A year of minutes in six columns has some 150 MB. */
export const largestWorkbook_bytes = 250_000_000;

const daysFrom1900To1904 = 1462;
const day_s = 86_400;

/** Whether the bytes begin as a packed file or as an older binary workbook, neither of which is text. */
export function looksLikeWorkbook(bytes: Uint8Array): boolean {
  const begins = (...signs: number[]) => signs.every((sign, i) => bytes[i] === sign);
  return begins(0x50, 0x4b, 3, 4) || begins(0xd0, 0xcf, 0x11, 0xe0);
}

/**
 * Reads one sheet of an xlsx file (ECMA-376): the sheet named, else the first that is not hidden. Dates
 * become `2023-01-31 14:00:00` to the second in the file's own day count (1900 or 1904), formulas their
 * kept value, merged labels stand in each of their cells. Numbers are written with `decimal` so that
 * none can pass for thousands. Never throws for any bytes.
 */
export function readWorkbook(
  bytes: Uint8Array,
  sheet: string | undefined,
  decimal: Decimal,
): SheetRecords | WorkbookFault {
  const opened = openWorkbook(bytes);
  if ("fault" in opened) return opened;
  const { workbook } = opened;
  const all = workbook.SheetNames.map((name, i) => ({
    name,
    hidden: (workbook.Workbook?.Sheets?.[i]?.Hidden ?? 0) !== 0,
  }));
  const sheets = [...all.filter(({ hidden }) => !hidden), ...all.filter(({ hidden }) => hidden)];
  const chosen = sheet === undefined ? sheets[0] : sheets.find(({ name }) => name === sheet);
  if (chosen === undefined)
    return {
      fault: "no-sheet",
      message: `The reading names the sheet "${sheet ?? ""}"; the file's sheets are ${sheets.map(({ name }) => name).join(", ") || "none"}.`,
    };
  const from1904 = workbook.Workbook?.WBProps?.date1904 === true;
  const records = recordsOf(workbook.Sheets[chosen.name]!, from1904, decimal);
  return { records, sheet: chosen.name, sheets, from1904 };
}

function openWorkbook(bytes: Uint8Array): { readonly workbook: WorkBook } | WorkbookFault {
  const not = (message: string): WorkbookFault => ({ fault: "not-xlsx", message });
  if (bytes[0] === 0xd0)
    return not(
      "The file is an older binary workbook or protected by a password; save it as xlsx without a password, or as CSV.",
    );
  try {
    let unpacked = 0;
    const parts = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        const wanted =
          /\.(?:xml|rels)$/i.test(name) && !/\/(?:media|drawings|charts|embeddings)\//i.test(name);
        if (wanted) unpacked += originalSize;
        return wanted && unpacked <= largestWorkbook_bytes;
      },
    });
    if (unpacked > largestWorkbook_bytes)
      return not(
        `The workbook unpacks to more than ${largestWorkbook_bytes / 1e6} MB; keep only the sheet that is needed.`,
      );
    if (
      parts["xl/workbook.xml"] === undefined &&
      !strFromU8(parts["[Content_Types].xml"] ?? new Uint8Array()).includes("spreadsheetml")
    )
      return not("The file is packed, but it is no xlsx workbook; save it as xlsx or as CSV.");
    // Packed anew from parts of known size, so that a false size in the file cannot fill the memory.
    const workbook = read(zipSync(parts, { level: 0 }), {
      type: "array",
      dense: true,
      cellNF: true,
      cellText: false,
      cellHTML: false,
    });
    return { workbook };
  } catch {
    return not("The file begins like an xlsx workbook, but it is damaged and cannot be unpacked.");
  }
}

function recordsOf(sheet: WorkSheet, from1904: boolean, decimal: Decimal): Records {
  const data = (sheet["!data"] ?? []) as readonly ((CellObject | undefined)[] | undefined)[];
  const serial = serialColumns(data);
  const width = data.reduce((most, row) => Math.max(most, lastFilled(row)), 0);
  const grid = data.map((row) =>
    Array.from({ length: width }, (_, column) =>
      cellText(row?.[column], serial.has(column), from1904, decimal),
    ),
  );
  for (const { s, e } of sheet["!merges"] ?? []) {
    if (data[s.r]?.[s.c]?.t !== "s") continue;
    for (let r = s.r; r <= Math.min(e.r, grid.length - 1); r += 1)
      for (let c = s.c; c <= Math.min(e.c, width - 1); c += 1) grid[r]![c] = grid[s.r]![s.c]!;
  }
  const filled = Array.from(grid.keys()).filter((r) => grid[r]!.some((cell) => cell.trim() !== ""));
  return {
    cells: filled.map((r) => grid[r]!),
    line: Int32Array.from(filled, (r) => r + 1),
    openQuoteAt: null,
  };
}

function lastFilled(row: readonly (CellObject | undefined)[] | undefined): number {
  let length = row?.length ?? 0;
  while (length > 0 && isBlank(row![length - 1])) length -= 1;
  return length;
}

const isBlank = (cell: CellObject | undefined) =>
  cell === undefined || cell.t === "z" || (cell.v === undefined && cell.f === undefined) || cell.v === "";

const errorWords: Readonly<Record<number, string>> = {
  0: "#NULL!",
  7: "#DIV/0!",
  15: "#VALUE!",
  23: "#REF!",
  29: "#NAME?",
  36: "#NUM!",
  42: "#N/A",
};

function cellText(
  cell: CellObject | undefined,
  serial: boolean,
  from1904: boolean,
  decimal: Decimal,
): string {
  if (cell === undefined || cell.t === "z") return "";
  // A formula that was never computed must be told, not pass for an empty cell.
  if (cell.v === undefined) return cell.f === undefined ? "" : `=${cell.f}`;
  if (cell.t === "e") return errorWords[cell.v as number] ?? "#ERROR";
  if (cell.t === "b") return cell.v === true ? "TRUE" : "FALSE";
  if (cell.t !== "n") return String(cell.v);
  const value = cell.v as number;
  if (serial || SSF.is_date(String(cell.z ?? ""))) return dateText(value, from1904);
  // Three decimals could pass for thousands; one more zero cannot.
  const plain = String(value);
  const safe = /^-?\d+\.\d{3}$/.test(plain) ? `${plain}0` : plain;
  return decimal === "." ? safe : safe.replace(".", ",");
}

function dateText(serial: number, from1904: boolean): string {
  const whole_s = Math.round((serial + (from1904 && serial >= 1 ? daysFrom1900To1904 : 0)) * day_s);
  const two = (value: number) => String(value).padStart(2, "0");
  if (whole_s >= 0 && whole_s < day_s) return clockText(whole_s, two);
  const date = SSF.parse_date_code(Math.floor(whole_s / day_s));
  if (date === null || date === undefined) return String(serial);
  return `${date.y}-${two(date.m)}-${two(date.d)} ${clockText(whole_s % day_s, two)}`;
}

function clockText(second: number, two: (value: number) => string): string {
  return `${two(Math.floor(second / 3600))}:${two(Math.floor(second / 60) % 60)}:${two(second % 60)}`;
}
