import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hourIndex } from "../../../src/core/calendar.ts";
import { billFaults, billProblems } from "../../../src/core/demand/bills/bill-faults.ts";
import {
  billFindings,
  billHourFaults,
  billRemarkCodes,
} from "../../../src/core/demand/bills/bill-findings.ts";
import { fitBills } from "../../../src/core/demand/bills/bill-fit.ts";
import { billYear } from "../../../src/core/demand/bills/bill-year.ts";
import { calendarShares } from "../../../src/core/demand/calendar-shares.ts";
import { civilDays } from "../../../src/core/demand/loads/civil-days.ts";
import { constantYear, sum } from "../../../src/core/series.ts";
import type { BillsProfile, Calendar } from "../../../src/core/study/schema/study.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import { calendarOf, madridClock } from "../../support/load-inputs.ts";

const months = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const two = (value: number) => String(value).padStart(2, "0");
/** Bills of the calendar months of 2025. */
const monthly = (amounts: readonly number[]): BillsProfile["bills"] =>
  amounts.map((amount, month) => ({
    from: `2025-${two(month + 1)}-01`,
    to: `2025-${two(month + 1)}-${months[month]}`,
    amount,
  }));
const profileOf = (parts: Partial<BillsProfile> = {}): BillsProfile => ({
  from: "bills",
  unit: "kWh",
  calendar: "days",
  baseShare: 0.25,
  bills: monthly([9, 8, 8, 6, 5, 4, 3, 3, 4, 6, 7, 8].map((each) => each * 10_000)),
  ...parts,
});
const workdays: Calendar = {
  id: "days",
  name: "Days",
  week: {
    by: "shifts",
    shifts: [{ name: "Day", weekdays: [1, 2, 3, 4, 5], starts_h: 6, ends_h: 18, share: 1 }],
    between: 0,
  },
};
const clock = calendarOf(madridClock);
const shares = calendarShares(workdays, clock);
/** A mild year: 15 °C in the mean, 10 K of season, 5 K of day. */
const ambient_C = Float64Array.from(
  { length: 8760 },
  (_, t) =>
    15 - 10 * Math.cos((2 * Math.PI * (t - 400)) / 8760) - 5 * Math.cos((2 * Math.PI * ((t % 24) - 3)) / 24),
);
const yearOf = (profile: BillsProfile, quantity: "power" | "mass-flow" | "volume-flow" = "power") =>
  billYear(profile, quantity, { clock, shares, ambient_C });
/** Sum over the factory's days from one date to another, of a year without a 29 February. */
function between(hourly: Float64Array, from: string, to: string): number {
  const inside = (month: number, day: number) => {
    const date = `${two(month)}-${two(day)}`;
    const [a, b] = [from.slice(5), to.slice(5)];
    return a <= b ? date >= a && date <= b : date >= a || date <= b;
  };
  return civilDays(clock)
    .filter(({ month, day }) => inside(month, day))
    .reduce((total, { hours }) => total + hours.reduce((s, hour) => s + hourly[hour]!, 0), 0);
}

