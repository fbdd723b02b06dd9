import { seasonHourMeans, seasons } from "../core/study/report/season-hours.ts";
import { axisRoom, valueAxis, zeroBasedScale } from "./axes.ts";
import { type Chart, type ChartFrame, finishChart, settleFrame } from "./chart.ts";
import { keyRow } from "./key.ts";
import { dashOf } from "./point-line.ts";
import { stepLine } from "./step-path.ts";
import { label, strokeOf, tag } from "./svg.ts";

export interface MarginalData {
  readonly currency: string;
  readonly networks: readonly {
    readonly name: string;
    /** Cost of one more kWh, 8760 hours. */
    readonly marginal_per_kWh: Float64Array;
    /** Hours count by it where it is given. */
    readonly demand_kW?: Float64Array;
  }[];
}

/** Mean marginal cost of heat by hour of the day in four seasons, a line a network. */
export function marginalCost(data: MarginalData, frame: ChartFrame): Chart {
  const settled = settleFrame(frame, "What does one more kWh of heat cost, and when?");
  const { width, narrow, text } = settled;
  const means = data.networks.map((network) => seasonHourMeans(network.marginal_per_kWh, network.demand_kW));
  const key = keyRow(
    data.networks.map((network, index) => ({
      name: network.name,
      sample: { line: { ...strokeOf("ink", 2), "stroke-dasharray": dashOf(index) } },
    })),
    0,
    width,
  );
  const columns = narrow ? 2 : 4;
  const all = means.flat().flatMap((season) => [...season]);
  const blank = { top: 0, bottom: 1 };
  const left = axisRoom(zeroBasedScale(all, blank), text);
  const gap = 22;
  const panelWidth = (width - 8 - left - gap * (columns - 1)) / columns;
  const unit = `${data.currency}/kWh`;
  const body = [key.svg, label(0, key.height + 14, unit, { tone: "soft", size: 12 })];
  let bottom = 0;
  seasons.forEach((season, index) => {
    const column = index % columns;
    const row = Math.floor(index / columns);
    const from = left + column * (panelWidth + gap);
    const top = key.height + 44 + row * 196;
    const plot = { left: from, right: from + panelWidth, top, bottom: top + 130 };
    bottom = plot.bottom;
    const y = zeroBasedScale(all, plot);
    const x = (hour: number) => plot.left + (hour / 24) * panelWidth;
    const quiet = { number: () => "", money: () => "" };
    body.push(
      valueAxis(y, plot, column === 0 ? text : quiet, ""),
      label(plot.left + panelWidth / 2, top - 12, season.name, { anchor: "middle" }),
      ...[0, 12, 24].map((hour) =>
        label(x(hour), plot.bottom + 19, `${hour}`, {
          anchor: "middle",
          tone: "soft",
          size: 12,
        }),
      ),
      ...means.map((network, number) =>
        tag("path", {
          d: stepLine(x, network[index]!.map(y)),
          ...strokeOf("ink", 1.8),
          "stroke-dasharray": dashOf(number),
        }),
      ),
    );
  });
  body.push(label(width - 8, bottom + 38, "hour of day", { anchor: "end", tone: "soft", size: 12 }));
  return finishChart(settled, {
    height: bottom + 46,
    reading: readingOf(data, means, text.number),
    table: {
      columns: [
        "Network",
        "Season",
        ...Array.from({ length: 24 }, (_, hour) => `${hour}–${hour + 1} h, ${unit}`),
      ],
      rows: data.networks.flatMap((network, index) =>
        seasons.map((season, number) => [
          network.name,
          season.name,
          ...Array.from(means[index]![number]!, (value) => (Number.isFinite(value) ? value : "no data")),
        ]),
      ),
    },
    body,
  });
}

function readingOf(
  data: MarginalData,
  means: readonly (readonly Float64Array[])[],
  number: (value: number) => string,
): string {
  const sentences = data.networks.map((network, index) => {
    const cells = means[index]!.flatMap((season, at) =>
      Array.from(season, (value, hour) => ({ value, hour, season: seasons[at]!.name })),
    ).filter((cell) => Number.isFinite(cell.value));
    if (cells.length === 0) return `${network.name} has no figures.`;
    const sorted = cells.sort((a, b) => a.value - b.value);
    const [least, most] = [sorted[0]!, sorted.at(-1)!];
    return `${network.name}: from ${number(least.value)} (${least.season}, ${least.hour}–${least.hour + 1} h) to ${number(most.value)} ${data.currency}/kWh (${most.season}, ${most.hour}–${most.hour + 1} h).`;
  });
  return sentences.length === 0 ? "There is no heat network." : sentences.join(" ");
}
