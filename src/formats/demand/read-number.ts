export type Decimal = "." | ",";

/** What one cell says of the decimal sign. */
type Hint = Decimal | "either" | "none";

const shape = /^[+-]?[\d.,'\u00a0\u202f ]*\d[\d.,]*(?:[eE][+-]?\d+)?$/;
const missingWords = /^(?:|-{1,3}|n\/?a|nan|null|none|#n\/a|#nv|\?)$/i;

/** Empty, a dash, or one of NA, N/A, NaN, null, none, #N/A, #NV, ?: a value that the file itself calls missing. */
export function isMissing(cell: string): boolean {
  return missingWords.test(cell.trim());
}

export function looksLikeNumber(cell: string): boolean {
  return shape.test(cell.trim());
}

/** How the decimal sign of a column is told from all its cells. */
export interface DecimalEvidence {
  readonly points: readonly number[];
  readonly commas: readonly number[];
  /** Positions of cells such as 1,234 that may be either. */
  readonly either: readonly number[];
  /** Whether a number above 999 without separator, or a separator in every cell, speaks for a decimal sign. */
  readonly eitherIsDecimal: boolean;
  readonly eitherSign: Decimal | null;
}

/** Positions of cells by the decimal sign they prove. */
export function decimalEvidence(cells: readonly string[]): DecimalEvidence {
  const points: number[] = [];
  const commas: number[] = [];
  const either: number[] = [];
  let plainLarge = false;
  let plain = 0;
  let eitherSign: Decimal | null = null;
  cells.forEach((cell, i) => {
    const text = cell.trim();
    if (!shape.test(text)) return;
    const hint = hintOf(text.replace(/^[+-]/, "").replace(/[eE].*$/, ""));
    if (hint === ".") points.push(i);
    else if (hint === ",") commas.push(i);
    else if (hint === "either") {
      either.push(i);
      eitherSign = text.includes(",") ? "," : ".";
    } else if (/\d/.test(text)) {
      plain += 1;
      if (/^[+-]?\d{4,}$/.test(text)) plainLarge = true;
    }
  });
  return { points, commas, either, eitherIsDecimal: plainLarge || plain === 0, eitherSign };
}

function hintOf(digits: string): Hint {
  const point = digits.lastIndexOf(".");
  const comma = digits.lastIndexOf(",");
  if (point < 0 && comma < 0) return "none";
  if (point >= 0 && comma >= 0) return point > comma ? "." : ",";
  const sign: Decimal = point >= 0 ? "." : ",";
  const other: Decimal = sign === "." ? "," : ".";
  const parts = digits.split(sign);
  if (parts.length > 2) return other;
  const [whole = "", rest = ""] = parts;
  return rest.length === 3 && /^[1-9]\d{0,2}$/.test(whole) ? "either" : sign;
}

const plainNumber = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const grouped = {
  ".": /^[+-]?\d{1,3}([,'\u00a0\u202f ])\d{3}(?:\1\d{3})*(?:\.\d*)?$/,
  ",": /^[+-]?\d{1,3}([.'\u00a0\u202f ])\d{3}(?:\1\d{3})*(?:,\d*)?$/,
} as const;

/** The number in a cell, thousands separators (comma or point, apostrophe, space) allowed; NaN where it is none. */
export function readNumber(cell: string, decimal: Decimal): number {
  let text = cell.trim();
  if (decimal === "," ? !text.includes(".") : !text.includes(",")) {
    const pointed = decimal === "," ? text.replace(",", ".") : text;
    if (plainNumber.test(pointed)) return finite(Number(pointed));
  }
  if (!grouped[decimal].test(text)) return Number.NaN;
  text =
    decimal === "."
      ? text.replace(/[,'\u00a0\u202f ]/g, "")
      : text.replace(/[.'\u00a0\u202f ]/g, "").replace(",", ".");
  return finite(Number(text));
}

const finite = (value: number) => (Number.isFinite(value) ? value : Number.NaN);