describe("fitBills(bills)", () => {
  /*
   * F. J. Anscombe, Graphs in Statistical Analysis, The American Statistician 27 (1973) 17–21: four sets
   * with y = 3.00 + 0.500 x, R² = 0.667 and a standard error of the slope of 0.118. Data from memory.
   */
  const x123 = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
  const sets: [string, number[], number[]][] = [
    ["I", x123, [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68]],
    ["II", x123, [9.14, 8.14, 8.74, 8.77, 9.26, 8.1, 6.13, 3.1, 9.13, 7.26, 4.74]],
    ["III", x123, [7.46, 6.77, 12.74, 7.11, 7.81, 8.84, 6.08, 5.39, 8.15, 6.42, 5.73]],
    [
      "IV",
      [8, 8, 8, 8, 8, 8, 8, 19, 8, 8, 8],
      [6.58, 5.76, 7.71, 8.84, 8.47, 7.04, 5.25, 12.5, 5.56, 7.91, 6.89],
    ],
  ];
  it.each(sets)("gives Anscombe's line for set %s, as bills of 30 days each", (_, x, y) => {
    const fit = fitBills(
      x.map((value, i) => ({
        amount: 30 * y[i]!,
        days: 30,
        degreeDays_Kd: 30 * value,
        steadyShare: 30 / 365,
      })),
    )!;
    expectPrinted(fit.steady_per_year / 365, "3.00");
    expectPrinted(fit.slope_per_Kd, "0.500");
    // Printed as 0.67 in the set's usual summary; the four differ in the third digit.
    expectPrinted(fit.r2, "0.67");
    expectPrinted(fit.slopeError_per_Kd, "0.118");
  });

  it("finds again what bills of unequal length were made from, exactly (any steady use and slope)", () => {
    const figure = fc.double({ min: 0.1, max: 1e5, noNaN: true });
    const lengths = fc.array(fc.integer({ min: 20, max: 70 }), { minLength: 4, maxLength: 14 });
    fc.assert(
      fc.property(figure, figure, lengths, (steady, slope, days) => {
        const bills = days.map((count, i) => {
          const degreeDays_Kd = count * (1 + ((i * 7) % 5));
          const steadyShare = count / 365;
          return {
            days: count,
            degreeDays_Kd,
            steadyShare,
            amount: steady * steadyShare + slope * degreeDays_Kd,
          };
        });
        const fit = fitBills(bills)!;
        expectClose(fit.slope_per_Kd, slope, 1e-6 * Math.max(1, steady / slope));
        expectClose(fit.r2, 1, 1e-9);
      }),
    );
  });

  it("tells nothing where degree days only go with the length of a bill", () => {
    const bills = [20, 30, 40, 31].map((days) => ({
      amount: days * 7,
      days,
      degreeDays_Kd: days * 5,
      steadyShare: days / 365,
    }));
    expect(fitBills(bills)).toBeNull();
  });
});

