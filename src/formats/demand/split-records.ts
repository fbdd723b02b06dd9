import { parse } from "csv-parse/sync";

/** Rows of cells; `line[i]` is the file line (from 1) on which row i ends. */
export interface Records {
  readonly cells: readonly string[][];
  readonly line: Int32Array;
  /** Line where an open quotation mark was noticed; the rows are then empty. */
  readonly openQuoteAt: number | null;
}

/** Splits text into rows and cells, empty lines left out. Rows keep whatever number of cells they have. */
export function splitRecords(text: string, delimiter: string): Records {
  const lines: number[] = [];
  try {
    // Widths are compared by the reader, which tells all odd rows at once where the parser would stop at one.
    const cells = parse(text, {
      delimiter,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
      record_delimiter: ["\r\n", "\n", "\r"],
      on_record: (record: string[], context) => {
        if (record.every((cell) => cell.trim() === "")) return null;
        lines.push(context.lines);
        return record;
      },
    }) as string[][];
    return { cells, line: Int32Array.from(lines), openQuoteAt: null };
  } catch (error) {
    const line = (error as { lines?: unknown }).lines;
    return { cells: [], line: new Int32Array(0), openQuoteAt: typeof line === "number" ? line : 1 };
  }
}
