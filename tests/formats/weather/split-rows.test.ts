import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { splitRecords } from "../../../src/formats/demand/split-records.ts";
import { splitRows } from "../../../src/formats/weather/split-rows.ts";

describe("rows of a weather file", () => {
  it("are those of the CSV parser, line for line", () => {
    const cell = fc.constantFrom("a", "1.5", "", " ", '"b"', '"b, c"', '"say ""x"""', "-9900");
    const ending = fc.constantFrom("\n", "\r\n");
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 1, maxLength: 4 })), ending, (rows, end) => {
        const text = rows.map((cells) => cells.join(",")).join(end);
        expect(splitRows(text, ",")).toEqual(splitRecords(text, ","));
      }),
      { numRuns: 500 },
    );
  });

  it("leave a quotation mark that stays open to the parser", () => {
    const text = 'a,"b\nc,d\n';
    expect(splitRows(text, ",")).toEqual(splitRecords(text, ","));
  });
});
