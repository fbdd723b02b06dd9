import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { syntaxFault } from "../../../src/formats/study-json/syntax-fault.ts";

function parses(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

describe("the place of a fault in JSON text", () => {
  it.each([
    ["", 1, 1, "a value"],
    ['{"a":}', 1, 6, "a value"],
    ["[1,\n2", 2, 2, '"," or "]"'],
    ['{"a":1,}', 1, 8, "a property name in double quotes"],
    ['{"a" 1}', 1, 6, '":"'],
    ["{}\r\nx", 2, 1, "the end of the text"],
    ['"\t"', 1, 1, "a value"],
    ["01", 1, 2, "the end of the text"],
  ])("finds it in %j", (text, line, column, expected) => {
    expect(syntaxFault(text)).toEqual({ line, column, expected });
  });

  it("agrees with JSON.parse on what is JSON", () => {
    // Pieces of JSON put together at random are often nearly JSON.
    const pieces = fc.constantFrom(
      "{",
      "}",
      "[",
      "]",
      ",",
      ":",
      '"a"',
      '"\\u00e9"',
      '"\\x"',
      "1",
      "-0.5e+3",
      "1.",
      "true",
      "null",
      " ",
      "\n",
      "\u007f",
      "+",
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.json(),
          fc.string(),
          fc.array(pieces, { maxLength: 8 }).map((p) => p.join("")),
        ),
        (text) => {
          expect(syntaxFault(text) === null).toBe(parses(text));
        },
      ),
      { numRuns: 5000 },
    );
  });

  it("agrees with JSON.parse after one character of JSON is changed", () => {
    fc.assert(
      fc.property(fc.json(), fc.nat(), fc.string({ minLength: 1, maxLength: 1 }), (text, at, char) => {
        const i = at % text.length;
        const changed = text.slice(0, i) + char + text.slice(i + 1);
        expect(syntaxFault(changed) === null).toBe(parses(changed));
      }),
      { numRuns: 2000 },
    );
  });
});
