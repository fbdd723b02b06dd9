import { missingFigure, threeDigits, withDecimals } from "./numbers.ts";

/** How a study wants its figures written. */
export interface Writing {
  readonly locale: string;
  readonly currency: string;
}

const thin = "\u202f";

/** kWh as kWh, MWh or GWh, whichever reads best. */
export function energy(value_kWh: number, { locale }: Writing): string {
  const size = Math.abs(value_kWh);
  if (!Number.isFinite(value_kWh)) return missingFigure;
  if (size >= 999_500) return `${threeDigits(value_kWh / 1e6, locale)}${thin}GWh`;
  if (size >= 9_995) return `${threeDigits(value_kWh / 1e3, locale)}${thin}MWh`;
  return `${threeDigits(size < 0.05 ? 0 : value_kWh, locale)}${thin}kWh`;
}

/** kW as kW or MW. */
export function power(value_kW: number, { locale }: Writing): string {
  const size = Math.abs(value_kW);
  if (size >= 9_995) return `${threeDigits(value_kW / 1e3, locale)}${thin}MW`;
  return `${threeDigits(size < 0.0005 ? 0 : value_kW, locale)}${thin}kW`;
}

export function area(value_m2: number, { locale }: Writing): string {
  return `${threeDigits(Math.abs(value_m2) < 0.05 ? 0 : value_m2, locale)}${thin}m²`;
}

export function volume(value_m3: number, { locale }: Writing): string {
  return `${threeDigits(Math.abs(value_m3) < 0.005 ? 0 : value_m3, locale)}${thin}m³`;
}

/** Money with three significant digits; cents only below 100. */
export function money(value: number, { locale, currency }: Writing): string {
  return `${bareMoney(value, locale)}${thin}${currency}`;
}

/** Money without its currency, for tables whose heading names it. */
export function bareMoney(value: number, locale: string): string {
  if (!Number.isFinite(value)) return missingFigure;
  if (Math.abs(value) < 0.005) return "0";
  return Math.abs(value) < 100 ? withDecimals(value, 2, locale) : threeDigits(value, locale);
}

/** A price per kWh, in hundredths where the locale's readers would otherwise count zeros. */
export function heatPrice(value_per_kWh: number | null, { locale, currency }: Writing): string {
  if (value_per_kWh === null || !Number.isFinite(value_per_kWh)) return missingFigure;
  return `${threeDigits(value_per_kWh * 1000, locale)}${thin}${currency}/MWh`;
}

/** A share 0 to 1 as per cent. */
export function percent(share: number | null, { locale }: Writing): string {
  if (share === null || !Number.isFinite(share)) return missingFigure;
  const value = share * 100;
  const near = Math.abs(value) < 0.05 ? 0 : value;
  return `${withDecimals(near, Math.abs(near) >= 99.95 || near === 0 ? 0 : 1, locale)}${thin}%`;
}

export function years(value: number | null, { locale }: Writing): string {
  if (value === null || !Number.isFinite(value)) return missingFigure;
  return `${withDecimals(value, 1, locale)} years`;
}

export function mass(value_kg: number, { locale }: Writing): string {
  if (Math.abs(value_kg) >= 999.5) return `${threeDigits(value_kg / 1000, locale)}${thin}t`;
  return `${threeDigits(value_kg, locale)}${thin}kg`;
}
