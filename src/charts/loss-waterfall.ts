import { extremes } from "./axes.ts";
import { type Chart, type ChartFrame, type ChartTable, finishChart, settleFrame } from "./chart.ts";
import { type ChartText, percent } from "./chart-text.ts";
import { areaFill } from "./hatches.ts";
import type { Meaning } from "./palette.ts";
import { fillOf, label, onPaper, rounded, strokeOf, tag, textWidth } from "./svg.ts";

/** What each loss is called, in the order of the chain. */
export const lossNames = {
  cosine: "angle of the sun",
  outage: "out of use",
  storm: "stowed for storm",
  endLoss: "past the ends",
  rowShading: "shade of rows",
  dirt: "dirt",
  modifier: "slanting light",
  optical: "mirror to absorber",
  ageing: "film ageing",
  tooWeak: "too weak to start",
  heatLoss: "heat loss",
  warmUp: "warming up",
  frost: "filling after frost",
  pipes: "loss of the pipes",
  pipeWarmUp: "warming the pipes",
} as const;

type LossName = keyof typeof lossNames;

/** A collector's year on one heat network, kWh per m² of aperture: beam + diffuse − losses = useful. */
export interface LossChain {
  /** DNI of the year. */
  readonly beam_kWh_per_m2: number;
  /** On the aperture. */
  readonly diffuse_kWh_per_m2: number;
  readonly useful_kWh_per_m2: number;
  readonly spilled_kWh_per_m2: number;
  /** Null where the collector is not built. */
  readonly used_kWh_per_m2: number | null;
  /** Below 0 for a gain; one that an older answer does not tell is 0. */
  readonly losses: Readonly<Partial<Record<LossName, number>>>;
}

export interface LossPanel {
  /** Given where the panels of a chart are of several collectors. */
  readonly collector?: string;
  /** The heat network. */
  readonly name: string;
  readonly meanFluid_C: number;
  readonly chain: LossChain;
}

interface Step {
  readonly name: string;
  readonly kind: "light" | "loss" | "heat" | "spill";
  /** From and to on the scale of each panel; null where a panel has none. */
  readonly spans: readonly (readonly [number, number] | null)[];
}

/** Share of the light below which a loss is drawn among the others. */
const leastDrawn = 0.005;
const rowHeight = 17;
const barHeight = 11;

/**
 * Light on its way to useful heat, a bar a loss, a panel a network. `compared` are the panels of all charts that
 * are to be on one scale; losses below 0.5 % of the light in every panel are drawn as one.
 */
export function lossWaterfall(
  panels: readonly LossPanel[],
  frame: ChartFrame,
  compared: readonly (readonly LossPanel[])[] = [panels],
): Chart {
  const settled = settleFrame(frame, "Where does the light go on its way to useful heat?");
  const { prefix, width, narrow, text } = settled;
  const steps = stepsOf(panels);
  const room = Math.max(...Object.values(lossNames).map((name) => textWidth(name, 12))) + 8;
  const gap = 14;
  const all = compared.flat();
  const longest = Math.max(0, ...all.flatMap(headings).map((words) => textWidth(words, 12)));
  const wanted = narrow ? 1 : Math.max(...compared.map(({ length }) => length));
  const columns = Math.max(1, Math.min(wanted, fitting(longest, width - room, gap)));
  const panelWidth = (width - room - gap * (columns - 1)) / columns;
  const beside = textWidth("−2,345", 12) + 6;
  const brightest = extremes(all.map(({ chain }) => lightOf(chain))).high;
  const most = brightest > 0 && onPaper(brightest) ? brightest : 1;
  const body: string[] = [label(0, 14, "kWh a year per m² of aperture", { tone: "soft", size: 12 })];
  const headed = 16 * Math.max(1, ...panels.map((panel) => headings(panel).length));
  const panelHeight = steps.length * rowHeight + headed + 42;
  panels.forEach((panel, index) => {
    const column = index % columns;
    const top = 24 + Math.floor(index / columns) * panelHeight;
    const left = room + column * (panelWidth + gap);
    const x = (value: number) => left + (value / most) * (panelWidth - beside);
    const first = top + headed + 30;
    const heading = columns === 1 ? 0 : left;
    body.push(
      ...headings(panel).map((words, line) =>
        label(heading, top + 14 + 16 * line, words, { weight: 600, size: 12 }),
      ),
      label(heading, top + 14 + headed, `mean fluid ${text.number(panel.meanFluid_C)} °C`, {
        tone: "soft",
        size: 12,
      }),
      tag("path", {
        d: `M${rounded(left)} ${first - 8}V${first + steps.length * rowHeight - 9}`,
        ...strokeOf("inkSoft", 1),
      }),
    );
    steps.forEach((step, row) => {
      const y = first + row * rowHeight;
      if (column === 0) body.push(label(room - 8, y + 4, step.name, { anchor: "end", size: 12 }));
      body.push(bar(step, index, y, x, prefix, text), joint(steps, row, index, y, x));
    });
  });
  const rows = Math.ceil(panels.length / columns);
  return finishChart(settled, {
    height: 24 + Math.max(rows, 0.2) * panelHeight - 10,
    reading: readingOf(panels, text),
    table: tableOf(panels),
    hatches: ["ink", "spill"],
    body,
  });
}

