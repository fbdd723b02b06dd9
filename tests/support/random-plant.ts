import type {
  BackupCase,
  BatchCase,
  DispatchCase,
  FieldCase,
  SizeCase,
  StepDownCase,
  StoreCase,
} from "../../src/core/dispatch/case.ts";
import { joinYears } from "../../src/core/dispatch/join-years.ts";
import { type RandomStream, randomStream } from "../../src/core/sun/random.ts";
import { byHour, sometimesNone } from "./hourly-cop.ts";
import { otherYear, variedPlant } from "./varied-plant.ts";

const infinity = Number.POSITIVE_INFINITY;

/** Plants of one shape with other numbers each: a solver that prepares itself for a shape does so once for all. */
const plantsOfOneShape = 3;

/**
 * A random plant of one to four networks over one to four days in the whole breadth of the program: the
 * same seed gives the same plant on every machine, so a seed is all that need be kept of a case. A new draw
 * in the middle would change every plant; new features go to the end.
 */
export function randomPlant(seed: number): DispatchCase {
  const shape = Math.ceil(seed / plantsOfOneShape);
  const first = freshPlant(shape);
  const plant = {
    ...(seed % plantsOfOneShape === 1 ? first : variedPlant(first, seed)),
    name: `random-${seed}`,
  };
  const isOfTwoYears = shape % 6 === 0 && plant.blocks <= 48;
  return isOfTwoYears ? joinYears([plant, otherYear(plant, seed)], [0.7, 0.3]) : plant;
}

function freshPlant(seed: number): DispatchCase {
  const random = randomStream(seed);
  const draw = drawing(random);
  const step_h = draw.chance(0.15) ? 0.5 : 1;
  const perDay = 24 / step_h;
  const count = draw.of([1, 1, 2, 2, 3, 4]);
  const days = count > 2 ? draw.of([1, 2]) : draw.of([1, 2, 3, 4]);
  const blocks = Math.min(96, days * perDay);
  const ownDays = blocks > perDay && draw.chance(0.3);
  const frame = { blocks, perDay, step_h, draw };
  const weight = new Float64Array(blocks).fill(1);
  const cycles = ownDays
    ? Array.from({ length: blocks / perDay }, (_, d) => ({ start: d * perDay, length: perDay }))
    : [{ start: 0, length: blocks }];
  if (ownDays)
    for (const { start, length } of cycles) weight.fill(draw.of([1, 5, 40, 100]), start, start + length);
  const share = weight.reduce((all, value) => all + value * step_h, 0) / 8760;
  const ks = Array.from({ length: count }, (_, k) => k);
  const fuel_per_kWh = draw.of([0.015, 0.03, 0.05, 0.09]);
  const sizes = draw.of(["free", "free", "free", "mixed", "fixed"] as const);

  /** A size near what pays, by the way in which this plant's sizes are given. */
  const size = (annual_per_unit: number, usual: number): SizeCase => {
    const way = sizes === "mixed" ? draw.of(["free", "bounded", "existing", "fixed"] as const) : sizes;
    const at = usual * draw.between(0.2, 1);
    const annualCost_per_unit = annual_per_unit * draw.between(0.4, 1.6) * share;
    const prices = { annualCost_per_unit, initialCost_per_unit: annual_per_unit * 10 };
    if (way === "fixed") return { existing: 0, least: at, most: at, ...prices };
    if (way === "bounded") return { existing: 0, least: 0.2 * at, most: at, ...prices };
    return { existing: way === "existing" ? 0.5 * at : 0, least: 0, most: infinity, ...prices };
  };

  const varied = (mean: number) =>
    Float64Array.from({ length: blocks }, (_, t) => mean * (1 + 0.2 * Math.sin(t)));
  const networks = ks.map((k) => ({ id: `n${k}`, fixed_kW: demand_kW(frame, draw.between(100, 600)) }));
  const { collectors, fields } = collectorsOf(frame, { ks, share, sizes, size });
  const hasCold = draw.chance(0.4);
  // Cold could be made and wasted without end where power is paid for.
  const cheapest = !hasCold && draw.chance(0.2) ? -0.1 : 0.05;
  const stores = ks.flatMap((k) => (draw.chance(0.7) ? [storeOf(draw, `s${k}`, { network: k }, size)] : []));
  const chillerCop = () => {
    const cop = draw.between(0.6, 1.2);
    const capacityFactor = cop > 0.8 ? sometimesNone(blocks) : new Float64Array(blocks).fill(1);
    return { cop: byHour(cop, 0.9, blocks), capacityFactor };
  };
  const cold = hasCold
    ? [
        {
          id: "hall",
          demand_kW: demand_kW(frame, draw.between(50, 200)),
          electricCop: byHour(draw.between(2.5, 4.5), 3.5, blocks),
          electricLimit_kW: draw.chance(0.4) ? draw.between(60, 150) : infinity,
        },
      ]
    : [];
  if (hasCold && draw.chance(0.5)) stores.push(storeOf(draw, "ice", { cold: 0 }, size));
  return {
    name: "random",
    blocks,
    step_h,
    weight,
    cycles,
    networks,
    collectors,
    fields,
    stores,
    stepDowns: stepDownsOf(draw, count, size),
    cold,
    chillers: hasCold
      ? [
          {
            id: "absorber",
            cold: 0,
            network: draw.below(count),
            ...chillerCop(),
            electricity_kWh_per_kWh: draw.between(0, 0.05),
            size: size(18, 150),
          },
        ]
      : [],
    water: draw.chance(0.4)
      ? [
          {
            id: "still",
            network: draw.below(count),
            heat_kWh_per_m3: varied(draw.between(40, 80)),
            electricity_kWh_per_m3: draw.between(0, 2),
            order_m3_h: demand_kW(frame, 4),
            // Below the mean order in some, so that water stays unmet.
            capacity_m3_h: draw.of([2, 5, 8]),
            tank_m3: draw.of([0, 10, 60]),
          },
        ]
      : [],
    batches: draw.chance(0.4) ? [batchOf(frame, cycles, draw.below(count))] : [],
    backups: backupsOf(frame, { ks, fuel_per_kWh, size }),
    electricityPrice_per_kWh: Float64Array.from({ length: blocks }, () => draw.between(cheapest, 0.2)),
    limits: {
      land_m2: draw.chance(0.25) ? draw.between(200, 4000) * count : null,
      budget: draw.chance(0.2) ? draw.between(10_000, 150_000) * count : null,
      leastSolarFraction: draw.chance(0.3) ? draw.of([0.2, 0.5, 0.8, 0.95]) : null,
    },
    unmetPrice_per_kWh: 1000 * fuel_per_kWh,
    tieBreak_per_kWh: 1e-5 * fuel_per_kWh,
  };
}

