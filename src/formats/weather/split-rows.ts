import { type Records, splitRecords } from "../demand/split-records.ts";

/**
 * Rows and cells of a weather file, as splitRecords gives them. Lines without a quotation mark, nearly
 * all of a weather file, are cut at the separator; the parser takes 20 times as long for them.
 */
export function splitRows(text: string, delimiter: string): Records {
  const lines = text.split(/\r\n|\n|\r/);
  const cells: string[][] = [];
  const line: number[] = [];
  for (let i = 0; i < lines.length; i += 1) {
    const one = lines[i]!;
    const quotes = one.includes('"') ? one.split('"').length - 1 : 0;
    // A quoted cell that runs over lines is the parser's business.
    if (quotes % 2 === 1) return splitRecords(text, delimiter);
    const row = quotes === 0 ? one.split(delimiter) : (splitRecords(one, delimiter).cells[0] ?? []);
    if (row.every((cell) => cell.trim() === "")) continue;
    cells.push(row);
    line.push(i + 1);
  }
  return { cells, line: Int32Array.from(line), openQuoteAt: null };
}
