import type { StudyCalendar } from "../../calendar.ts";
import { hoursPerYear } from "../../series.ts";
import type { BillsProfile } from "../../study/schema/profile.ts";
import { amountPerUnit, type BilledQuantity } from "./bill-amount.ts";
import { type BilledDays, billedDays } from "./bill-days.ts";
import { type BillFit, fitBills } from "./bill-fit.ts";

/** A stretch of the year with what was spread over its hours, in kWh, kg or m³. */
export interface BilledStretch extends Omit<BilledDays, "hours"> {
  readonly amount: number;
  /** Drawn evenly, by the calendar and by the weather; together the amount. */
  readonly even: number;
  readonly byCalendar: number;
  readonly byWeather: number;
  readonly degreeDays_Kd: number | null;
  /** By the regression; null where there is none. */
  readonly fitted: number | null;
}

export interface BillYear {
  /** 8760 rates: kW, kg/h or m³/h. */
  readonly hourly: Float64Array;
  /** The bills in their order, then the stretches that none covers. */
  readonly stretches: readonly BilledStretch[];
  readonly fit: BillFit | null;
  /** Stretches that have an amount, and in which the calendar draws nothing: all of it went evenly. */
  readonly allEven: readonly number[];
  /** The same with no base load to put it in: a fault. */
  readonly nowhere: readonly number[];
}

/**
 * Bills as a year of hourly rates. Every bill is kept: its hours sum to it. Within a bill the part that
 * goes by the weather is spread by the hours' degrees, `baseShare` of the rest evenly and what is left by
 * the calendar. Days without a bill get what the bills' own pattern gives for them: their part of the
 * steady year, and of the regression where there is one.
 *
 * `shares`: the calendar's 8760 shares. `ambient_C`: the weather's 8760 temperatures, used only where the
 * profile has `weather`. The profile must be without faults.
 */
export function billYear(
  profile: BillsProfile,
  quantity: BilledQuantity,
  inputs: { readonly clock: StudyCalendar; readonly shares: Float64Array; readonly ambient_C: Float64Array },
): BillYear {
  const { baseShare, bills, weather } = profile;
  const perUnit = amountPerUnit(profile, quantity) ?? Number.NaN;
  const cut = billedDays(bills, inputs.clock);
  const degrees = degreeHours(weather, inputs.ambient_C);
  const total = (series: Float64Array, hours: readonly number[]) =>
    hours.reduce((sum, hour) => sum + series[hour]!, 0);
  const yearShares = inputs.shares.reduce((sum, share) => sum + share, 0);

  const parts = cut.map(({ bill, days, hours }) => {
    const worked = total(inputs.shares, hours);
    const given = bill === null ? undefined : bills[bill]!.degreeDays_Kd;
    return {
      days,
      worked,
      degreeHours: total(degrees, hours),
      degreeDays_Kd: weather === undefined ? 0 : (given ?? total(degrees, hours) / 24),
      steadyShare:
        (baseShare * hours.length) / hoursPerYear +
        (yearShares > 0 ? ((1 - baseShare) * worked) / yearShares : 0),
      amount: bill === null ? Number.NaN : bills[bill]!.amount * perUnit,
    };
  });
  const billed = parts.filter(({ amount }) => !Number.isNaN(amount));
  const fit = weather === undefined ? null : fitBills(billed);
  const slope = Math.max(0, fit?.slope_per_Kd ?? 0);
  // Where the bills fall as it gets colder (or hotter), or the fit is wholly weather, it says nothing of the rest.
  const steady = fit !== null && slope > 0 ? Math.max(0, fit.steady_per_year) : meanSteady(billed);

  const hourly = new Float64Array(hoursPerYear);
  const allEven: number[] = [];
  const nowhere: number[] = [];
  const stretches = cut.map(({ hours, ...stretch }, k): BilledStretch => {
    const part = parts[k]!;
    const [steadyPart, weatherPart] = [steady * part.steadyShare, slope * part.degreeDays_Kd];
    const amount = Number.isNaN(part.amount) ? steadyPart + weatherPart : part.amount;
    const expected = steadyPart + weatherPart;
    const canSpread = part.degreeHours > 0 && expected > 0;
    const byWeather = canSpread ? (amount * weatherPart) / expected : 0;
    const rest = amount - byWeather;
    const toCalendar = part.worked > 0 ? (1 - baseShare) * rest : 0;
    if (part.worked <= 0 && rest > 0 && baseShare < 1) (baseShare > 0 ? allEven : nowhere).push(k);
    const even = rest - toCalendar;
    for (const hour of hours)
      hourly[hour] =
        even / hours.length +
        (toCalendar > 0 ? (toCalendar * inputs.shares[hour]!) / part.worked : 0) +
        (byWeather > 0 ? (byWeather * degrees[hour]!) / part.degreeHours : 0);
    return {
      ...stretch,
      amount,
      even,
      byCalendar: toCalendar,
      byWeather,
      degreeDays_Kd: weather === undefined ? null : part.degreeDays_Kd,
      fitted:
        fit === null ? null : fit.steady_per_year * part.steadyShare + fit.slope_per_Kd * part.degreeDays_Kd,
    };
  });
  return { hourly, stretches, fit, allEven, nowhere };
}

/** What a year's steady use comes to where every bill is steady use. */
function meanSteady(billed: readonly { readonly amount: number; readonly steadyShare: number }[]): number {
  const amount = billed.reduce((sum, bill) => sum + bill.amount, 0);
  const share = billed.reduce((sum, bill) => sum + bill.steadyShare, 0);
  return share > 0 ? amount / share : 0;
}

function degreeHours(weather: BillsProfile["weather"], ambient_C: Float64Array): Float64Array {
  if (weather === undefined) return new Float64Array(hoursPerYear);
  const sign = weather.for === "heating" ? -1 : 1;
  return ambient_C.map((air_C) => Math.max(0, sign * (air_C - weather.base_C)));
}
