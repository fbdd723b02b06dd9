import { scaleLinear } from "d3-scale";
import { axisRoom, extremes, positionAxis, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { energyUnit, powerUnit } from "./chart-text.ts";
import { type Box, freePlace } from "./free-place.ts";
import { type KeyEntry, keyRow } from "./key.ts";
import { type Point, pointLine } from "./point-line.ts";
import { fillOf, label, strokeOf, tag, textWidth } from "./svg.ts";
import { leastThatCounts } from "./working-hours.ts";

export interface DurationData {
  readonly demand_kW: Float64Array;
  /** What the backup still gives with the solar plant; left out for a demand alone. */
  readonly backup_kW?: Float64Array;
}

/** Hours sorted by power, greatest first; hours without data are left out. */
export function loadDuration(data: DurationData, frame: ChartFrame): Chart {
  const settled = settleFrame(
    frame,
    data.backup_kW === undefined
      ? "For how many hours is how much heat wanted?"
      : "For how many hours must the backup run, and how hard?",
  );
  const { width, narrow, text } = settled;
  const demand = fallingOrder(data.demand_kW);
  const backup = data.backup_kW === undefined ? null : fallingOrder(data.backup_kW);
  const unit = powerUnit(Math.max(demand[0] ?? 0, backup?.[0] ?? 0));
  const hours = Math.max(demand.length, backup?.length ?? 0, 1);
  const box = { top: 30, bottom: 250 };
  const y = zeroBasedScale(
    [demand[0] ?? 0, backup?.[0] ?? 0].map((power) => power / unit.per),
    box,
  );
  const plot = { ...box, left: axisRoom(y, text), right: width - (narrow ? 14 : 24) };
  const x = scaleLinear([0, hours], [plot.left, plot.right]);

  const curves = [
    { name: "demand", order: demand, meaning: "ink" as const, dash: undefined },
    ...(backup === null
      ? []
      : [{ name: "backup with the solar plant", order: backup, meaning: "backup" as const, dash: "7 3" }]),
  ].filter((curve) => curve.order.length > 0);
  const samples = curves.map((curve) =>
    Float64Array.from({ length: 121 }, (_, at) => {
      const place = Math.round((at / 120) * (hours - 1));
      return y((curve.order[place] ?? 0) / unit.per);
    }),
  );
  const taken: Box[] = [];
  const unplaced: KeyEntry[] = [];
  const labels = curves.map((curve, index) => {
    const size = { width: textWidth(curve.name), height: 15 };
    const place = freePlace(size, samples, index, plot, taken);
    if (place === null) {
      const line = { ...strokeOf(curve.meaning, 2), "stroke-dasharray": curve.dash };
      unplaced.push({ name: curve.name, sample: { line } });
      return "";
    }
    taken.push(place);
    return label((place.left + place.right) / 2, place.bottom - 3, curve.name, {
      anchor: "middle",
      halo: true,
    });
  });
  const key = keyRow(unplaced, plot.left, width, plot.bottom + 58);
  const lineOf = (order: Float64Array): Point[] =>
    sampledPlaces(order.length).map((place) => [
      x(place),
      y(order[Math.min(place, order.length - 1)]! / unit.per),
    ]);
  const under = (order: Float64Array) => {
    const path = pointLine(lineOf(order));
    return path === "" ? "" : `${path}V${plot.bottom}H${plot.left}Z`;
  };
  const paint = backup === null ? fillOf("inkSoft") : fillOf("direct");
  return finishChart(settled, {
    height: plot.bottom + 46 + key.height,
    reading: readingOf(demand, backup, text.number),
    table: tableOf(demand, backup, hours),
    body: [
      tag("path", { d: under(demand), ...paint, "fill-opacity": backup === null ? 0.12 : 0.28 }),
      backup === null
        ? ""
        : tag("path", { d: under(backup), ...fillOf("ground") }) +
          tag("path", { d: under(backup), ...fillOf("backup"), "fill-opacity": 0.3 }),
      valueAxis(y, plot, text, unit.unit),
      positionAxis(x, plot, text, "hours of the year", narrow ? 4 : 8),
      ...curves.map((curve) =>
        tag("path", {
          d: pointLine(lineOf(curve.order)),
          ...strokeOf(curve.meaning, 2),
          "stroke-dasharray": curve.dash,
        }),
      ),
      ...labels,
      key.svg,
    ],
  });
}

function fallingOrder(series: Float64Array): Float64Array {
  return series.filter(Number.isFinite).sort().reverse();
}

/** Every hour at the steep head, then about 300 places, and the end. */
function sampledPlaces(length: number): number[] {
  const stride = Math.max(1, Math.floor(length / 300));
  const places: number[] = [];
  for (let place = 0; place < length; place += place < 24 ? 1 : stride) places.push(place);
  if (length > 0) places.push(length);
  return places;
}

function readingOf(
  demand: Float64Array,
  backup: Float64Array | null,
  number: (value: number) => string,
): string {
  if (!(extremes(demand).high > 0)) return "No heat is wanted in any hour.";
  const least_kW = leastThatCounts(demand[0]!);
  const running = (order: Float64Array) => order.filter((power) => power > least_kW).length;
  const hours = (count: number) => `${number(count)} ${count === 1 ? "hour" : "hours"}`;
  const first = `Demand peaks at ${number(demand[0]!)} kW and lasts ${hours(running(demand))}`;
  if (backup === null) return `${first}.`;
  const total = (order: Float64Array) => order.reduce((sum, power) => sum + power, 0);
  const saved = total(demand) - total(backup);
  const unit = energyUnit(Math.abs(saved));
  const rest =
    running(backup) === 0
      ? "the backup never runs"
      : `the backup peaks at ${number(backup[0]!)} kW and runs ${hours(running(backup))}`;
  return `${first}; with the solar plant ${rest}, which is ${number(saved / unit.per)} ${unit.unit} less than the demand.`;
}

function tableOf(demand: Float64Array, backup: Float64Array | null, hours: number) {
  const ranks = [1, 10, 100, ...Array.from({ length: 17 }, (_, index) => (index + 1) * 500), hours];
  const kept = [...new Set(ranks)].filter((rank) => rank <= hours).sort((a, b) => a - b);
  return {
    columns: ["Hours at or above", "Demand, kW", ...(backup === null ? [] : ["Backup, kW"])],
    rows: kept.map((rank) => [
      rank,
      demand[rank - 1] ?? "no data",
      ...(backup === null ? [] : [backup[rank - 1] ?? "no data"]),
    ]),
  };
}