describe("billYear(profile, quantity, inputs)", () => {
  it("reproduces bills of any length, with gaps and over New Year, to 1e-9 (any base share and weather)", () => {
    const cuts = fc.uniqueArray(fc.integer({ min: 0, max: 364 }), { minLength: 7, maxLength: 20 });
    const amounts = fc.array(fc.double({ min: 0, max: 1e7, noNaN: true }), { minLength: 20, maxLength: 20 });
    const share = fc.double({ min: 0.01, max: 1, noNaN: true });
    const kinds = fc.constantFrom(undefined, "heating" as const, "cooling" as const);
    fc.assert(
      fc.property(
        cuts,
        amounts,
        share,
        kinds,
        fc.integer({ min: 5, max: 25 }),
        (starts, each, b, kind, base) => {
          const days = [...starts].sort((p, q) => p - q);
          const date = (ordinal: number) =>
            new Date(Date.UTC(2025, 0, 1 + ordinal)).toISOString().slice(0, 10);
          const bills = days.map((day, i) => {
            const next = i + 1 < days.length ? days[i + 1]! : days[0]! + 365;
            // A day is left out before every third bill where there is room.
            const last = i % 3 === 0 && next - 2 >= day ? next - 2 : next - 1;
            return { from: date(day), to: date(last), amount: each[i]! };
          });
          const weather = kind === undefined ? {} : { weather: { for: kind, base_C: base } };
          const profile = profileOf({ bills, baseShare: b, ...weather });
          expect(billFaults(profile, "power", "heat")).toEqual([]);
          const { hourly, stretches } = yearOf(profile);
          for (const { from, to, amount } of bills)
            expectClose(between(hourly, from, to), amount, Math.max(1e-9 * amount, 1e-9));
          for (const one of stretches)
            expectClose(
              one.even + one.byCalendar + one.byWeather,
              one.amount,
              1e-9 * Math.max(1, one.amount),
            );
          for (const value of hourly) expect(value >= 0).toBe(true);
          expectClose(
            sum(hourly),
            stretches.reduce((total, { amount }) => total + amount, 0),
            1e-3,
          );
        },
      ),
      { numRuns: 40 },
    );
  });

  it("draws the base load day and night and the rest in the shifts", () => {
    const { hourly } = yearOf(profileOf());
    // Monday 16 June 2025, 03:00 and 12:00 of standard time; June has 30 days and 21 workdays of 12 h.
    const night = hourly[hourIndex(6, 16, 2)]!;
    const noon = hourly[hourIndex(6, 16, 11)]!;
    expectClose(night, (0.25 * 40_000) / 720, 1e-9);
    expectClose(noon - night, (0.75 * 40_000) / (21 * 12), 1e-9);
  });

  it("is with one bill of the year and no base load the calendar itself", () => {
    const bills = [{ from: "2024-07-01", to: "2025-06-30", amount: 1e6 }];
    const { hourly, stretches } = yearOf(profileOf({ bills, baseShare: 0 }));
    expect(stretches).toHaveLength(1);
    const level = 1e6 / sum(shares);
    for (let hour = 0; hour < 8760; hour += 1) expectClose(hourly[hour]!, level * shares[hour]!, 1e-9);
  });

  it("finds a weather share that bills were made with, and gives it to the cold hours", () => {
    const heating = ambient_C.map((air_C) => Math.max(0, 16 - air_C));
    const steady = 300_000;
    const bills = monthly(months.map(() => 0)).map((bill) => {
      const degreeDays = between(heating, bill.from, bill.to) / 24;
      const steadyPart =
        steady *
        ((0.25 * between(constantYear(1), bill.from, bill.to)) / 8760 +
          (0.75 * between(shares, bill.from, bill.to)) / sum(shares));
      return { ...bill, amount: steadyPart + 90 * degreeDays };
    });
    const { fit, stretches, hourly } = yearOf(profileOf({ bills, weather: { for: "heating", base_C: 16 } }));
    expectClose(fit!.slope_per_Kd, 90, 1e-6);
    expectClose(fit!.steady_per_year, steady, 1e-3);
    expectClose(fit!.r2, 1, 1e-9);
    expectClose(
      stretches.reduce((total, { byWeather }) => total + byWeather, 0),
      (90 * sum(heating)) / 24,
      1e-3,
    );
    // A winter Sunday's night against a summer Sunday's.
    expect(hourly[hourIndex(1, 12, 3)]!).toBeGreaterThan(3 * hourly[hourIndex(7, 13, 3)]!);
  });

  it("fills a missing month from the others and says so", () => {
    const bills = monthly(new Array<number>(12).fill(31_000)).filter((_, month) => month !== 7);
    const profile = profileOf({ bills, baseShare: 1 });
    const year = yearOf(profile);
    const gap = year.stretches.find(({ bill }) => bill === null)!;
    expect([gap.from, gap.to, gap.days]).toEqual(["08-01", "08-31", 31]);
    // Evenly: the others' mean power, 341 MWh in 8760 − 744 h.
    expectClose(gap.amount, (341_000 * 744) / (8760 - 744), 1e-6);
    expect(billFindings({ name: "Washing" }, profile, "power", year, "loads/0/heat_kW")).toMatchObject([
      {
        code: "BILL_FILLED",
        message:
          "Washing: 31 days have no bill (08-01 to 08-31); the bills' mean by base load and calendar gives them 31,600 kWh, 8.49 % of the year.",
      },
    ]);
  });

  it("turns fuel into heat on either heating value, and metered into norm volume", () => {
    // Natural gas: gross over net near 1.11 (EN ISO 6976, from memory); the same boiler on both bases.
    const fuel = (kWh_per_unit: number, efficiency: number, heatingValueIs: "net" | "gross") =>
      ({ kWh_per_unit, efficiency, heatingValueIs }) as const;
    const heat = (unit: BillsProfile["unit"], meter: BillsProfile["fuel"]) =>
      sum(yearOf(profileOf({ unit, bills: monthly(new Array(12).fill(1000)), fuel: meter! })).hourly);
    expectClose(heat("Nm3", fuel(10, 0.9, "net")), 12_000 * 9, 1e-6);
    expectClose(heat("Nm3", fuel(11.1, 0.9 / 1.11, "gross")), 12_000 * 9, 1e-6);
    // Ideal gas law: 0.3 bar gauge at 15 °C is 1.31325/1.01325 · 273.15/288.15 norm m³.
    const norm_per_metered = (1.31325 / 1.01325) * (273.15 / 288.15);
    expectClose(
      heat("m3", { ...fuel(10, 0.9, "net"), norm_per_metered }),
      12_000 * 9 * norm_per_metered,
      1e-6,
    );
    expectClose(heat("t", fuel(11.9, 0.85, "net")), 12_000 * 1000 * 11.9 * 0.85, 1e-3);
    // 1 kWh = 3.6 MJ (SI).
    const energy = (unit: BillsProfile["unit"]) =>
      sum(yearOf(profileOf({ unit, bills: monthly(new Array(12).fill(1000)) })).hourly);
    expectClose(energy("GJ"), 12_000 / 0.0036, 1e-3);
    expectClose(energy("MJ"), 12_000 / 3.6, 1e-6);
  });

  it("spreads tonnes of steam and litres of water as well", () => {
    const bills = monthly(new Array(12).fill(10));
    expectClose(sum(yearOf(profileOf({ unit: "t", bills }), "mass-flow").hourly), 120_000, 1e-6);
    expectClose(sum(yearOf(profileOf({ unit: "L", bills }), "volume-flow").hourly), 0.12, 1e-12);
  });

  it("keeps the use of a 29 February within its bill", () => {
    const bills = [{ from: "2024-02-15", to: "2024-03-14", amount: 500 }, ...restOf2024()];
    const profile = profileOf({ bills });
    const year = yearOf(profile);
    expectClose(between(year.hourly, "2025-02-15", "2025-03-14"), 500, 1e-9);
    const codes = billFindings({ name: "W" }, profile, "power", year, "p").map(({ code }) => code);
    expect(codes).toEqual(["BILL_LEAP_DAY"]);
  });
});

