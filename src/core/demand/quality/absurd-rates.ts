/** No factory draws more: 1 GW, and masses and volumes of a like size. Own limits. */
const most: Readonly<Record<string, number>> = {
  power: 1e6,
  "mass-flow": 1e7,
  "volume-flow": 1e5,
};
const timesUsual = 1000;
const usualShare = 0.99;

/** Where a rate is absurd, and above what. */
export interface AbsurdRates {
  readonly at: readonly number[];
  readonly limit: number;
  /** Why that is the limit, for a sentence. */
  readonly why: string;
}

/**
 * Rates that no reading explains: above 1 GW (1e7 kg/h, 1e5 m³/h), or above a thousand times what 99 % of the
 * positive rates keep below. Null where there is none. Other quantities, such as prices, are never absurd here.
 */
export function absurdRates(rate: Float64Array, quantity: string, unit: string): AbsurdRates | null {
  const ceiling = most[quantity];
  if (ceiling === undefined) return null;
  const positive = rate.filter((value) => value > 0).sort();
  if (positive.length === 0) return null;
  const usual = positive[Math.floor(usualShare * (positive.length - 1))]!;
  const limit = Math.min(ceiling, timesUsual * usual);
  const at = Array.from(rate.keys()).filter((i) => rate[i]! > limit);
  if (at.length === 0) return null;
  const shown = (value: number) => Number(value.toPrecision(3)).toLocaleString("en");
  return {
    at,
    limit,
    why:
      limit === ceiling
        ? `more than ${shown(ceiling)} ${unit} is not believed`
        : `more than ${timesUsual} times the ${shown(usual)} ${unit} below which 99 % of the rows lie is not believed`,
  };
}