const headings = ({ collector, name }: LossPanel) => (collector === undefined ? [name] : [collector, name]);

const nameOf = ({ collector, name }: LossPanel) =>
  collector === undefined ? name : `${collector} on ${name}`;

/** How many panels, each as wide as its name and its bars need, stand beside each other. */
function fitting(longest: number, width: number, gap: number): number {
  return Math.floor((width + gap) / (Math.max(longest, 140) + gap));
}

const lightOf = (chain: LossChain) => chain.beam_kWh_per_m2 + chain.diffuse_kWh_per_m2;
const keys = Object.keys(lossNames) as LossName[];
/** Losses that most studies do not ask for; the table tells them where there are any. */
const seldom: ReadonlySet<LossName> = new Set(["outage", "tooWeak", "frost", "pipes", "pipeWarmUp"]);
const lostTo = ({ losses }: LossChain, key: LossName) => losses[key] ?? 0;

function stepsOf(panels: readonly LossPanel[]): Step[] {
  const chains = panels.map(({ chain }) => chain);
  const matters = (of: (chain: LossChain) => number) =>
    chains.some((chain) => Math.abs(of(chain)) >= leastDrawn * lightOf(chain) && of(chain) !== 0);
  const drawn = keys.filter((key) => matters((chain) => lostTo(chain, key)));
  const folded = keys.filter((key) => !drawn.includes(key));
  const others = (chain: LossChain) => folded.reduce((sum, key) => sum + lostTo(chain, key), 0);
  const levels = chains.map(lightOf);
  const lose = (name: string, of: (chain: LossChain) => number): Step => ({
    name,
    kind: "loss",
    spans: chains.map((chain, index) => {
      const from = levels[index]!;
      levels[index] = from - of(chain);
      return [from, levels[index]!];
    }),
  });
  const spilled = (chain: LossChain) => (chain.used_kWh_per_m2 === null ? 0 : chain.spilled_kWh_per_m2);
  const steps: Step[] = [
    { name: "direct sunlight", kind: "light", spans: chains.map((chain) => [0, chain.beam_kWh_per_m2]) },
  ];
  if (matters((chain) => chain.diffuse_kWh_per_m2))
    steps.push({
      name: "diffuse light",
      kind: "light",
      spans: chains.map((chain) => [chain.beam_kWh_per_m2, lightOf(chain)]),
    });
  steps.push(...drawn.map((key) => lose(lossNames[key], (chain) => lostTo(chain, key))));
  if (chains.some((chain) => Math.abs(others(chain)) > 1e-9)) steps.push(lose("other losses", others));
  steps.push({ name: "useful heat", kind: "heat", spans: chains.map((c) => [0, c.useful_kWh_per_m2]) });
  if (matters(spilled))
    steps.push(
      {
        name: "spilled",
        kind: "spill",
        spans: chains.map((c) =>
          c.used_kWh_per_m2 === null ? null : [c.useful_kWh_per_m2, c.useful_kWh_per_m2 - spilled(c)],
        ),
      },
      {
        name: "heat used",
        kind: "heat",
        spans: chains.map((c) => (c.used_kWh_per_m2 === null ? null : [0, c.used_kWh_per_m2])),
      },
    );
  return steps;
}

const fillMeaning: Readonly<Record<Exclude<Step["kind"], "light">, Meaning>> = {
  loss: "ink",
  heat: "direct",
  spill: "spill",
};

