/** Factors by which units are mistaken for one another, with what usually lies behind. */
const slips = [
  { factor: 3.6, why: "MJ and kWh differ by 3.6" },
  { factor: 24, why: "figures of a day and of an hour differ by 24" },
  { factor: 1000, why: "k and M differ by 1000" },
] as const;

export const nameplateLimits = {
  /** A meter may read a little above what a plate promises. */
  mostOverPlate: 1.3,
  /** A consumer that never reaches a fifth of its plate is rare. */
  leastOfPlate: 0.2,
  /** Largest hour over nameplate after the slip is undone. */
  plausible: { least: 0.25, most: 1.3 },
} as const;

/** How a largest hour disagrees with a nameplate. */
export interface UnitSlip {
  /** Largest hour over nameplate. */
  readonly ratio: number;
  /** Factor by which the figures seem too large (above 1) or too small; null where none of 3.6, 24 and 1000 explains it. */
  readonly factor: number | null;
  readonly why: string | null;
}

/**
 * Compares the largest hour of a year with a nameplate. Null where they agree, that is from a fifth of
 * the plate to 1.3 times it, or where nothing is drawn. The limits are common practice, no source. Of
 * several factors the one that brings the largest hour nearest to the plate is named.
 */
export function unitSlip(peak_kW: number, nameplate_kW: number): UnitSlip | null {
  const { leastOfPlate, mostOverPlate, plausible } = nameplateLimits;
  return slipOf(peak_kW / nameplate_kW, { least: leastOfPlate, most: mostOverPlate }, plausible);
}

/**
 * Compares a year with what its bills say. Null where they agree, that is from two thirds to one and a half
 * of the bills (common practice, no source), or where nothing is drawn.
 */
export function billedSlip(year_kWh: number, billed_kWh: number): UnitSlip | null {
  return slipOf(year_kWh / billed_kWh, billedLimits, billedLimits);
}

const billedLimits = { least: 2 / 3, most: 1.5 } as const;

interface Span {
  readonly least: number;
  readonly most: number;
}

function slipOf(ratio: number, agrees: Span, plausible: Span): UnitSlip | null {
  if (!(ratio > 0) || !Number.isFinite(ratio)) return null;
  if (ratio >= agrees.least && ratio <= agrees.most) return null;
  const large = ratio > 1;
  const tried = slips
    .map(({ factor, why }) => ({ factor: large ? factor : 1 / factor, why }))
    .filter(({ factor }) => {
      const undone = ratio / factor;
      return undone >= plausible.least && undone <= plausible.most;
    })
    .sort((a, b) => Math.abs(Math.log(ratio / a.factor)) - Math.abs(Math.log(ratio / b.factor)));
  const best = tried[0];
  return { ratio, factor: best?.factor ?? null, why: best?.why ?? null };
}

/** The disagreement in a sentence. */
export function unitSlipSentence(slip: UnitSlip, peak_kW: number, nameplate_kW: number): string {
  return `The largest hour is ${words(peak_kW)} kW and the nameplate ${words(nameplate_kW)} kW: ${slipWords(slip, "the nameplate")}`;
}

/** The disagreement of a year with its bills in a sentence. */
export function billedSlipSentence(slip: UnitSlip, year_kWh: number, billed_kWh: number): string {
  return `The year comes to ${words(year_kWh / 1000)} MWh and the bills to ${words(billed_kWh / 1000)} MWh: ${slipWords(slip, "the bills")}`;
}

const words = (value: number) => String(Number(value.toPrecision(3)));

function slipWords({ factor, why }: UnitSlip, against: string): string {
  if (factor === null)
    return `neither 3.6 nor 24 nor 1000 explains it, so check the unit, the column and ${against}.`;
  return `the figures look about ${words(factor > 1 ? factor : 1 / factor)} times too ${factor > 1 ? "large" : "small"} (${why}).`;
}