function restOf2024(): BillsProfile["bills"] {
  return [{ from: "2024-03-15", to: "2025-02-14", amount: 9000 }];
}

describe("faults of bills", () => {
  const codesOf = (profile: BillsProfile, quantity: "power" | "mass-flow" = "power") =>
    billFaults(profile, quantity, "heat").map(({ code, place }) => `${code} ${place.path}`);
  const meter = { kWh_per_unit: 10, heatingValueIs: "net", efficiency: 0.9 } as const;
  const cases: [string, BillsProfile, string[]][] = [
    ["no bill", profileOf({ bills: [] }), ["BILL_NONE heat/bills"]],
    [
      "dates that are none, and an end before the start",
      profileOf({
        bills: [
          { from: "2025-02-30", to: "2025-04-31", amount: 1 },
          { from: "2025-06-10", to: "2025-06-01", amount: 1 },
        ],
      }),
      ["BILL_DATE heat/bills/0/from", "BILL_DATE heat/bills/0/to", "BILL_DATE heat/bills/1/to"],
    ],
    [
      "a day billed twice, of two years",
      profileOf({
        bills: [...monthly(new Array(12).fill(1)), { from: "2026-01-15", to: "2026-02-03", amount: 1 }],
      }),
      ["BILL_DAYS_TWICE heat/bills/12", "BILL_DAYS_TWICE heat/bills/12"],
    ],
    ["half a year", profileOf({ bills: monthly([1, 1, 1, 1, 1, 1]) }), ["BILL_UNBILLED heat/bills"]],
    ["litres of a heat", profileOf({ unit: "L" }), ["BILL_UNIT heat/unit"]],
    ["a heating value of energy", profileOf({ unit: "MWh", fuel: meter }), ["BILL_FUEL heat/fuel"]],
    [
      "more than all of the gross heating value",
      profileOf({ unit: "m3", fuel: { ...meter, heatingValueIs: "gross", efficiency: 1.05 } }),
      ["BILL_FUEL heat/fuel"],
    ],
    [
      "norm volume of norm volume",
      profileOf({ unit: "Nm3", fuel: { ...meter, norm_per_metered: 1.2 } }),
      ["BILL_FUEL heat/fuel"],
    ],
    [
      "a regression of four bills, of which one has degree days",
      profileOf({
        weather: { for: "heating", base_C: 15 },
        bills: [1, 4, 7, 10].map((month, i) => ({
          from: `2025-${two(month)}-01`,
          to: `2025-${two(month + 2)}-${months[month + 1]}`,
          amount: 10,
          ...(i === 0 ? { degreeDays_Kd: 100 } : {}),
        })),
      }),
      [
        "BILL_FEW heat/weather",
        "BILL_DEGREE_DAYS heat/bills/1/degreeDays_Kd",
        "BILL_DEGREE_DAYS heat/bills/2/degreeDays_Kd",
        "BILL_DEGREE_DAYS heat/bills/3/degreeDays_Kd",
      ],
    ],
  ];
  it.each(cases)("tell of %s", (_, profile, expected) => {
    expect(codesOf(profile)).toEqual(expected);
  });

  it("tell fuel for a mass flow, in words", () => {
    expect(billFaults(profileOf({ unit: "kg", fuel: meter }), "mass-flow", "flow")[0]!.message).toBe(
      "Fuel is turned into heat, and the load is a mass in kg/h; leave the fuel out, or bill a load in kW.",
    );
  });

  it("tell a bill on days without work and without base load; with base load it goes evenly, as is remarked", () => {
    const closed = calendarShares({ ...workdays, closed: [{ from: "08-01", to: "08-31" }] }, clock);
    const year = (profile: BillsProfile) => billYear(profile, "power", { clock, shares: closed, ambient_C });
    const without = profileOf({ baseShare: 0 });
    expect(
      billHourFaults(without, year(without), "heat").map(({ code, place }) => [code, place.path]),
    ).toEqual([["BILL_NOWHERE", "heat/bills/7"]]);
    const withBase = profileOf({ baseShare: 0.1 });
    expect(billHourFaults(withBase, year(withBase), "heat")).toEqual([]);
    expect(
      billFindings({ name: "W" }, withBase, "power", year(withBase), "heat").map(({ code }) => code),
    ).toEqual(["BILL_ALL_EVEN"]);
    expectClose(between(year(withBase).hourly, "2025-08-01", "2025-08-31"), 30_000, 1e-6);
  });

  it("tell a regression that is weak, of the wrong sign, or cannot be", () => {
    const codes = (profile: BillsProfile) =>
      billFindings({ name: "W" }, profile, "power", yearOf(profile), "heat").map(({ code }) => code);
    const heating = { for: "heating", base_C: 15 } as const;
    const odd = monthly([9, 2, 8, 1, 7, 2, 6, 3, 9, 1, 8, 9]);
    expect(codes(profileOf({ weather: heating, bills: odd }))).toEqual(["BILL_FIT_WEAK"]);
    expect(codes(profileOf({ weather: { for: "cooling", base_C: 15 } }))).toEqual(["BILL_NO_WEATHER"]);
    expect(codes(profileOf({ weather: { for: "heating", base_C: -20 } }))).toEqual(["BILL_NO_WEATHER"]);
  });

  it("have a case for every code", () => {
    const told = new Set([
      ...cases.flatMap(([, , codes]) => codes.map((code) => code.split(" ")[0])),
      "BILL_NOWHERE",
    ]);
    expect(Object.keys(billProblems).filter((code) => !told.has(code))).toEqual([]);
    expect(Object.keys(billRemarkCodes)).toHaveLength(5);
  });
});
