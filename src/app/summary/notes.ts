import type { Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { controllerRules } from "../../present/controller-rules.ts";
import { asGiven, threeDigits, withDecimals } from "../../present/numbers.ts";
import { energy, money, percent } from "../../present/quantities.ts";
import { writingOf } from "../../present/writing-of.ts";
import type { Run } from "./prose.ts";
import { yieldLimits } from "./yield-limits.ts";

/** One note: what the figure is, its equation and what goes in. */
export interface Note {
  readonly number: number;
  readonly name: string;
  readonly equation: string;
  readonly input: string;
}

/** Gives each kind of figure a number by first use, and lists the notes in that order. */
export interface NoteBook {
  readonly number: (key: NoteKey) => number;
  readonly figure: (words: string, key: NoteKey) => Run;
  readonly list: () => Note[];
}

export function noteBook(study: Study, result: Result): NoteBook {
  const used: NoteKey[] = [];
  const number = (key: NoteKey) => {
    if (!used.includes(key)) used.push(key);
    return used.indexOf(key) + 1;
  };
  return {
    number,
    figure: (words, key) => ({ words, note: number(key) }),
    list: () =>
      used.map((key, index) => {
        const [name, equation, input] = catalogue[key];
        return { number: index + 1, name, equation, input: input(study, result) };
      }),
  };
}

type Entry = readonly [string, string, (study: Study, result: Result) => string];
export type NoteKey = keyof typeof catalogue;

const cost = "Σ price × CRF(r, life) + upkeep";
const period = ({ money: m }: Study) =>
  `r = ${withDecimals(m.realDiscountRate * 100, 1, m.locale)} % real, N = ${m.years} years`;
const shown = (value_kWh: number, study: Study) => energy(value_kWh, writingOf(study));
const paid = (value: number, study: Study) => money(value, writingOf(study));

const catalogue = {
  aperture: [
    "Aperture",
    `the A in: minimise Σ A·a + Σ E·a + Σ X·a + Σ over the hours of (fuel + electricity + carbon), a = ${cost}`,
    (study) => `prices and lives of the parts; ${period(study)}`,
  ],
  store: [
    "Stores, kWh and m³",
    "E of the same program; V = E / (ρ·c·(hot − cold)·usable share)",
    (study) =>
      study.stores
        .map(
          (s) => `${s.name}: ${asGiven(s.hot_C)}/${asGiven(s.cold_C)} °C, usable ${asGiven(s.usableShare)}`,
        )
        .join("; ") || "no store offered",
  ],
  equipment: [
    "Chillers, exchangers, boilers",
    "X of the same program: the largest power that pays, in kW of cold for chillers",
    () => "their prices, efficiencies and COPs in the assumptions",
  ],
  solarFraction: [
    "Solar fraction",
    "f = 1 − (backup + unmet heat) / heat demand, over the year",
    (study, { annual }) =>
      `backup ${shown(annual.backup_kWh, study)} of ${shown(annual.demand_kWh, study)}; heat for absorption chillers is in the demand`,
  ],
  avoided: [
    "Fuel and electricity cost avoided",
    "cost of today’s plant − cost with the new plant, first-year prices, electricity of pumps, drives and blowers counted",
    (study, { annual }) =>
      `${paid(annual.fuelCostBaseline, study)} − ${paid(annual.fuelCostWithSolar, study)}; carbon price left out`,
  ],
  avoidedPeriod: [
    "Cost avoided over the period",
    "Σ over years t of avoided × (1 + rise)^(t − 1), each fuel and electricity with its own rise, real, not discounted",
    (study) =>
      `N = ${study.money.years} years; rise a year: ${[
        ...study.backups.map((b) => `${b.name} ${percent(b.fuel.escalation_per_year, writingOf(study))}`),
        `electricity ${percent(study.electricity.escalation_per_year, writingOf(study))}`,
      ].join(", ")}`,
  ],
  withoutCollectors: [
    "Saved without collectors",
    "cost of today’s plant − cost with new tanks, exchangers, chillers and boilers but A = 0, sized by the same program",
    (study, { baseline: b, withoutCollectors: w }) =>
      `${paid(b.fuelCost + b.electricityCost, study)} − ${paid(w.fuelCost + w.electricityCost, study)}`,
  ],
  solarCost: [
    "Levelised cost of solar heat",
    "(annual cost of collectors, heat stores and their electricity) / solar heat used",
    (study, { levelised: l, annual: a }) =>
      `${paid(l.annualSolarPlant, study)} / ${shown(a.solarUsed_kWh, study)}; ${period(study)}; chillers and step-downs not in it`,
  ],
  backupCost: [
    "Levelised cost of backup heat",
    "price / efficiency × levelisation factor of the price rise",
    (study) => period(study),
  ],
  payback: [
    "Pay-back",
    "simple: first cost / (cost avoided in the first year − upkeep − mean yearly replacements); discounted: years until flows worth (1 + r)^−t have repaid all that was spent, the value left at the end not counted",
    (study, { money: m }) => `first cost ${paid(m.initialCapital, study)}; ${period(study)}`,
  ],
  npv: [
    "Net present value, internal rate of return",
    "NPV = Σ net_t / (1 + r)^t; IRR is the r at which NPV = 0",
    (study) => period(study),
  ],
  owner: [
    "The owner’s money",
    "money of the day = real money × (1 + inflation)^t; tax = rate × (earned less upkeep − replacements − written off − interest); to the owner = what is left after tax, interest and repayment",
    ({ money: m }) =>
      [
        `inflation ${asGiven((m.inflation_per_year ?? 0) * 100, m.locale)} %`,
        ...(m.tax === undefined ? [] : [`tax ${asGiven(m.tax.rate * 100, m.locale)} %`]),
        ...(m.loan === undefined
          ? []
          : [
              `loan ${asGiven(m.loan.share * 100, m.locale)} % at ${asGiven(m.loan.interest_per_year * 100, m.locale)} % over ${m.loan.years} years`,
            ]),
      ].join("; "),
  ],
  contract: [
    "Price of heat",
    "lowest: NPV of the seller’s own money at the wanted return = 0; highest: NPV of (cost avoided − payments) at r = 0; contract: lowest + seller’s share × (highest − lowest)",
    ({ money: m }) =>
      `wanted return ${asGiven((m.contract?.wantedReturn_per_year ?? 0) * 100, m.locale)} % real; seller’s share ${asGiven((m.contract?.sellerShare ?? 0) * 100, m.locale)} %`,
  ],
  pricePaths: [
    "Other courses of prices",
    "the cash flow of the same plant, run the same way, with each year’s prices on that course",
    ({ money: m }) => [...new Set((m.pricePaths ?? []).map(({ name }) => name))].join("; "),
  ],
  capital: ["First cost", "Σ size × price of all parts, new plant only", () => "the table of parts"],
  land: [
    "Land",
    "Σ aperture / ground cover",
    (study) => study.collectors.map((c) => `${c.name} ${asGiven(c.groundCover)} m²/m²`).join("; "),
  ],
  backupPeak: [
    "Backup still needed",
    "largest hourly backup of the year, by heat network",
    () => "the hourly run",
  ],
  stowed: [
    "Storm hours",
    "hours with a mean wind above the limit, and the hours until the mirrors are back; light lost = aperture × Σ light on it in these hours, outside planned outages",
    (study) =>
      study.collectors
        .map(
          ({ name, storm: { stowWind_m_s, returnWind_m_s, backAfter_h } }) =>
            `${name} ${asGiven(stowWind_m_s)} m/s, ${returnWind_m_s === undefined ? "" : `back at ${asGiven(returnWind_m_s)} m/s, `}${asGiven(backAfter_h)} h`,
        )
        .join("; "),
  ],
  spill: [
    "Spilled heat",
    "Σ of heat that the field could have collected and nobody could use",
    (study, { annual: a }) =>
      `${shown(a.spilled_kWh, study)} of ${shown(a.collected_kWh, study)} collectable`,
  ],
  typicalDays: [
    "Typical days",
    "each chosen day stands for its weight of days in the year; the program is solved over them, then run over all hours",
    (_, { typicalDays: t }) =>
      t === null
        ? "not used"
        : t.days.map((d) => `day ${d.dayOfYear} × ${asGiven(Math.round(d.weight * 10) / 10)}`).join(", "),
  ],
  cold: [
    "Cold",
    "heat to the absorption chiller × COP; what is left of the demand falls to the electric chiller",
    (study) =>
      study.chillers
        .map(
          (c) =>
            `${c.name} COP ${asGiven(c.cop, study.money.locale)}${c.byTemperature === undefined ? "" : " at its rated point, by its cooling water from hour to hour"}`,
        )
        .join("; ") || "no absorption chiller",
  ],
  months: [
    "Heat by month",
    "Σ over the month’s hours: solar used at once, from store, backup, spilled",
    () => "the hourly run, all heat networks",
  ],
  hours: [
    "Heat by hour",
    "solar + backup + from store + stepped in + unmet = demand + into store + stepped out, each network and hour",
    () => "the hourly run",
  ],
  curve: [
    "Area curve",
    "lines: plants of other apertures in the optimum’s proportions, each run over the full year by the simple controller, which is what is promised; rings: the linear program’s least annual cost at that total aperture with perfect foresight, which is the bound",
    () => "one line for each store size; the bound chooses split, stores and other sizes anew",
  ],
  networks: [
    "Heat of a year, by network",
    "solar fraction of a network = (solar + σ_hot·stepped in) / (solar + backup + stepped in), from hot to cool",
    () => "sums over the hourly run",
  ],
  loads: [
    "Loads",
    "each load by its own physics, as the last column says",
    (study) => study.loads.map((l) => l.name).join(", "),
  ],
  match: [
    "Match of collectors and networks",
    "useful heat of 1 m² of aperture: Σ over the hours of ((DNI·cos θ·K(θ)·shading·end loss + diffuse·Kd)·cleanliness·η0 − loss at the mean fluid temperature), less warm-up, none while stowed; cost = a / useful heat",
    (study) =>
      [
        "collectors in the assumptions, weather of the study; before spill",
        ...study.collectors
          .map((c) => yieldLimits(c, writingOf(study).locale))
          .filter((words) => words !== ""),
      ].join("; "),
  ],
  losses: [
    "Where the light goes",
    "DNI + diffuse light on the aperture − each loss after the other = useful heat of 1 m² of aperture; used = useful − spilled",
    () =>
      "the collectors’ hours, as under the match; what a heat network spills is shared among its collectors in proportion to what they could give",
  ],
  parts: [
    "Parts",
    "first cost = size × price; annual cost = first cost × CRF(r, life) + upkeep; CRF = r / (1 − (1 + r)^−life)",
    (study) => period(study),
  ],
  cashFlow: [
    "Cash flow",
    "net_t = avoided_t − upkeep − replacements_t; value left = price × CRF(r, life) × (1 − (1 + r)^−years left) / r, in the last year",
    (study) => `constant prices of the first year; flows at the end of each year; ${period(study)}`,
  ],
  costs: [
    "Three ways to run",
    "fuel = Σ backup / efficiency; cost at first-year prices; CO₂ = Σ fuel × factor + electricity × factor",
    (study) => {
      const factor = study.electricity.co2_kg_per_kWh;
      return factor === undefined
        ? "fuel factors of IPCC 2006 unless given; electricity’s CO₂ not known and left out"
        : `fuel factors of IPCC 2006 unless given; electricity ${threeDigits(factor, study.money.locale)} kg/kWh`;
    },
  ],
  replay: [
    "Run without foresight",
    "the same plant hour by hour: sun first, then what can wait and stores, stores before backup; the two-day plan solves a small program each midnight; dearer by = its yearly cost at levelised prices − that of perfect foresight",
    (study) => controllerRules(study).slice(1).join(" "),
  ],
  prices: [
    "What the prices say",
    "saving = −d, d = cost of a unit − Σ shadow price × entry; an unbuilt item enters at (1 − d / its price) of its price",
    (_, { proof: p }) =>
      `shadow prices of the ${p.method === "full-year" ? "full year’s" : "typical days’"} program; for small changes, one at a time`,
  ],
  objective: [
    "Objective, gap and residuals",
    "recomputed from the written answer by code apart from the solver; gap = |primal − dual| / (1 + |primal|)",
    (_, { proof: p }) => `${p.columns} columns, ${p.rows} rows`,
  ],
} as const satisfies Readonly<Record<string, Entry>>;