/** Draws from a stream. */
function drawing(random: RandomStream) {
  const below = (count: number) => Math.floor(random.uniform() * count);
  return {
    below,
    between: (least: number, most: number) => least + (most - least) * random.uniform(),
    chance: (share: number) => random.uniform() < share,
    of: <T>(items: readonly T[]): T => items[below(items.length)]!,
  };
}
type Drawing = ReturnType<typeof drawing>;

interface Frame {
  readonly blocks: number;
  readonly perDay: number;
  readonly step_h: number;
  readonly draw: Drawing;
}
type Sizing = (annual_per_unit: number, usual: number) => SizeCase;

/** Work by day, some rest by night, now and then nothing at all. */
function demand_kW({ blocks, perDay, draw }: Frame, usual_kW: number): Float64Array {
  if (draw.chance(0.05)) return new Float64Array(blocks);
  const rest = draw.of([0, 0.2, 0.6, 1]);
  const [from, to] = [draw.between(0, 10), draw.between(14, 24)];
  return Float64Array.from({ length: blocks }, (_, t) => {
    const clock = (24 * (t % perDay)) / perDay;
    return usual_kW * (clock >= from && clock < to ? 1 : rest) * draw.between(0.8, 1.2);
  });
}

/** Each type has a field on one, some or all networks; hotter ones give less. */
function collectorsOf(
  { blocks, perDay, draw }: Frame,
  plant: {
    readonly ks: readonly number[];
    readonly share: number;
    readonly sizes: string;
    readonly size: Sizing;
  },
) {
  const types = draw.of([1, 1, 2, 3]);
  const clear = Array.from({ length: Math.ceil(blocks / perDay) }, () => draw.between(0.1, 1));
  const sun = Float64Array.from({ length: blocks }, (_, t) => {
    const height = Math.sin((Math.PI * ((24 * ((t % perDay) + 0.5)) / perDay - 6)) / 12);
    return height > 0 ? height * clear[Math.floor(t / perDay)]! * draw.between(0.8, 1) : 0;
  });
  const isFixed = plant.sizes === "fixed";
  const collectors = Array.from({ length: types }, (_, c) => ({
    id: `c${c}`,
    // Bounds of a field on its own might not leave room for it.
    least_m2: plant.sizes === "free" && draw.chance(0.15) ? 150 : 0,
    most_m2: !isFixed && draw.chance(0.2) ? draw.between(300, 2000) : infinity,
    annualCost_per_m2: draw.between(4, 12) * plant.share,
    initialCost_per_m2: draw.between(40, 150),
    groundCover: draw.between(0.3, 0.6),
  }));
  const fields = collectors.flatMap((_, collector) => {
    const served = plant.ks.filter(() => draw.chance(0.7));
    if (served.length === 0) served.push(draw.of(plant.ks));
    return served.map((network): FieldCase => {
      const [gain, loss] = [draw.between(0.4, 0.7), draw.between(0.02, 0.05) * (4 - network)];
      const parasitic = draw.chance(0.5) ? 0.003 : 0;
      const { existing, least, most } = plant.size(0, 2000);
      return {
        collector,
        network,
        existing_m2: existing,
        least_m2: least,
        most_m2: most,
        yield_kW_per_m2: sun.map((value) => Math.max(0, gain * value - loss)),
        parasitic_kW_per_m2: sun.map((value) => (value > 0.1 ? parasitic : parasitic / 3)),
      };
    });
  });
  return { collectors, fields };
}

