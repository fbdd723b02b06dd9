import { tell } from "../../core/problem.ts";
import { pinchFigures } from "../../core/study/pinch-figures.ts";
import type { Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { cautionsFor, deferenceSentence } from "../../core/summary/cautions.ts";
import { notIncluded } from "../../core/summary/not-included.ts";
import { embedStudy } from "../../formats/summary-study.ts";
import { builtYears, standstillSentences } from "../../present/collector-losses.ts";
import { contractView } from "../../present/contract-view.ts";
import { financeView } from "../../present/finance-view.ts";
import { joined } from "../../present/joined.ts";
import { pricePathsTable, truePriceSentences } from "../../present/money-detail.ts";
import { asGiven } from "../../present/numbers.ts";
import { pinchNetworksTable, pinchSentences } from "../../present/pinch-view.ts";
import { entriesTable, pricesInShort } from "../../present/prices-view.ts";
import { promisedResult, replaysIn } from "../../present/promised.ts";
import { proofSentences, proofTable } from "../../present/proof-view.ts";
import { heatPrice, money } from "../../present/quantities.ts";
import { promisedMoneyTable } from "../../present/replay-table.ts";
import { replayRemarks } from "../../present/replay-view.ts";
import {
  costsTable,
  loadsTable,
  matchRemarks,
  matchTable,
  moneyTable,
  networksTable,
} from "../../present/result-tables.ts";
import { writingOf } from "../../present/writing-of.ts";
import type { SizedStudy, StudyBundle, StudyDocument } from "../types.ts";
import { version } from "../version.ts";
import { assumptionGroups } from "./assumptions.ts";
import { type NoteBook, noteBook } from "./notes.ts";
import { inSentence, nameOf, offerFigures, offerSentence, promiseWords } from "./offer.ts";
import { risks } from "./risks.ts";
import { siteNeeds } from "./site-needs.ts";
import { lossesChart, summaryCharts } from "./summary-charts.ts";
import { cashFlowTable, noted, partsTable, ratesTable, withoutZeroRows } from "./summary-tables.ts";
import { systemWords } from "./system-words.ts";

export type SummaryDocument = StudyDocument & {
  readonly bundle: StudyBundle;
  /** ISO date to print on the summary. */
  readonly today: string;
};

export type SummaryView = ReturnType<typeof summaryView>;

/** Everything that views/summary/summary.ejs shows, as text, numbered by the notes. */
export function summaryView(document: SummaryDocument) {
  const { study, resolved, sized, stale, bundle, today } = document;
  return {
    title: study.title,
    client: study.client ?? "",
    author: study.author ?? "",
    note: study.note ?? "",
    site: study.site.name,
    date: longDate(today),
    isoDate: today,
    version,
    stale,
    answer: sized === null ? null : answerPart(document, sized),
    weather: weatherWords(document),
    rates: ratesTable(study),
    assumptions: assumptionGroups(study),
    counts: originCounts(document),
    remarks: firstOf(sized === null ? resolved.findings.map(tell) : sized.result.findings),
    notIncluded: notIncluded(study).map(splitAtColon),
    streams: streamsPart(study),
    cautions: cautionsFor(study),
    deference: deferenceSentence,
    embedded: embedStudy(bundle, resolved),
  };
}

/** Targets of the process streams, for engineers; null without streams. */
function streamsPart(study: Study) {
  const figures = pinchFigures(study);
  if (figures === null) return null;
  return { sentences: pinchSentences(study, figures), table: pinchNetworksTable(study, figures) };
}

function answerPart(document: SummaryDocument, sized: SizedStudy) {
  const { study } = document;
  const { result } = sized;
  const infeasible = result.status === "infeasible";
  // Where limits conflict nothing is promised, so nothing is replaced.
  const promised = infeasible ? result : promisedResult(result);
  const notes = noteBook(study, promised);
  const replays = infeasible ? null : replaysIn(result);
  // Notes are numbered by first use, so the parts are made in the order in which they are read.
  return {
    infeasible,
    stopped: result.status === "stopped",
    conflicts: result.conflicts.map(({ sentence }) => sentence),
    sentence: offerSentence(study, promised, notes),
    promise: infeasible ? null : promiseWords(study, result, notes),
    figures: infeasible || !(result.sizes.initialCapital > 0) ? [] : offerFigures(study, promised, notes),
    needs: siteNeeds(study, result, notes),
    risks: risks(study, promised, notes),
    system: systemWords(study, promised, notes),
    loads: noted(loadsTable(study, result), notes, "loads"),
    networks: noted(withoutZeroRows(networksTable(study, promised)), notes, "networks"),
    match: noted(matchTable(study, result), notes, "match"),
    matchRemarks: matchRemarks(result),
    losses: infeasible ? null : lossesChart(study, promised, notes),
    standstill: infeasible ? [] : standstillSentences(study, builtYears(study, result)),
    parts: noted(partsTable(study, result), notes, "parts"),
    pricesInShort: pricesInShort(study, result),
    pricesNote: (result.prices ?? null) === null ? null : notes.number("prices"),
    charts: summaryCharts(document, { ...sized, result: promised }, notes),
    isReplayed: replays !== null,
    replayRemarks: replays === null ? [] : replayRemarks(study, result),
    money:
      replays !== null
        ? noted(promisedMoneyTable(study, result, replays), notes, "replay")
        : noted(moneyTable(study, result), notes, "npv"),
    otherCosts: replays === null ? "" : otherCosts(study, result),
    moneyRemarks: promised.money.remarks,
    costs: noted(costsTable(study, promised), notes, "costs"),
    cashFlow: noted(cashFlowTable(study, promised), notes, "cashFlow"),
    ...moneyAround(study, promised, notes),
    prices:
      (result.prices ?? null) === null
        ? null
        : noted(entriesTable(result.prices!.entries, writingOf(study)), notes, "prices"),
    proofSentences: proofSentences(study, result),
    proof: noted(proofTable(study, result), notes, "objective"),
    notes: notes.list(),
  };
}

/** What the money table by foresight has no room for, since it is the same in every column. */
function otherCosts(study: Study, { levelised }: Result): string {
  const w = writingOf(study);
  const backups = levelised.backupHeat.map(
    ({ id, levelised_per_kWh }) =>
      `${inSentence(nameOf(study.backups, id))} ${heatPrice(levelised_per_kWh, w)}`,
  );
  const heat = backups.length === 0 ? "" : ` Levelised cost of heat from fuel: ${joined(backups)}.`;
  return `Today’s plant costs ${money(levelised.annualCostBaseline, w)} a year, levelised.${heat}`;
}

/** What the study says of money beyond the cash flow; each null or empty where it says nothing. */
function moneyAround(study: Study, promised: Result, notes: NoteBook) {
  const paths = pricePathsTable(study, promised);
  const finance = financeView(study, promised.money);
  const contract = contractView(study, promised.money);
  return {
    truePrices: truePriceSentences(study, promised),
    paths: paths === null ? null : noted(paths, notes, "pricePaths"),
    owner: finance === null ? null : { ...finance, figures: noted(finance.figures, notes, "owner") },
    contract: contract === null ? null : { ...contract, prices: noted(contract.prices, notes, "contract") },
  };
}

function weatherWords({ study, resolved }: SummaryDocument): string {
  const { weather } = resolved;
  const { station } = weather;
  const { locale } = study.money;
  const from =
    station === null
      ? ""
      : ` Station ${station.name}, ${degrees(station.latitude_deg, "north", "south")}, ${degrees(station.longitude_deg, "east", "west")}, ${asGiven(station.elevation_m, locale)} m above the sea.`;
  const sum_kWh_m2 = (series: Float64Array) =>
    Math.round(series.reduce((all, value) => all + value, 0) / 1000);
  return `${weather.description} (file ${study.weather.file}).${from} Its year has ${asGiven(sum_kWh_m2(weather.dni_W_m2), locale)} kWh/m² of direct normal and ${asGiven(sum_kWh_m2(weather.ghi_W_m2), locale)} kWh/m² of global horizontal irradiation; weekdays are those of ${study.site.calendarYear}.`;
}

/** A summary is no log: the first remarks, and how many more there are. */
function firstOf(remarks: readonly string[], most = 40): string[] {
  const more = remarks.length - most;
  return more > 0
    ? [...remarks.slice(0, most), `${more} more remarks are shown in the program.`]
    : [...remarks];
}

function degrees(value: number, positive: string, negative: string): string {
  return `${asGiven(Math.abs(value))}° ${value < 0 ? negative : positive}`;
}

function originCounts({ study }: SummaryDocument): string {
  const count = (status: string) => (study.origins ?? []).filter((origin) => origin.status === status).length;
  return `${count("assumption")} values are assumptions that were never confirmed (“assumed” below), ${count("published")} are published, ${count("confirmed")} are confirmed. Values not listed here were given for this study by whoever made it.`;
}

/** "Thing: what of it." as its two halves, for a list with its keyword in bold. */
function splitAtColon(sentence: string): { readonly head: string; readonly rest: string } {
  const at = sentence.indexOf(": ");
  return at < 0 || at > 70
    ? { head: "", rest: sentence }
    : { head: sentence.slice(0, at), rest: sentence.slice(at + 2) };
}

function longDate(iso: string): string {
  const date = new Date(`${iso}T00:00:00Z`);
  if (Number.isNaN(date.getTime())) return iso;
  return new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone: "UTC" }).format(date);
}
