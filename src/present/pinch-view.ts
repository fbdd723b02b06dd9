import type { ResolvedLoad } from "../core/demand/resolved-load.ts";
import { hoursPerYear, largest } from "../core/series.ts";
import type { PinchFigures } from "../core/study/pinch-figures.ts";
import type { Study } from "../core/study/schema/study.ts";
import { asGiven, threeDigits } from "./numbers.ts";
import { power } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** What the pinch analysis says, in sentences: targets, pinch, and what to make of them. */
export function pinchSentences(study: Study, figures: PinchFigures): string[] {
  const w = writingOf(study);
  const kW = (value: number) => power(value, w);
  const { wanted_kW, recovered_kW, heating_kW, cooling_kW, leastApproach_K, kind } = figures;
  const sentences = [
    wanted_kW > 0
      ? `${kW(recovered_kW)} of ${kW(wanted_kW)} could be recovered from your own hot streams before any collector is bought: ` +
        `with ${asGiven(leastApproach_K, w.locale)} K between streams the least heating is ${kW(heating_kW)} and the least cooling ${kW(cooling_kW)}.`
      : `None of the streams is to be heated; ${kW(cooling_kW)} must be cooled away.`,
  ];
  const half_K = leastApproach_K / 2;
  const degrees = (value_C: number) => `${threeDigits(value_C, w.locale)} °C`;
  if (kind === "pinched")
    sentences.push(
      figures.pinches_C
        .map((pinch) =>
          ownApproaches(study)
            ? `The pinch lies at a shifted temperature of ${degrees(pinch)}`
            : `The pinch lies at ${degrees(pinch + half_K)} for hot and ${degrees(pinch - half_K)} for cold streams`,
        )
        .join("; ") +
        ": heat from outside is wanted only above it, and heat that is cooled away below it cannot serve what is above.",
    );
  else if (wanted_kW > 0)
    sentences.push(
      kind === "heating-only"
        ? "No cooling is needed (a threshold problem): all heat of the hot streams can be used."
        : kind === "cooling-only"
          ? "No heating is needed (a threshold problem): the hot streams can serve all of it."
          : "The streams balance each other: neither heating nor cooling is needed.",
    );
  if (figures.beyond_kW > 0)
    sentences.push(
      `${kW(figures.beyond_kW)} of the heating is wanted hotter than the supply of every heat network here, less half the approach.`,
    );
  return sentences;
}

/** How the least heating can be shared out among the study's networks. */
export function pinchNetworksTable(study: Study, figures: PinchFigures): TableView {
  const w = writingOf(study);
  const nameOf = (id: string) => study.networks.find((network) => network.id === id)?.name ?? id;
  const supply = (id: string) => study.networks.find((network) => network.id === id)?.supply_C ?? Number.NaN;
  const rows = figures.networks.map(({ network, heat_kW, atSupply_kW }) => [
    nameOf(network),
    `${asGiven(supply(network), w.locale)} °C`,
    power(heat_kW, w),
    power(atSupply_kW, w),
  ]);
  const beyond =
    figures.beyond_kW > 0 ? [["hotter than all of them", "", power(figures.beyond_kW, w), ""]] : [];
  return figuresTable(
    "The least heating by heat network, the coolest sufficient one first",
    ["Heat network", "Supply", "Least heating", "If it returned as hot as it goes out"],
    [...rows, ...beyond],
  );
}

function ownApproaches({ streams = [] }: Study): boolean {
  return streams.some(({ approach_K }) => approach_K !== undefined);
}

/** How the loads of the study stand beside the target; nothing where they draw no more than it. */
export function loadsBesideTarget(
  study: Study,
  { heating_kW, recovered_kW }: PinchFigures,
  loads: readonly ResolvedLoad[],
): string[] {
  const w = writingOf(study);
  const drawn_kW = largestTogether_kW(loads);
  const above_kW = drawn_kW - heating_kW;
  if (!(above_kW > 0.005 * drawn_kW) || !(recovered_kW > 0)) return [];
  return [
    `The loads below draw up to ${power(drawn_kW, w)} together, ${power(above_kW, w)} more than this least heating. As far as ` +
      `they are the heating of these streams, up to ${power(Math.min(above_kW, recovered_kW), w)} of it could be had from the hot streams instead.`,
  ];
}

/** Largest heat of all loads in one hour; movable loads count with their largest heat rate. */
function largestTogether_kW(loads: readonly ResolvedLoad[]): number {
  const together = new Float64Array(hoursPerYear);
  let movable_kW = 0;
  for (const load of loads) {
    if (load.kind === "water") movable_kW += load.capacity_m3_h * largest(load.heat_kWh_per_m3);
    if (load.kind === "batch") movable_kW += load.power_kW;
    if (load.kind !== "fixed-heat") continue;
    for (let hour = 0; hour < together.length; hour += 1) together[hour] += load.heat_kW[hour];
  }
  return movable_kW + together.reduce((most, value) => Math.max(most, value), 0);
}