function bar(
  step: Step,
  panel: number,
  y: number,
  x: (value: number) => number,
  prefix: string,
  text: ChartText,
): string {
  const span = step.spans[panel]!;
  if (span === null) return label(x(0) + 5, y + 4, "not built", { tone: "soft", size: 12 });
  const [from, to] = span;
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  if (!onPaper(x(low)) || !onPaper(x(high))) return "";
  const fill =
    step.kind === "light"
      ? { ...strokeOf("direct", 1.5), ...fillOf("ground"), class: "chart-line-direct chart-fill-ground" }
      : areaFill(prefix, fillMeaning[step.kind]);
  const change = to - from;
  const words = step.kind === "loss" || step.kind === "spill" ? signed(change, text) : text.number(change);
  return (
    (change === 0
      ? ""
      : tag("rect", {
          x: x(low),
          y: y - 5.5,
          width: Math.max(0.5, x(high) - x(low)),
          height: barHeight,
          ...fill,
        })) +
    label(x(high) + 5, y + 4, words, {
      size: 12,
      ...(step.kind === "heat" ? { weight: 600 } : {}),
    })
  );
}

const signed = (value: number, text: ChartText) =>
  value > 0 ? `+${text.number(value)}` : text.number(value);

/** Leads the eye from where a step ends to the next. */
function joint(
  steps: readonly Step[],
  row: number,
  panel: number,
  y: number,
  x: (value: number) => number,
): string {
  const [span, next] = [steps[row]!.spans[panel], steps[row + 1]?.spans[panel]];
  if (span == null || next == null || !onPaper(x(span[1]))) return "";
  return tag("path", {
    d: `M${rounded(x(span[1]))} ${y + 5.5}v${rowHeight - barHeight}`,
    ...strokeOf("inkSoft", 0.8),
  });
}

function tableOf(panels: readonly LossPanel[]): ChartTable {
  const row = (name: string, of: (chain: LossChain) => number | null): (string | number)[] => [
    name,
    ...panels.map(({ chain }) => of(chain) ?? "not built"),
  ];
  return {
    columns: [
      "kWh/m² a year",
      ...panels.map((panel) => `${nameOf(panel)}, ${Math.round(panel.meanFluid_C)} °C`),
    ],
    rows: [
      row("direct sunlight", (chain) => chain.beam_kWh_per_m2),
      row("diffuse light on the aperture", (chain) => chain.diffuse_kWh_per_m2),
      ...keys
        .filter((key) => !seldom.has(key) || panels.some(({ chain }) => lostTo(chain, key) !== 0))
        .map((key) => row(`lost: ${lossNames[key]}`, (chain) => lostTo(chain, key))),
      row("useful heat", (chain) => chain.useful_kWh_per_m2),
      row("spilled", (chain) => (chain.used_kWh_per_m2 === null ? null : chain.spilled_kWh_per_m2)),
      row("heat used", (chain) => chain.used_kWh_per_m2),
    ],
  };
}

/** Every panel up to three; of more, the one that keeps most and the one that keeps least. */
function readingOf(panels: readonly LossPanel[], text: ChartText): string {
  if (panels.length === 0) return "No collector can serve any network.";
  const share = ({ chain }: LossPanel) => chain.useful_kWh_per_m2 / lightOf(chain);
  const sorted = [...panels].sort((a, b) => share(b) - share(a));
  const told = panels.length > 3 ? [sorted[0]!, sorted.at(-1)!] : panels;
  const worst = ({ chain }: LossPanel) =>
    keys.reduce((top, key) => (lostTo(chain, key) > lostTo(chain, top) ? key : top));
  const lost = (panel: LossPanel) =>
    `as “${lossNames[worst(panel)]}” (${text.number(lostTo(panel.chain, worst(panel)))})`;
  const alike = told.every((panel) => lost(panel) === lost(told[0]!));
  const parts = told.map((panel) => {
    const { chain, meanFluid_C } = panel;
    const spilled =
      chain.used_kWh_per_m2 !== null && chain.spilled_kWh_per_m2 >= leastDrawn * lightOf(chain)
        ? `, ${text.number(chain.spilled_kWh_per_m2)} of it spilled`
        : "";
    const most = alike ? "" : `, most of the rest lost ${lost(panel)}`;
    return `${text.number(chain.useful_kWh_per_m2)} of ${text.number(lightOf(chain))} kWh/m² of light (${percent(text, share(panel))}) ${panel.collector === undefined ? "on" : "from"} ${nameOf(panel)} at ${text.number(meanFluid_C)} °C${spilled}${most}`;
  });
  const most = alike ? `; most of the rest is lost ${lost(told[0]!)}` : "";
  return `Useful heat: ${parts.join("; ")}${most}.`;
}
