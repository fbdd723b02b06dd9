import { axisRoom, extremes, type Plot, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, type SettledFrame, settleFrame } from "./chart.ts";
import { energyUnit, percent, powerUnit } from "./chart-text.ts";
import { areaFill } from "./hatches.ts";
import { type KeyEntry, keyColumn, keyRow } from "./key.ts";
import { weekdayNames } from "./months-of-year.ts";
import { pointLine } from "./point-line.ts";
import { stepArea, stepLine } from "./step-path.ts";
import { type Attributes, fillOf, label, strokeOf, tag } from "./svg.ts";
import type { WeekSlice } from "./week-slice.ts";

/**
 * Weeks one below the other on the same scales: heat by source stacked below the demand line, what is
 * stored and spilled above it, and the store's content beneath on its own axis.
 */
export function weeks(slices: readonly WeekSlice[], frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "Where does the heat come from, hour by hour?");
  const { width, narrow, text } = settled;
  const layers = layersOf(settled, slices);
  const stacks = slices.map((slice) => stackOf(layers, slice));
  const power = powerUnit(extremes(stacks.flatMap((stack) => [...stack.at(-1)!])).high);
  const energy = energyUnit(extremes(slices.flatMap((slice) => [...slice.content_kWh])).high);
  const hasStore = slices.some((slice) => slice.content_kWh.some((content) => content > 0));
  const tops = [...stacks.flatMap((stack) => [...stack.at(-1)!]), ...slices.flatMap((s) => [...s.demand_kW])];
  const contents = slices.flatMap((slice) => [...slice.content_kWh]);

  const entries: KeyEntry[] = [...layers]
    .reverse()
    .map((layer) => ({ name: layer.name, sample: { area: layer.paint } }));
  entries.splice(layers.filter((layer) => layer.above).length, 0, {
    name: "demand",
    sample: { line: strokeOf("ink", 2) },
  });
  const key = narrow ? keyRow(entries, 0, width) : { svg: "", height: 0 };

  const powerScale = (plot: Plot) =>
    zeroBasedScale(
      tops.map((value) => value / power.per),
      plot,
    );
  const contentScale = (plot: Plot) =>
    zeroBasedScale(
      contents.map((value) => value / energy.per),
      plot,
      2,
    );
  const blank = { left: 0, right: 1, top: 0, bottom: 1 };
  const left = Math.max(axisRoom(powerScale(blank), text), axisRoom(contentScale(blank), text, 2));
  const right = narrow ? width - 2 : width - 142;

  let top = key.height;
  const body = [key.svg];
  slices.forEach((slice, index) => {
    const plot = { left, right, top: top + 52, bottom: top + 212 };
    const x = (hour: number) => left + (hour / 168) * (right - left);
    const y = powerScale(plot);
    const levels = stacks[index]!.map((level) => level.map((value) => y(value / power.per)));
    body.push(label(0, top + 14, slice.name, { weight: 600 }), valueAxis(y, plot, text, power.unit));
    layers.forEach((layer, number) => {
      body.push(tag("path", { d: stepArea(x, levels[number]!, levels[number + 1]!), ...layer.paint }));
    });
    const demand = stepLine(
      x,
      slice.demand_kW.map((value) => y(value / power.per)),
    );
    // A rim in the ground's colour keeps the line in sight over dark areas.
    body.push(
      tag("path", { d: demand, ...strokeOf("ground", 4) }),
      tag("path", { d: demand, ...strokeOf("ink", 2) }),
    );
    if (!narrow && index === 0) body.push(keyColumn(entries, right + 18, plot.top + 8));

    let foot = plot.bottom;
    let ruleTop = plot.bottom;
    if (hasStore) {
      const below = { left, right, top: plot.bottom + 42, bottom: plot.bottom + 98 };
      const contentY = contentScale(below);
      const points = Array.from(slice.content_kWh, (content, hour): [number, number] => [
        x(hour + 1),
        contentY(content / energy.per),
      ]);
      body.push(
        valueAxis(contentY, below, text, `${energy.unit} in the store`, 2),
        tag("path", { d: pointLine(points), ...strokeOf("store", 2) }),
      );
      foot = below.bottom;
      ruleTop = below.top;
    }
    for (let day = 0; day < 7; day += 1) {
      const name = weekdayNames[(slice.firstWeekday - 1 + day) % 7] ?? "";
      body.push(
        tag("path", {
          d: `M${Math.round(x(day * 24)) + 0.5} ${ruleTop}V${foot + 5}`,
          ...strokeOf("rule", 1),
        }),
        label(x(day * 24 + 12), foot + 18, name, { anchor: "middle", tone: "soft", size: 12 }),
      );
    }
    top = foot + 40;
  });

  return finishChart(settled, {
    height: top - 10,
    reading: readingOf(slices, settled),
    table: {
      columns: [
        "Week",
        "Hour",
        "Demand, kW",
        ...layers.map((layer) => `${layer.column}, kW`),
        "Store content, kWh",
      ],
      rows: slices.flatMap((slice) =>
        Array.from(slice.demand_kW, (demand, hour) => [
          slice.name,
          hour,
          demand,
          ...layers.map((layer) => layer.of(slice)[hour]!),
          slice.content_kWh[hour]!,
        ]),
      ),
    },
    body,
    hatches: ["store", "spill"],
  });
}

