/** How a chart writes numbers; a page passes the study's own way. */
export interface ChartText {
  /** `digits`: most significant digits, 3 unless given. */
  number(value: number, digits?: number): string;
  /** With the currency's code or sign. */
  money(value: number): string;
}

/** Numbers by a locale, three significant digits; money without cents from 100 on. */
export function plainText(locale = "en", currency = ""): ChartText {
  const number = (value: number, digits = 3): string => {
    if (!Number.isFinite(value)) return "no figure";
    const snapped = Math.abs(value) < 1e-9 ? 0 : value;
    return formatter(locale, digits).format(snapped).replace("-", "−");
  };
  const money = (value: number): string => {
    const near = Math.abs(value) >= 100 ? Math.round(value) : value;
    return currency === "" ? number(near) : `${number(near)} ${currency}`;
  };
  return { number, money };
}

const formatters = new Map<string, Intl.NumberFormat>();
function formatter(locale: string, digits: number): Intl.NumberFormat {
  const key = `${locale} ${digits}`;
  const known = formatters.get(key);
  if (known !== undefined) return known;
  const made = new Intl.NumberFormat(locale, { maximumSignificantDigits: digits });
  formatters.set(key, made);
  return made;
}

export function percent(text: ChartText, share: number): string {
  return Number.isFinite(share) ? `${text.number(100 * share)} %` : "no figure";
}

export interface ShownUnit {
  readonly unit: string;
  /** Core units in one shown unit. */
  readonly per: number;
}

/** kWh, MWh or GWh, so that axis numbers stay short. */
export function energyUnit(largest_kWh: number): ShownUnit {
  if (largest_kWh >= 2e7) return { unit: "GWh", per: 1e6 };
  return largest_kWh >= 2e4 ? { unit: "MWh", per: 1000 } : { unit: "kWh", per: 1 };
}

export function powerUnit(largest_kW: number): ShownUnit {
  return largest_kW >= 2e4 ? { unit: "MW", per: 1000 } : { unit: "kW", per: 1 };
}