function storeOf(draw: Drawing, id: string, serves: StoreCase["serves"], size: Sizing): StoreCase {
  const lossy = draw.chance(0.7);
  const limited = draw.chance(0.3);
  return {
    id,
    serves,
    keep_per_h: lossy ? draw.between(0.97, 1) : 1,
    chargeEfficiency: lossy ? draw.between(0.9, 1) : 1,
    dischargeEfficiency: lossy ? draw.between(0.9, 1) : 1,
    chargeLimit_kW: limited ? draw.between(50, 400) : infinity,
    dischargeLimit_kW: limited ? draw.between(50, 400) : infinity,
    charger: draw.chance(0.25) ? size(1, 300) : null,
    size: "cold" in serves ? size(1.2, 800) : size(1.8, 4000),
  };
}

/** From hotter to cooler networks: each pair may have one, free of charge and limit, limited, or sized. */
function stepDownsOf(draw: Drawing, count: number, size: Sizing): StepDownCase[] {
  const items: StepDownCase[] = [];
  for (let from = 0; from < count; from += 1)
    for (let to = from + 1; to < count; to += 1) {
      if (!draw.chance(to === from + 1 ? 0.7 : 0.3)) continue;
      const held = { existing: draw.chance(0.5) ? infinity : draw.between(50, 400), least: 0, most: 0 };
      items.push({
        id: `x${from}${to}`,
        from,
        to,
        efficiency: draw.between(0.95, 1),
        size: draw.chance(0.6)
          ? size(1.5, 300)
          : { ...held, annualCost_per_unit: 0, initialCost_per_unit: 0 },
      });
    }
  return items;
}

/** One window a day, or one a cycle that wraps its end; sometimes more heat than its power allows. */
function batchOf({ perDay, draw }: Frame, cycles: DispatchCase["cycles"], network: number): BatchCase {
  // Two in three windows reach over midnight.
  const opens = draw.chance(0.5) ? draw.below(perDay) : Math.floor(0.8 * perDay) + draw.below(perDay / 6);
  const lasts = 2 + draw.below(perDay / 2);
  const heat_kWh = draw.between(200, 2000);
  const windows = cycles.flatMap(({ start, length }) =>
    Array.from({ length: length / perDay }, (_, d) =>
      Int32Array.from({ length: lasts }, (__, n) => start + ((d * perDay + opens + n) % length)),
    ),
  );
  const power_kW = (draw.of([0.8, 1.2, 3]) * heat_kWh) / ((lasts * 24) / perDay);
  return { id: "kiln", network, power_kW, heat_kWh, windows };
}

function backupsOf(
  { blocks, draw }: Frame,
  plant: { readonly ks: readonly number[]; readonly fuel_per_kWh: number; readonly size: Sizing },
): BackupCase[] {
  const way = draw.of(["unlimited", "unlimited", "capped", "sized", "two"] as const);
  const prices = draw.of(["constant", "constant", "hourly", "negative"] as const);
  const price = (mean: number) =>
    prices === "constant"
      ? new Float64Array(blocks).fill(mean)
      : Float64Array.from(
          { length: blocks },
          () => mean * draw.between(prices === "hourly" ? 0.4 : -0.6, 1.6),
        );
  // Heat at a negative price would be made without end by a boiler without limit.
  const most = prices === "negative" ? 1500 : infinity;
  const held = (existing: number): SizeCase => ({
    existing,
    least: 0,
    most: 0,
    annualCost_per_unit: 0,
    initialCost_per_unit: 0,
  });
  return plant.ks.flatMap((network): BackupCase[] => {
    const one = { network, mayCharge: draw.chance(0.5), heatPrice_per_kWh: price(plant.fuel_per_kWh) };
    if (way === "unlimited") return [{ ...one, id: `b${network}`, size: held(most) }];
    if (way === "capped") return [{ ...one, id: `b${network}`, size: held(draw.between(50, 600)) }];
    const sought = plant.size(8, 500);
    const sized = { ...one, id: `b${network}`, size: { ...sought, most: Math.min(sought.most, most) } };
    if (way === "sized") return [sized];
    const dear = { ...one, id: `d${network}`, heatPrice_per_kWh: price(1.5 * plant.fuel_per_kWh) };
    return [sized, { ...dear, size: held(draw.between(50, 300)) }];
  });
}