interface Layer {
  readonly name: string;
  readonly column: string;
  readonly of: (slice: WeekSlice) => Float64Array;
  readonly paint: Attributes;
  /** Lies above the demand line. */
  readonly above: boolean;
}

/** From the foot upwards; what may be absent is left out where every week has none. */
function layersOf(frame: SettledFrame, slices: readonly WeekSlice[]): Layer[] {
  const { prefix } = frame;
  const layer = (name: string, of: Layer["of"], paint: Attributes, above = false): Layer => ({
    name,
    column: name.charAt(0).toUpperCase() + name.slice(1),
    of,
    paint,
    above,
  });
  const all = [
    layer("from the sun", (slice) => slice.direct_kW, areaFill(prefix, "direct")),
    layer("from store", (slice) => slice.fromStore_kW, areaFill(prefix, "store")),
    layer("stepped down", (slice) => slice.stepIn_kW, { ...fillOf("inkSoft"), "fill-opacity": 0.35 }),
    layer("backup", (slice) => slice.backup_kW, areaFill(prefix, "backup")),
    layer(
      "into the store",
      (slice) => slice.intoStore_kW,
      { ...fillOf("direct"), "fill-opacity": 0.35 },
      true,
    ),
    layer("spilled", (slice) => slice.spill_kW, areaFill(prefix, "spill"), true),
  ];
  const always = new Set(["from the sun", "backup"]);
  return all.filter(
    (one) => always.has(one.name) || slices.some((slice) => one.of(slice).some((power) => power > 0)),
  );
}

/** Cumulative levels, one more than there are layers. */
function stackOf(layers: readonly Layer[], slice: WeekSlice): Float64Array[] {
  const levels = [new Float64Array(slice.demand_kW.length)];
  for (const layer of layers) {
    const power = layer.of(slice);
    levels.push(levels.at(-1)!.map((level, hour) => level + power[hour]!));
  }
  return levels;
}

function readingOf(slices: readonly WeekSlice[], { text }: SettledFrame): string {
  const sentences = slices.map((slice) => {
    const total = (series: Float64Array) => series.reduce((sum, power) => sum + power, 0);
    const demand = total(slice.demand_kW);
    if (!(demand > 0)) return `${slice.name}: no heat is wanted.`;
    const unit = energyUnit(demand);
    const share = (total(slice.direct_kW) + total(slice.fromStore_kW)) / demand;
    const night = percent(text, total(slice.fromStore_kW) / demand);
    return `${slice.name}: of ${text.number(demand / unit.per)} ${unit.unit} wanted, sun and store give ${percent(text, share)} (${night} through the store).`;
  });
  return sentences.length === 0 ? "There is no week to show." : sentences.join(" ");
}
