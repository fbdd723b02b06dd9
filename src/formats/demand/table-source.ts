import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { Question, Understood } from "./account.ts";
import { decodeText } from "./decode-text.ts";
import { type DemandProblemCode, demandProblems } from "./demand-problems.ts";
import { type Delimiter, findDelimiter } from "./find-delimiter.ts";
import { readWorkbook } from "./read-workbook.ts";
import { type Records, splitRecords } from "./split-records.ts";

/** The cells of a file, whatever it is written in; `records` is null where it cannot be opened. */
export type TableSource =
  | {
      readonly records: Records;
      readonly delimiter: Delimiter;
      readonly questions: readonly Question[];
      readonly understood: Partial<Understood>;
    }
  | {
      readonly records: null;
      readonly code: DemandProblemCode;
      readonly message: string;
      readonly row?: number;
      readonly understood: Partial<Understood>;
    };

/** Cells of a CSV. */
export function textSource(bytes: Uint8Array, reading: DemandReading): TableSource {
  const decoded = decodeText(bytes);
  if (decoded === null)
    return {
      records: null,
      code: "DEMAND_NOT_TEXT",
      message: demandProblems.DEMAND_NOT_TEXT,
      understood: {},
    };
  const delimiter = reading.delimiter ?? findDelimiter(decoded.text) ?? ",";
  const understood = {
    encoding: decoded.encoding,
    delimiter,
    delimiterHow: reading.delimiter === undefined ? "counted in the first lines" : "said by user",
  };
  const records = splitRecords(decoded.text, delimiter);
  if (records.openQuoteAt !== null)
    return {
      records: null,
      code: "DEMAND_QUOTE_OPEN",
      message: "A quotation mark is opened and not closed before the end of the file.",
      row: records.openQuoteAt,
      understood,
    };
  return { records, delimiter, questions: [], understood };
}

/** Cells of one sheet of a workbook; asked about where it has more than one sheet. */
export function workbookSource(bytes: Uint8Array, reading: DemandReading): TableSource {
  const found = readWorkbook(bytes, reading.sheet, reading.decimal ?? ".");
  if ("fault" in found) {
    const code = found.fault === "no-sheet" ? "DEMAND_SHEET_UNKNOWN" : "DEMAND_NOT_XLSX";
    return { records: null, code, message: found.message, understood: {} };
  }
  const { records, sheet, sheets, from1904 } = found;
  const question: Question = {
    code: "DEMAND_WHICH_SHEET",
    sentence: `The workbook has ${sheets.length} sheets; which one holds the figures?`,
    field: "sheet",
    choices: sheets.map(({ name, hidden }) => ({
      value: name,
      sentence: hidden ? `${name} (hidden in the workbook)` : name,
    })),
    taken: sheet,
  };
  return {
    records,
    delimiter: ",",
    questions: sheets.length > 1 && reading.sheet === undefined ? [question] : [],
    understood: {
      encoding: `xlsx, days counted from ${from1904 ? 1904 : 1900}`,
      sheet,
      delimiter: "none",
      delimiterHow: "cells of a sheet",
    },
  };
}
