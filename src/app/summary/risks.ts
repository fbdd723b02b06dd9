import type { MonthFigures, Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { cautionsFor } from "../../core/summary/cautions.ts";
import { joined } from "../../present/joined.ts";
import { asGiven } from "../../present/numbers.ts";
import { replaysIn } from "../../present/promised.ts";
import { energy, percent, power } from "../../present/quantities.ts";
import { replayRemarks } from "../../present/replay-view.ts";
import { writingOf } from "../../present/writing-of.ts";
import type { NoteBook } from "./notes.ts";
import { inSentence } from "./offer.ts";
import { joinedProse, type Prose, prose } from "./prose.ts";

const foresightSentence =
  "These figures assume perfect foresight: the plant is run as if the next days were known. It was not run " +
  "without foresight, so take them as the bound, and promise less.";

const replaySentence =
  "The figures are those of one way of running the plant through one year. A poorer controller, or hands that " +
  "overrule it, give less; the sizes themselves were found with perfect foresight.";

/** What could go wrong with the offer, a sentence or two each, the weightiest first; `result` has the promised figures. */
export function risks(study: Study, result: Result, notes: NoteBook): Prose[] {
  const w = writingOf(study);
  const { annual } = result;
  const chosen = new Set(result.sizes.collectors.filter((c) => c.aperture_m2 > 0.5).map(({ id }) => id));
  const collectors = study.collectors.filter(({ id }) => chosen.has(id));
  const replayed = replaysIn(result) !== null;
  const list: Prose[] = [prose`${replayed ? replaySentence : foresightSentence}`];
  if (annual.unmet_kWh > 1 || annual.unmetCold_kWh > 1 || annual.unmetWater_m3 > 0.1)
    for (const remark of replayRemarks(study, result).slice(0, 1)) list.push(prose`${remark}`);

  const origins = study.origins ?? [];
  const assumed = origins.filter(({ status }) => status === "assumption").length;
  if (assumed > 0)
    list.push(
      prose`${asGiven(assumed, w.locale)} values of the study are assumptions that nobody has confirmed; the annex lists them. Confirm them before the offer is relied on.`,
    );

  const { typicalDays } = result;
  const offers = result.status !== "infeasible" && collectors.length > 0;
  if (offers && result.proof.method === "typical-days" && typicalDays !== null)
    list.push(
      prose`The sizes were found on ${asGiven(typicalDays.days.length)} typical days, which promised a solar fraction of ${notes.figure(percent(typicalDays.solarFraction, w), "typicalDays")}; the figures here are of the full year at those sizes. Sizing on the full year may find a better plant.`,
    );

  const changes = filmChanges(collectors);
  if (changes.length > 0)
    list.push(
      prose`${changes.join(" ")} Where it is not, or tears earlier, the field gives less and the saving falls.`,
    );

  const backups = result.networks.filter(({ peakBackup_kW }) => peakBackup_kW > 0.5);
  if (backups.length > 0) {
    const peaks = backups.map(
      (n) => prose`${notes.figure(power(n.peakBackup_kW, w), "backupPeak")} on ${inSentence(n.name)}`,
    );
    const worst = worstMonth(result.months);
    const least =
      worst === null || !offers
        ? prose``
        : prose` In ${monthName(worst.month)} sun and stores give only ${notes.figure(percent(solarShare(worst), w), "months")}.`;
    list.push(
      prose`Today’s boilers must stay ready: the worst hour still asks them for ${joinedProse(peaks)}.${least}`,
    );
  }

  const storms = collectors.map(({ id, name }) => {
    const stowed = result.match.find((row) => row.collector === id)?.stowedHours ?? 0;
    const hours = notes.figure(`${asGiven(Math.round(stowed), w.locale)} hours`, "stowed");
    const lost = notes.figure(energy(stormLoss_kWh(result, id), w), "stowed");
    return prose`${inSentence(name)} ${hours}, ${lost} of light lost`;
  });
  if (storms.length > 0)
    list.push(
      prose`In wind the mirrors are stowed and give nothing (this year ${joinedProse(storms)}). A rarer storm than the weather file holds is not in the figures.`,
    );

  if (annual.collected_kWh > 0 && annual.spilled_kWh / annual.collected_kWh > 0.1)
    list.push(
      prose`${notes.figure(percent(annual.spilled_kWh / annual.collected_kWh, w), "spill")} of the heat that the field could collect (${energy(annual.spilled_kWh, w)}) finds no use and is spilled.`,
    );

  list.push(
    prose`Savings move with the price of fuel and with the factory’s demand: where either falls, they fall too.`,
  );
  if (offers) for (const { binding, sentence } of result.limits) if (binding) list.push(prose`${sentence}`);

  const hazards = cautionsFor(study).map(({ title }) => inSentence(title));
  if (hazards.length > 0)
    list.push(
      prose`The work has hazards: ${hazards.length > 5 ? `${hazards.slice(0, 5).join(", ")} and others` : joined(hazards)}; see Cautions.`,
    );
  return list;
}

/** Light on all of a collector's aperture while stowed, in a year. */
function stormLoss_kWh({ collectors, sizes }: Result, id: string): number {
  return sizes.collectors
    .filter((field) => field.id === id)
    .reduce((sum, { network, aperture_m2 }) => {
      const figures = collectors.find((each) => each.id === id && each.network === network);
      return sum + aperture_m2 * (figures?.losses.storm ?? 0);
    }, 0);
}

function filmChanges(collectors: Study["collectors"]): string[] {
  return collectors.flatMap(({ name, filmPart, parts }) => {
    const film = parts.find((part) => part.name === filmPart);
    return film === undefined
      ? []
      : [`The film of the ${inSentence(name)} must be changed every ${asGiven(film.life_years)} years.`];
  });
}

export function solarShare(month: MonthFigures): number {
  return (month.direct_kWh + month.fromStore_kWh) / month.demand_kWh;
}

function worstMonth(months: readonly MonthFigures[]): MonthFigures | null {
  const wanting = months.filter(({ demand_kWh }) => demand_kWh > 0);
  return wanting.reduce<MonthFigures | null>(
    (worst, month) => (worst === null || solarShare(month) < solarShare(worst) ? month : worst),
    null,
  );
}

export function monthName(month: number): string {
  return new Intl.DateTimeFormat("en", { month: "long", timeZone: "UTC" }).format(
    Date.UTC(2001, month - 1, 1),
  );
}
