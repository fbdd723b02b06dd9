/** A number for a sentence: fixed decimals, thousands apart by commas, as on every page. */
export function figure(value: number, decimals = 0): string {
  const [whole = "", fraction] = Math.abs(value).toFixed(decimals).split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ",");
  const sign = value < 0 && Number(value.toFixed(decimals)) !== 0 ? "\u2212" : "";
  return sign + grouped + (fraction === undefined ? "" : `.${fraction}`);
}
