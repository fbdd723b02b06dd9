import { civilLabel, studyCalendar } from "../calendar.ts";
import { inWords } from "./in-words.ts";
import {
  batchCauses,
  type Cause,
  coldCauses,
  heatCauses,
  hoursOutOfUse,
  type PricedAnswer,
  waterCauses,
} from "./lack-causes.ts";
import { lackTime, shortLabel } from "./lack-time.ts";
import type { Conflict } from "./result.ts";

/** Lacks below this, in kW or m³/h, are rounding. */
const tolerance = 1e-6;

/**
 * Heat, cold or water that cannot be met: of which network or load, how much, in which hours, and which
 * limits keep it so by the prices of the answer, in which unmet demand is dearer than anything else.
 */
export function unmetConflicts(answer: PricedAnswer): Conflict[] {
  const { model, plan, formulation } = answer;
  const { problem } = formulation;
  const conflicts: Conflict[] = [];
  const add = (lack: Lack) => {
    const conflict = conflictOf(lack, answer);
    if (conflict !== null) conflicts.push(conflict);
  };
  const nameOf = (id: string) =>
    [...model.study.networks, ...model.study.loads].find((item) => item.id === id)?.name ?? id;
  plan.hours.networks.forEach(({ id, unmet_kW }, k) => {
    add({
      what: "Heat",
      name: nameOf(id),
      unit: "kWh",
      rate: "kW",
      series: unmet_kW,
      causes: () => heatCauses(answer, k),
      advice:
        hoursOutOfUse(answer, k) > 0
          ? "give another backup for these hours, move the outage or lower the demand."
          : "give a backup of that power or lower the demand.",
      network: id,
    });
  });
  plan.hours.cold.forEach(({ id, unmet_kW }, c) => {
    add({
      what: "Cold",
      name: nameOf(id),
      unit: "kWh",
      rate: "kW",
      series: unmet_kW,
      causes: () => coldCauses(answer, c),
      advice: "give the electric chiller that power or lower the demand.",
    });
  });
  plan.hours.water.forEach(({ id, unmet_m3_h }, w) => {
    add({
      what: "Water",
      name: nameOf(id),
      unit: "m³",
      rate: "m³/h",
      series: unmet_m3_h,
      causes: () => waterCauses(answer, w),
      advice: "raise the plant's capacity or its tank, or order less.",
    });
  });
  plan.hours.batches.forEach(({ id, unmet_kWh }, i) => {
    const { windows, network } = problem.batches[i];
    // A window's lack stands at the hour in which it opens.
    const opening = new Float64Array(problem.blocks);
    unmet_kWh.forEach((lack, n) => {
      opening[windows[n][0]] += lack / problem.step_h;
    });
    add({
      what: "Batch heat",
      name: nameOf(id),
      unit: "kWh",
      rate: "kWh",
      series: opening,
      causes: () => batchCauses(answer, i),
      advice: "lengthen the window or raise its power.",
      network: problem.networks[network].id,
      isWindow: true,
    });
  });
  return conflicts;
}

interface Lack {
  readonly what: string;
  readonly name: string;
  readonly unit: string;
  readonly rate: string;
  readonly series: Float64Array;
  readonly causes: () => Cause[];
  readonly advice: string;
  readonly network?: string;
  readonly isWindow?: boolean;
}

function conflictOf(lack: Lack, { model, formulation }: PricedAnswer): Conflict | null {
  const { problem } = formulation;
  const { unit, rate, name } = lack;
  const series = lack.series.map((value) => (value > tolerance ? value : 0));
  let amount = 0;
  let count = 0;
  for (let t = 0; t < series.length; t += 1) {
    if (series[t] === 0) continue;
    const hours = series.length === problem.blocks ? problem.weight[t] * problem.step_h : 1;
    amount += series[t] * hours;
    count += hours;
  }
  if (amount <= tolerance) return null;
  const what = `${lack.what} of ${name}`;
  const causes = lack.causes();
  const because = causes.map(({ words }) => words).join(", ");
  const found = {
    what,
    by: amount,
    unit,
    ...(lack.network === undefined ? {} : { network: lack.network }),
    causes: causes.map(({ words: _, ...cause }) => cause),
  };
  const many = lack.isWindow === true ? (count === 1 ? "batch" : "batches") : count === 1 ? "hour" : "hours";
  const lacks = `${name} lacks ${inWords(amount)} ${unit} a year, in ${inWords(count)} ${many}`;
  // Only a whole year has a clock; typical days are told by amount alone.
  if (series.length !== 8760) {
    const most = series.reduce((a, b) => Math.max(a, b), 0);
    return {
      ...found,
      sentence: `${lacks}, up to ${inWords(most)} ${rate} at once; ${because}: ${lack.advice}`,
    };
  }
  const calendar = studyCalendar(model.study.site);
  const { first, last, worst, mostly } = lackTime(series, calendar);
  const at = civilLabel(calendar, worst);
  const when = count > 1 ? ` (worst ${shortLabel(at)})` : ` (${shortLabel(at)})`;
  const most = mostly === "" ? "" : `, most ${mostly}`;
  return {
    ...found,
    hours: { count, first, last },
    worst: { at, lacks: series[worst], unit: rate },
    sentence: `${lacks}, up to ${inWords(series[worst])} ${rate} at once${when}${most}; ${because}: ${lack.advice}`,
  };
}
