import type { Problem } from "../../core/problem.ts";
import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { DemandQuantity, Question, Understood } from "./account.ts";
import { type DemandProblemCode, demandProblems, rowProblems } from "./demand-problems.ts";
import { findColumns, type Layout, timeColumns } from "./find-columns.ts";
import type { Delimiter } from "./find-delimiter.ts";
import { looksLikeWorkbook } from "./read-workbook.ts";
import { textSource, workbookSource } from "./table-source.ts";

/** The rows of data with their file lines; every row has `layout.width` cells. */
export interface Table {
  readonly delimiter: Delimiter;
  readonly layout: Layout;
  readonly rows: readonly string[][];
  readonly line: Int32Array;
}

export interface OpenedTable {
  readonly table: Table | null;
  readonly problems: readonly Problem[];
  readonly questions: readonly Question[];
  readonly understood: Partial<Understood>;
}

/** Bytes to rows and columns. Rows of another width are faults and left out of the table. */
export function openTable(
  bytes: Uint8Array,
  file: string,
  reading: DemandReading,
  quantity: DemandQuantity,
): OpenedTable {
  const problems: Problem[] = [];
  const add = (code: DemandProblemCode, message: string, row?: number) =>
    problems.push({ code, message, place: row === undefined ? { file } : { file, row } });

  const source = looksLikeWorkbook(bytes) ? workbookSource(bytes, reading) : textSource(bytes, reading);
  if (source.records === null) {
    add(source.code, source.message, source.row);
    return { table: null, problems, questions: [], understood: source.understood };
  }
  const { records, delimiter, understood, questions } = source;
  const layout = findColumns(records, reading, quantity);
  const { width, firstData, header } = layout;
  const data = records.cells.slice(firstData);
  if (data.length === 0) {
    add("DEMAND_EMPTY", demandProblems.DEMAND_EMPTY);
    return { table: null, problems, questions, understood };
  }
  problems.push(...layout.problems.map(({ code, message }) => ({ code, message, place: { file } })));

  const fitsWidth = (row: readonly string[]) =>
    row.length >= width && row.slice(width).every((cell) => cell.trim() === "");
  const line = records.line.slice(firstData);
  const odd = Array.from(data.keys()).filter((i) => !fitsWidth(data[i]!));
  const above = records.cells[firstData - 1];
  const headerShort =
    header < 0 && above !== undefined && above.length > 1 && above.length < width && delimiter === ",";
  if (headerShort) {
    add(
      "DEMAND_ROW_WIDTH",
      `The header has ${above.length} cells and the rows have ${width}; a decimal comma beside a comma as column separator looks like this. Put the numbers in quotation marks or use another separator.`,
      records.line[firstData - 1]!,
    );
  }
  problems.push(
    ...rowProblems({
      code: "DEMAND_ROW_WIDTH",
      file,
      faults: odd.map((i) => ({ row: line[i]!, found: `${data[i]!.length} cells` })),
      one: (found) => `The row has ${found} where the others have ${width}.`,
      many: `do not have ${width} cells like the others`,
    }),
  );

  const good = Array.from(data.keys()).filter((i) => fitsWidth(data[i]!));
  const rows = good.map((i) => data[i]!);
  const lines = Int32Array.from(good, (i) => line[i]!);
  const times = layout.time === null ? [] : timeColumns(layout.time);
  return {
    table: { delimiter, layout, rows, line: lines },
    problems,
    questions,
    understood: {
      ...understood,
      headerRow: header < 0 ? null : records.line[header]!,
      linesAbove: records.cells.slice(0, firstData).map((cells, i) => [String(records.line[i]), ...cells]),
      columns: layout.names.map((name, column) => ({ name, sample: rows[0]?.[column] ?? "" })),
      timeColumn: times.length === 0 ? null : times.map((column) => layout.names[column]).join(" + "),
      valueColumn: layout.value === null ? null : layout.names[layout.value]!,
      rows: data.length,
      firstRows: rows.slice(0, 8).map((cells, i) => [String(lines[i]), ...cells]),
    },
  };
}
