/** Where JSON text stops being JSON: line and column from 1, and what was expected. */
export interface SyntaxFault {
  readonly line: number;
  readonly column: number;
  readonly expected: string;
}

const blank = /[ \t\r\n]*/y;
const scalar =
  /(?:"(?:[ !#-[\]-\uffff]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)/y;
const name = /"(?:[ !#-[\]-\uffff]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;

type Want = "value" | "first-value" | "name" | "first-name" | "colon" | "after";

/**
 * The first fault of a JSON text; null where there is none. JSON.parse does not say the place of every
 * fault, and what it says differs between versions of Node.
 */
export function syntaxFault(text: string): SyntaxFault | null {
  const open: ("{" | "[")[] = [];
  let at = 0;
  let want: Want = "value";
  const take = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match === null) return false;
    at = pattern.lastIndex;
    return true;
  };
  const sign = (char: string): boolean => {
    if (text[at] !== char) return false;
    at += 1;
    return true;
  };
  for (;;) {
    take(blank);
    if (want === "after" && open.length === 0)
      return at >= text.length ? null : faultAt(text, at, "the end of the text");
    const closing = open.at(-1) === "{" ? "}" : "]";
    if (
      (want === "after" || want === "first-name" || want === "first-value") &&
      open.length > 0 &&
      sign(closing)
    ) {
      open.pop();
      want = "after";
    } else if (want === "after") {
      if (!sign(",")) return faultAt(text, at, `"," or "${closing}"`);
      want = open.at(-1) === "{" ? "name" : "value";
    } else if (want === "name" || want === "first-name") {
      if (!take(name)) return faultAt(text, at, "a property name in double quotes");
      want = "colon";
    } else if (want === "colon") {
      if (!sign(":")) return faultAt(text, at, '":"');
      want = "value";
    } else if (text[at] === "{" || text[at] === "[") {
      open.push(text[at] as "{" | "[");
      want = text[at] === "{" ? "first-name" : "first-value";
      at += 1;
    } else if (take(scalar)) want = "after";
    else return faultAt(text, at, "a value");
  }
}

function faultAt(text: string, at: number, expected: string): SyntaxFault {
  const before = text.slice(0, at).split(/\r\n|\n|\r/);
  return { line: before.length, column: before.at(-1)!.length + 1, expected };
}
