import {
  areaCurve,
  type Chart,
  type ChartFrame,
  cashFlow,
  forBothWidths,
  loadDuration,
  lossWaterfall,
  months,
  plainText,
  type WeekSlice,
  weekSlice,
  weeks,
} from "../../charts/index.ts";
import { hourIndex } from "../../core/calendar.ts";
import type { NetworkHours } from "../../core/dispatch/hourly-result.ts";
import type { Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { builtYears } from "../../present/collector-losses.ts";
import { asGiven, threeDigits } from "../../present/numbers.ts";
import { figuresTable, type TableView } from "../../present/table-view.ts";
import { writingOf } from "../../present/writing-of.ts";
import type { SizedStudy, StudyDocument } from "../types.ts";
import type { NoteBook, NoteKey } from "./notes.ts";
import { inSentence } from "./offer.ts";

export interface SummaryChart {
  readonly title: string;
  readonly svg: string;
  readonly reading: string;
  readonly table: TableView;
  readonly note: number;
}

export interface SummaryCharts {
  readonly months: SummaryChart;
  readonly duration: SummaryChart;
  readonly weeks: SummaryChart | null;
  readonly curve: SummaryChart | null;
  readonly cash: SummaryChart | null;
}

/** The charts of a summary, each for wide and for narrow places. */
export function summaryCharts(document: StudyDocument, sized: SizedStudy, notes: NoteBook): SummaryCharts {
  const { study, curve } = document;
  const { locale, currency } = writingOf(study);
  const { result, hours } = sized;
  const show = showing(study, notes);
  return {
    months: show("months", "months", (frame) => months(result.months, frame)),
    duration: show("duration", "hours", (frame) => loadDuration(demandAndBackup(hours.networks), frame)),
    weeks: weeksChart(document, sized, (draw, title, slices) => ({
      ...show("weeks", "hours", draw, title),
      table: dailyTable(slices, locale),
    })),
    curve: curve === null ? null : show("curve", "curve", (frame) => areaCurve(curve, currency, frame)),
    cash:
      result.money.cashFlow.length === 0
        ? null
        : show("cash", "cashFlow", (frame) => cashFlow(result.money.cashFlow, currency, frame)),
  };
}

/** Where the light on each built collector goes; null of an answer without the losses, and where none is built. */
export function lossesChart(study: Study, result: Result, notes: NoteBook): SummaryChart | null {
  const panels = builtYears(study, result).map(({ collector, network, meanFluid_C, figures }) => ({
    collector,
    name: network,
    meanFluid_C,
    chain: figures,
  }));
  if (panels.length === 0) return null;
  const draw = (frame: ChartFrame) => lossWaterfall(panels, frame);
  return showing(study, notes)("losses", "losses", draw, "Where does the light on the collectors go?", 800);
}

type Show = (
  prefix: string,
  note: NoteKey,
  draw: (frame: ChartFrame) => Chart,
  title?: string,
  width?: number,
) => SummaryChart;

function showing(study: Study, notes: NoteBook): Show {
  const { locale, currency } = writingOf(study);
  const text = plainText(locale, currency);
  return (prefix, note, draw, title, width) => {
    const frame = {
      prefix,
      text,
      ...(title === undefined ? {} : { title }),
      ...(width === undefined ? {} : { width }),
    };
    const chart = forBothWidths(frame, draw);
    return {
      title: chart.title,
      // Inline in HTML an SVG needs no namespace.
      svg: chart.svg.replaceAll(' xmlns="http://www.w3.org/2000/svg"', ""),
      reading: chart.reading,
      table: figuresTable(chart.title, chart.table.columns, cellsInWords(chart.table.rows, locale)),
      note: notes.number(note),
    };
  };
}

/** Figures of a chart as text: names of rows as they are, and 0 for what is nothing beside its column. */
function cellsInWords(rows: Chart["table"]["rows"], locale: string): string[][] {
  const largest = (column: number) =>
    rows.reduce((most, row) => {
      const cell = row[column];
      return typeof cell === "number" && Number.isFinite(cell) ? Math.max(most, Math.abs(cell)) : most;
    }, 0);
  const nothing = (rows[0] ?? []).map((_, column) => 1e-6 * largest(column));
  return rows.map((row) =>
    row.map((cell, column) => {
      if (typeof cell !== "number") return cell;
      if (column === 0) return asGiven(cell, locale);
      return threeDigits(Math.abs(cell) < nothing[column]! ? 0 : cell, locale);
    }),
  );
}

function demandAndBackup(networks: readonly NetworkHours[]) {
  const sum = (of: (network: NetworkHours) => Float64Array) => {
    const all = new Float64Array(8760);
    for (const network of networks) {
      const values = of(network);
      for (let hour = 0; hour < all.length; hour += 1) all[hour] += values[hour];
    }
    return all;
  };
  return { demand_kW: sum((n) => n.demand_kW), backup_kW: sum((n) => n.backup_kW) };
}

function weeksChart(
  { study, resolved: { calendar } }: StudyDocument,
  { result, hours }: SizedStudy,
  show: (draw: (frame: ChartFrame) => Chart, title: string, slices: readonly WeekSlice[]) => SummaryChart,
): SummaryChart | null {
  const largest = [...result.networks].sort((a, b) => b.demand_kWh - a.demand_kWh)[0];
  const network = hours.networks.find(({ id }) => id === largest?.id);
  if (largest === undefined || network === undefined) return null;
  const south = study.site.latitude_deg < 0;
  const start = (month: number, season: string) => ({
    name: `A week in ${month === 7 ? "July" : "January"} (${season})`,
    firstHour: monday(calendar.civilWeekday, hourIndex(month, 12, 0)),
    firstWeekday: 1,
  });
  const summer = start(south ? 1 : 7, "summer");
  const winter = start(south ? 7 : 1, "winter");
  const slices = [summer, winter].map((week) => weekSlice(network, week));
  const title = `Where does the heat on ${inSentence(largest.name)} come from, hour by hour?`;
  return show((frame) => weeks(slices, frame), title, slices);
}

/** The first midnight of a Monday at or after an hour. */
function monday(weekday: ArrayLike<number>, from: number): number {
  let hour = from;
  while (weekday[hour + 12] !== 1) hour += 24;
  return hour;
}

/** The weeks by day; the hours are in hours.csv. */
function dailyTable(slices: readonly WeekSlice[], locale: string): TableView {
  const series = [
    ["Demand", (s: WeekSlice) => s.demand_kW],
    ["From the sun", (s: WeekSlice) => s.direct_kW],
    ["From store", (s: WeekSlice) => s.fromStore_kW],
    ["Stepped down", (s: WeekSlice) => s.stepIn_kW],
    ["Backup", (s: WeekSlice) => s.backup_kW],
    ["Into the store", (s: WeekSlice) => s.intoStore_kW],
    ["Spilled", (s: WeekSlice) => s.spill_kW],
  ] as const;
  // Less than a watt-hour in a day is what a solver's tolerance leaves.
  const day = (values: Float64Array, index: number) => {
    const sum_kWh = values.slice(index * 24, index * 24 + 24).reduce((all, value) => all + value, 0);
    return threeDigits(Math.abs(sum_kWh) < 0.001 ? 0 : sum_kWh, locale);
  };
  return figuresTable(
    "The weeks by day, kWh",
    ["Week", "Day", ...series.map(([name]) => name)],
    slices.flatMap((slice) =>
      Array.from({ length: 7 }, (_, index) => [
        slice.name,
        String(index + 1),
        ...series.map(([, of]) => day(of(slice), index)),
      ]),
    ),
  );
}
