import { ModelError } from "../errors.ts";
import type { DispatchCase } from "./case.ts";

export interface JoinOptions {
  /** Where the least solar fraction must hold. */
  readonly fractionIn?: "expected-year" | "each-year";
}

/**
 * One plant under several years (weather years, price paths) as one problem: their blocks behind each
 * other, each year with cycles of its own and weighted with its share, sizes in common. The cost and
 * the least solar fraction are then those of the expected year, or each year keeps that fraction; land
 * and budget hold as ever.
 *
 * Limits are those of the first case, the price of unmet heat and the tie-break the largest of all.
 *
 * @param shares probability of each year, above 0, together 1
 * @throws ModelError SERIES_LENGTH, OUT_OF_RANGE (shares) or DIFFERENT_PLANTS
 */
export function joinYears(
  cases: readonly DispatchCase[],
  shares: readonly number[],
  { fractionIn = "expected-year" }: JoinOptions = {},
): DispatchCase {
  const first = cases[0];
  if (first === undefined || cases.length !== shares.length)
    throw new ModelError("SERIES_LENGTH", `${cases.length} years and ${shares.length} shares`);
  checkShares(shares);
  for (const other of cases) checkSamePlant(first, other);

  const offsets = cases.map((_, y) => cases.slice(0, y).reduce((sum, { blocks }) => sum + blocks, 0));
  const blocks = cases.reduce((sum, year) => sum + year.blocks, 0);
  const join = (series: (year: DispatchCase) => Float64Array) => {
    const joined = new Float64Array(blocks);
    cases.forEach((year, y) => {
      joined.set(series(year), offsets[y]);
    });
    return joined;
  };
  return {
    ...first,
    name: `${first.name}-${cases.length}-years`,
    blocks,
    weight: join(({ weight }) => weight).map((weight, t) => weight * shares[yearAt(offsets, t)]),
    cycles: cases.flatMap(({ cycles }, y) =>
      cycles.map(({ start, length }) => ({ start: start + offsets[y], length })),
    ),
    networks: first.networks.map((item, i) => ({
      ...item,
      fixed_kW: join(({ networks }) => networks[i].fixed_kW),
    })),
    fields: first.fields.map((item, i) => ({
      ...item,
      yield_kW_per_m2: join(({ fields }) => fields[i].yield_kW_per_m2),
      parasitic_kW_per_m2: join(({ fields }) => fields[i].parasitic_kW_per_m2),
    })),
    cold: first.cold.map((item, i) => ({
      ...item,
      demand_kW: join(({ cold }) => cold[i].demand_kW),
      electricCop: join(({ cold }) => cold[i].electricCop),
    })),
    chillers: first.chillers.map((item, i) => ({
      ...item,
      cop: join(({ chillers }) => chillers[i].cop),
      capacityFactor: join(({ chillers }) => chillers[i].capacityFactor),
    })),
    water: first.water.map((item, i) => ({
      ...item,
      order_m3_h: join(({ water }) => water[i].order_m3_h),
      heat_kWh_per_m3: join(({ water }) => water[i].heat_kWh_per_m3),
    })),
    batches: first.batches.map((item, i) => ({
      ...item,
      windows: cases.flatMap(({ batches }, y) =>
        batches[i].windows.map((window) => window.map((block) => block + offsets[y])),
      ),
    })),
    backups: first.backups.map((item, i) => ({
      ...item,
      heatPrice_per_kWh: join(({ backups }) => backups[i].heatPrice_per_kWh),
      ...(cases.every(({ backups }) => backups[i].available === undefined)
        ? {}
        : {
            available: join(
              ({ backups, blocks: length }) => backups[i].available ?? new Float64Array(length).fill(1),
            ),
          }),
    })),
    electricityPrice_per_kWh: join((year) => year.electricityPrice_per_kWh),
    ...(fractionIn === "each-year"
      ? { fractionYears: cases.map(({ blocks: length }, y) => ({ start: offsets[y], length })) }
      : {}),
    unmetPrice_per_kWh: Math.max(...cases.map((year) => year.unmetPrice_per_kWh)),
    tieBreak_per_kWh: Math.max(...cases.map((year) => year.tieBreak_per_kWh)),
  };
}

function yearAt(offsets: readonly number[], block: number): number {
  let year = offsets.length - 1;
  while (offsets[year] > block) year -= 1;
  return year;
}

function checkShares(shares: readonly number[]): void {
  const sum = shares.reduce((all, share) => all + share, 0);
  if (!shares.every((share) => share > 0) || !(Math.abs(sum - 1) <= 1e-9))
    throw new ModelError("OUT_OF_RANGE", `shares of ${shares.join(", ")}; each must be above 0, together 1`);
}

const lists = [
  "networks",
  "collectors",
  "fields",
  "stores",
  "stepDowns",
  "cold",
  "chillers",
  "water",
  "batches",
  "backups",
] as const;

function checkSamePlant(first: DispatchCase, other: DispatchCase): void {
  if (first.step_h !== other.step_h)
    throw new ModelError("DIFFERENT_PLANTS", `blocks of ${first.step_h} h and ${other.step_h} h`);
  for (const list of lists) {
    const [a, b] = [plantIn(first[list]), plantIn(other[list])];
    if (a !== b) throw new ModelError("DIFFERENT_PLANTS", `different ${list}: ${a} and ${b}`);
  }
}

/** Everything but what goes by the block, as text. */
function plantIn(list: DispatchCase[(typeof lists)[number]]): string {
  return JSON.stringify(list, (key, value: unknown) => {
    if (key === "windows" || value instanceof Float64Array) return undefined;
    return typeof value === "number" && !Number.isFinite(value) ? String(value) : value;
  });
}
