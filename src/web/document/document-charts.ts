import type { ResolvedStudy, SizedStudy } from "../../app/types.ts";
import {
  areaCurve,
  type Chart,
  type ChartFrame,
  carpet,
  cashFlow,
  collectorMatch,
  contractSides,
  forBothWidths,
  loadDuration,
  marginalCost,
  monthlyWeather,
  monthlyWeatherSums,
  months,
  plainText,
  weekSlice,
  weeks,
} from "../../charts/index.ts";
import { hourIndex } from "../../core/calendar.ts";
import type { ResolvedLoad } from "../../core/demand/resolved-load.ts";
import type { AreaCurve, Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { promisedResult } from "../../present/promised.ts";
import type { TableView } from "../../present/table-view.ts";
import { billCharts } from "./bill-views.ts";
import { type CalendarView, calendarViews } from "./calendar-charts.ts";
import { concentrationCharts, filmLifeCharts, lossCharts } from "./collector-charts.ts";
import { streamCharts } from "./stream-charts.ts";

/** A chart ready for the page. */
export interface ChartView {
  readonly title: string;
  readonly svg: string;
  readonly reading: string;
  readonly table: TableView;
}

export interface DocumentCharts {
  readonly sun: readonly ChartView[];
  readonly streams: readonly ChartView[];
  /** By calendar id. */
  readonly calendars: Readonly<Record<string, CalendarView>>;
  /** By load id. */
  readonly loads: Readonly<Record<string, readonly ChartView[]>>;
  readonly match: readonly ChartView[];
  /** By collector id. */
  readonly collectors: Readonly<Record<string, readonly ChartView[]>>;
  readonly losses: readonly ChartView[];
  readonly filmLives: readonly ChartView[];
  readonly year: readonly ChartView[];
  readonly curve: readonly ChartView[];
  readonly prices: readonly ChartView[];
  readonly money: readonly ChartView[];
}

/** Every chart of a study's document, as far as there is something to draw. */
export function documentCharts(
  study: Study,
  resolved: ResolvedStudy | null,
  sized: SizedStudy | null,
  curve: AreaCurve | null,
): DocumentCharts {
  const { currency } = study.money;
  const text = plainText(study.money.locale ?? "en", currency);
  const show = (prefix: string, draw: (frame: ChartFrame) => Chart, title?: string) =>
    chartView(forBothWidths({ prefix, text, ...(title === undefined ? {} : { title }) }, draw));
  const result = sized?.result ?? null;
  const solved = result !== null && result.status !== "infeasible";
  return {
    sun: resolved === null ? [] : sunCharts(resolved, show),
    streams: streamCharts(study, show),
    calendars: calendarViews(study, show),
    loads:
      resolved === null
        ? {}
        : Object.fromEntries(
            resolved.loads.map((load) => [load.id, loadCharts(study, load, resolved, show)]),
          ),
    match:
      result === null || !result.match.some(({ possible }) => possible)
        ? []
        : [show("match", (frame) => collectorMatch(namedMatch(study, result), frame))],
    collectors: Object.fromEntries(
      study.collectors.map((collector) => [collector.id, concentrationCharts(study, collector, show)]),
    ),
    losses: result === null ? [] : lossCharts(study, result, show),
    filmLives: result === null ? [] : filmLifeCharts(study, result, show),
    year: sized === null || resolved === null || !solved ? [] : yearCharts(sized, resolved, show),
    curve: curve === null ? [] : [curveChart(study, curve)],
    prices: sized === null || !solved ? [] : priceCharts(study, sized, show),
    money:
      result === null || result.money.cashFlow.length === 0
        ? []
        : [
            show("cash", (frame) => cashFlow(result.money.cashFlow, currency, frame)),
            ...contractCharts(result, currency, show),
          ],
  };
}

/** Both sides of a heat contract, of the promised run. */
function contractCharts(result: Result, currency: string, show: Show): ChartView[] {
  const years = promisedResult(result).money.contract?.years ?? [];
  return years.length === 0 ? [] : [show("contract", (frame) => contractSides(years, currency, frame))];
}

/** The area curve alone, as far as it is drawn. */
export function curveChart({ money: { currency, locale = "en" } }: Study, curve: AreaCurve): ChartView {
  const frame = { prefix: "curve", text: plainText(locale, currency) };
  return chartView(forBothWidths(frame, (settled) => areaCurve(curve, currency, settled)));
}

type Show = (prefix: string, draw: (frame: ChartFrame) => Chart, title?: string) => ChartView;

function sunCharts({ weather }: ResolvedStudy, show: Show): ChartView[] {
  return [
    show("sun-months", (frame) => monthlyWeather(monthlyWeatherSums(weather), frame)),
    show(
      "sun-carpet",
      (frame) =>
        carpet(
          { name: "Direct normal irradiance", values: weather.dni_W_m2, unit: "W/m²", scale: "sun" },
          frame,
        ),
      "At which hours does the sun shine directly?",
    ),
  ];
}

function loadCharts(study: Study, load: ResolvedLoad, resolved: ResolvedStudy, show: Show): ChartView[] {
  const name = study.loads.find(({ id }) => id === load.id)?.name ?? load.id;
  const drawn =
    load.kind === "fixed-heat"
      ? { values: load.heat_kW, unit: "kW", scale: "load" as const, what: "heat" }
      : load.kind === "cold"
        ? { values: load.cold_kW, unit: "kW", scale: "load" as const, what: "cold" }
        : load.kind === "water"
          ? { values: load.order_m3_h, unit: "m³/h", scale: "load" as const, what: "water" }
          : null;
  if (drawn === null) return [];
  const { values, unit, scale, what } = drawn;
  const title = `When does ${name} want ${what}?`;
  return [
    ...billCharts(study, load.id, resolved, show),
    show(`load-${load.id}`, (frame) => carpet({ name, values, unit, scale }, frame), title),
  ];
}

function yearCharts({ result, hours }: SizedStudy, resolved: ResolvedStudy, show: Show): ChartView[] {
  const { study, calendar } = resolved;
  const total = (pick: (network: (typeof hours.networks)[number]) => Float64Array) => {
    const sum = new Float64Array(calendar.month.length);
    for (const network of hours.networks) {
      const series = pick(network);
      for (let hour = 0; hour < sum.length; hour += 1) sum[hour] += series[hour];
    }
    return sum;
  };
  const largest = [...result.networks].sort((a, b) => b.demand_kWh - a.demand_kWh)[0];
  const main = hours.networks.find(({ id }) => id === largest?.id);
  const views = [show("months", (frame) => months(result.months, frame))];
  if (main !== undefined && largest !== undefined) {
    const south = study.site.latitude_deg < 0;
    const january = monday(calendar.civilWeekday, hourIndex(1, 12, 0));
    const july = monday(calendar.civilWeekday, hourIndex(7, 12, 0));
    const starts = [
      { name: `A week in July (${south ? "winter" : "summer"})`, firstHour: july, firstWeekday: 1 },
      { name: `A week in January (${south ? "summer" : "winter"})`, firstHour: january, firstWeekday: 1 },
    ];
    views.push(
      show(
        "weeks",
        (frame) =>
          weeks(
            starts.map((start) => weekSlice(main, start)),
            frame,
          ),
        `Where does the heat of ${largest.name} come from, hour by hour?`,
      ),
    );
  }
  const demand_kW = total(({ demand_kW }) => demand_kW);
  const backup_kW = total(({ backup_kW }) => backup_kW);
  views.push(
    show("duration", (frame) => loadDuration({ demand_kW, backup_kW }, frame)),
    show(
      "backup-carpet",
      (frame) => carpet({ name: "Backup heat", values: backup_kW, unit: "kW", scale: "backup" }, frame),
      "When does the backup burn fuel?",
    ),
  );
  const content = total(({ content_kWh }) => content_kWh);
  if (content.some((value) => value > 0)) {
    const draw = (frame: ChartFrame) =>
      carpet({ name: "Heat in store", values: content, unit: "kWh", scale: "content" }, frame);
    views.push(show("content-carpet", draw, "How full are the stores?"));
  }
  return views;
}

function priceCharts(study: Study, { hours }: SizedStudy, show: Show): ChartView[] {
  const { currency } = study.money;
  const nameOf = (id: string) => study.networks.find((network) => network.id === id)?.name ?? id;
  const networks = hours.networks.map(({ id, marginal_per_kWh, demand_kW }) => ({
    name: nameOf(id),
    marginal_per_kWh,
    demand_kW,
  }));
  const priced = networks.every(({ marginal_per_kWh }) => marginal_per_kWh.every(Number.isFinite));
  return networks.length > 0 && priced
    ? [show("marginal", (frame) => marginalCost({ currency, networks }, frame))]
    : [];
}

/** The first midnight of a Monday at or after an hour. */
function monday(weekday: ArrayLike<number>, from: number): number {
  let hour = from;
  while (weekday[hour + 12] !== 1) hour += 24;
  return hour;
}

/** The match rows under the names that the study gives its collectors. */
function namedMatch(study: Study, result: Result): Result["match"] {
  return result.match.map((row) => ({
    ...row,
    collector: study.collectors.find(({ id }) => id === row.collector)?.name ?? row.collector,
    network: study.networks.find(({ id }) => id === row.network)?.name ?? row.network,
  }));
}

/** A chart with its table's cells as text. */
export function chartView({ title, svg, reading, table }: Chart): ChartView {
  const numeric = table.columns.map((_, index) => index > 0);
  return {
    title,
    svg,
    reading,
    table: {
      caption: title,
      columns: table.columns.map((column, index) => ({ title: column, numeric: numeric[index]! })),
      rows: table.rows.map((row) => row.map((cell) => (typeof cell === "number" ? figure(cell) : cell))),
    },
  };
}

function figure(value: number): string {
  return plainText().number(value, 4).replace("no figure", "–");
}
