/** What a missing figure is shown as. */
export const missingFigure = "–";

/**
 * A number with three significant digits and the locale's thousands separators: 12 345.6 → "12,300",
 * 0.012345 → "0.0123", 16 → "16.0". What is not finite becomes a dash; what rounds to nothing becomes "0".
 */
export function threeDigits(value: number, locale = "en"): string {
  if (!Number.isFinite(value)) return missingFigure;
  if (Math.abs(value) < 1e-9) return "0";
  const rounded = Number(value.toPrecision(3));
  const decimals = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(rounded))));
  return withDecimals(rounded, decimals, locale);
}

/** A number with a fixed count of decimals, without −0. */
export function withDecimals(value: number, decimals: number, locale = "en"): string {
  if (!Number.isFinite(value)) return missingFigure;
  const rounded = Number(value.toFixed(decimals)) + 0;
  return formatOf(locale, decimals, decimals)
    .format(Object.is(rounded, -0) ? 0 : rounded)
    .replace("-", "−");
}

/** Every digit that was typed, for showing inputs in text. */
export function asGiven(value: number, locale = "en"): string {
  return Number.isFinite(value) ? plain(value, locale, 15) : missingFigure;
}

function plain(value: number, locale: string, decimals: number): string {
  // Rounding up may leave the range of numbers.
  if (!Number.isFinite(value)) return missingFigure;
  const safe = Object.is(value, -0) ? 0 : value;
  return formatOf(locale, 0, decimals).format(safe).replace("-", "−");
}

/** Making a format takes longer than a thousand uses of it. */
const formats = new Map<string, Intl.NumberFormat>();

function formatOf(locale: string, least: number, most: number): Intl.NumberFormat {
  const key = `${locale} ${least} ${most}`;
  const known = formats.get(key);
  if (known !== undefined) return known;
  const made = new Intl.NumberFormat(locale, { minimumFractionDigits: least, maximumFractionDigits: most });
  formats.set(key, made);
  return made;
}
