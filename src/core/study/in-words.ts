/** A figure in an English sentence: three significant digits, four from a thousand on. */
export function inWords(value: number): string {
  return Number(value.toPrecision(Math.abs(value) >= 1000 ? 4 : 3)).toLocaleString("en", {
    maximumFractionDigits: 6,
  });
}
