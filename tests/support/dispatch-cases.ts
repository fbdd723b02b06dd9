import fc from "fast-check";
import type {
  BackupCase,
  BatchCase,
  ChillerCase,
  ColdCase,
  CollectorCase,
  DispatchCase,
  FieldCase,
  LimitsCase,
  SizeCase,
  StepDownCase,
  StoreCase,
  WaterCase,
} from "../../src/core/dispatch/case.ts";
import { byHour, sometimesNone } from "./hourly-cop.ts";

const infinity = Number.POSITIVE_INFINITY;

/** A size the program may choose freely. */
export const freeSize = (annualCost_per_unit: number, initialCost_per_unit = 0): SizeCase => ({
  existing: 0,
  least: 0,
  most: infinity,
  annualCost_per_unit,
  initialCost_per_unit,
});

/** Plant that is there and costs nothing. */
export const existingSize = (existing: number): SizeCase => ({
  existing,
  least: 0,
  most: 0,
  annualCost_per_unit: 0,
  initialCost_per_unit: 0,
});

export const noLimits: LimitsCase = { land_m2: null, budget: null, leastSolarFraction: null };

/** A case of one cycle of equal blocks with nothing in it but what `parts` gives. */
export function dispatchCase(
  blocks: number,
  parts: Partial<DispatchCase> & { readonly networks: DispatchCase["networks"] },
): DispatchCase {
  return {
    name: "case",
    blocks,
    step_h: 1,
    weight: new Float64Array(blocks).fill(1),
    cycles: [{ start: 0, length: blocks }],
    collectors: [],
    fields: [],
    stores: [],
    stepDowns: [],
    cold: [],
    chillers: [],
    water: [],
    batches: [],
    electricityPrice_per_kWh: new Float64Array(blocks).fill(0.1),
    limits: noLimits,
    unmetPrice_per_kWh: 100,
    tieBreak_per_kWh: 0,
    ...parts,
    backups: (parts.backups ?? []).map((item) => ({
      ...item,
      heatPrice_per_kWh:
        item.heatPrice_per_kWh.length === 1
          ? new Float64Array(blocks).fill(item.heatPrice_per_kWh[0]!)
          : item.heatPrice_per_kWh,
    })),
  };
}

export const network = (id: string, fixed_kW: Float64Array) => ({ id, fixed_kW });

export const collector = (annualCost_per_m2: number, more: Partial<CollectorCase> = {}): CollectorCase => ({
  id: "c0",
  least_m2: 0,
  most_m2: infinity,
  annualCost_per_m2,
  initialCost_per_m2: 0,
  groundCover: 0.5,
  ...more,
});

export const field = (yield_kW_per_m2: Float64Array, more: Partial<FieldCase> = {}): FieldCase => ({
  collector: 0,
  network: 0,
  existing_m2: 0,
  least_m2: 0,
  most_m2: infinity,
  yield_kW_per_m2,
  parasitic_kW_per_m2: new Float64Array(yield_kW_per_m2.length),
  ...more,
});

export const store = (size: SizeCase, more: Partial<StoreCase> = {}): StoreCase => ({
  id: "s0",
  serves: { network: 0 },
  keep_per_h: 1,
  chargeEfficiency: 1,
  dischargeEfficiency: 1,
  chargeLimit_kW: infinity,
  dischargeLimit_kW: infinity,
  charger: null,
  size,
  ...more,
});

/** @param price one for all blocks, or one a block */
export const backup = (price: number | Float64Array, more: Partial<BackupCase> = {}): BackupCase => ({
  id: "b0",
  network: 0,
  // `dispatchCase` knows the blocks and spreads a single price over them.
  heatPrice_per_kWh: typeof price === "number" ? Float64Array.of(price) : price,
  mayCharge: false,
  size: existingSize(infinity),
  ...more,
});

/** The first blocks of a case as one cycle; batch windows that reach beyond them are left out. */
export function cutCase(year: DispatchCase, blocks: number): DispatchCase {
  const cut = (series: Float64Array) => series.slice(0, blocks);
  return {
    ...year,
    name: `${year.name}-${blocks}`,
    blocks,
    weight: cut(year.weight),
    cycles: [{ start: 0, length: blocks }],
    networks: year.networks.map((item) => ({ ...item, fixed_kW: cut(item.fixed_kW) })),
    fields: year.fields.map((item) => ({
      ...item,
      yield_kW_per_m2: cut(item.yield_kW_per_m2),
      parasitic_kW_per_m2: cut(item.parasitic_kW_per_m2),
    })),
    cold: year.cold.map((item) => ({
      ...item,
      demand_kW: cut(item.demand_kW),
      electricCop: cut(item.electricCop),
    })),
    chillers: year.chillers.map((item) => ({
      ...item,
      cop: cut(item.cop),
      capacityFactor: cut(item.capacityFactor),
    })),
    water: year.water.map((item) => ({
      ...item,
      order_m3_h: cut(item.order_m3_h),
      heat_kWh_per_m3: cut(item.heat_kWh_per_m3),
    })),
    batches: year.batches.map((item) => ({
      ...item,
      windows: item.windows.filter((window) => window.every((block) => block < blocks)),
    })),
    backups: year.backups.map((item) => ({
      ...item,
      heatPrice_per_kWh: cut(item.heatPrice_per_kWh),
      ...(item.available === undefined ? {} : { available: cut(item.available) }),
    })),
    electricityPrice_per_kWh: cut(year.electricityPrice_per_kWh),
  };
}

/** Which kinds of plant and limits a random case may have. */
export interface CaseKinds {
  readonly networks?: 1 | 2;
  readonly cold?: boolean;
  readonly water?: boolean;
  readonly batch?: boolean;
  readonly limits?: boolean;
  /** Whether sizes may be fixed, bounded or exist already; free otherwise. */
  readonly bounds?: boolean;
  /** Whether today's boilers may be too small, or several share a network. */
  readonly boilers?: boolean;
  /** Whether prices of those boilers may go by the hour. */
  readonly hourly?: boolean;
  /** Whether prices of those boilers and of electricity may be negative in some blocks. */
  readonly negative?: boolean;
  /** Whether charging powers of heat stores may have a size of their own. */
  readonly chargers?: boolean;
}

const anyKind: Required<CaseKinds> = {
  networks: 2,
  cold: true,
  water: true,
  batch: true,
  limits: true,
  bounds: true,
  boilers: true,
  hourly: true,
  negative: true,
  chargers: true,
};

/** A number with few digits, so that a failing case can be read and shrinks well. */
const few = (least: number, most: number, steps = 20) =>
  fc
    .integer({ min: 0, max: steps })
    .map((n) => Number((least + ((most - least) * n) / steps).toPrecision(6)));

const series = (blocks: number, least: number, most: number) =>
  fc
    .array(few(least, most), { minLength: blocks, maxLength: blocks })
    .map((values) => Float64Array.from(values));

/** Sun from block to block: nothing in the outer quarters of each day, random between. */
const sunny = (blocks: number) =>
  fc.array(few(0, 0.6), { minLength: blocks, maxLength: blocks }).map((values) =>
    Float64Array.from(values, (value, t) => {
      const clock = (24 * (t % 12)) / 12;
      return clock >= 6 && clock < 18 ? value : 0;
    }),
  );

const sizeArbitrary = (annual: number, usual: number, bounds: boolean): fc.Arbitrary<SizeCase> =>
  fc
    .record({
      choice: bounds
        ? fc.constantFrom("free", "free", "bounded", "fixed", "existing")
        : fc.constant<"free" | "bounded" | "fixed" | "existing">("free"),
      cost: few(0.3 * annual, 2 * annual),
      at: few(0.1 * usual, usual),
    })
    .map(({ choice, cost, at }) => ({
      existing: choice === "existing" ? at : 0,
      least: choice === "fixed" ? at : choice === "bounded" ? 0.2 * at : 0,
      most: choice === "fixed" ? at : choice === "bounded" ? at : infinity,
      annualCost_per_unit: cost,
      initialCost_per_unit: 100 * cost,
    }));

/** Random small dispatch problems of our own shape: 12 or 24 blocks, one or two networks. */
export function anyCase(kinds: CaseKinds = {}): fc.Arbitrary<DispatchCase> {
  const allowed = { ...anyKind, ...kinds };
  const base = fc.record({
    blocks: fc.constantFrom(12, 24),
    networks: fc.constantFrom(...(allowed.networks === 2 ? [1, 2] : [1])),
    days: fc.boolean(),
  });
  return base.chain(({ blocks, networks: count, days }) => {
    const isTwo = count === 2;
    const cycles =
      days && blocks === 24
        ? [
            { start: 0, length: 12 },
            { start: 12, length: 12 },
          ]
        : [{ start: 0, length: blocks }];
    const firstCycle = cycles[0]!;
    const when = <T>(condition: boolean, item: fc.Arbitrary<T>): fc.Arbitrary<T[]> =>
      condition ? fc.array(item, { minLength: 0, maxLength: 1 }) : fc.constant([]);
    const networkIndex = fc.nat({ max: count - 1 });

    return fc
      .record({
        demand: fc.array(series(blocks, 0, 1000), { minLength: count, maxLength: count }),
        dayWeights: fc.tuple(few(1, 20), few(1, 20)),
        yields: fc.array(sunny(blocks), { minLength: count, maxLength: count }),
        collectorCost: few(0.03, 0.3),
        collectorMost: allowed.bounds ? fc.option(few(100, 4000)) : fc.constant(null),
        fieldExisting: allowed.bounds ? few(0, 800, 4) : fc.constant(0),
        parasitic: few(0, 0.004, 4),
        stores: fc.array(
          fc.record({
            size: sizeArbitrary(0.02, 6000, allowed.bounds),
            keep: few(0.95, 1, 5),
            chargeEfficiency: few(0.8, 1, 4),
            dischargeEfficiency: few(0.8, 1, 4),
            limit: fc.option(few(100, 800)),
            charger: allowed.chargers
              ? fc.option(sizeArbitrary(0.03, 500, allowed.bounds))
              : fc.constant(null),
          }),
          { minLength: 0, maxLength: count },
        ),
        stepDown: when(
          isTwo,
          fc.record({ efficiency: few(0.9, 1, 2), size: sizeArbitrary(0.05, 600, allowed.bounds) }),
        ),
        cold: when(
          allowed.cold,
          fc.record({
            demand_kW: series(blocks, 0, 300),
            electricCop: few(2, 5, 6),
            limit: allowed.boilers ? fc.option(few(150, 300)) : fc.constant(null),
            network: networkIndex,
            cop: few(0.6, 0.8, 4),
            power: few(0, 0.05, 5),
            chiller: sizeArbitrary(0.05, 200, allowed.bounds),
            coldStore: fc.option(sizeArbitrary(0.02, 1000, allowed.bounds)),
          }),
        ),
        water: when(
          allowed.water,
          fc.record({
            order_m3_h: series(blocks, 0, 8),
            network: networkIndex,
            heat: few(40, 80, 4),
            electricity: few(0, 2, 4),
            slack: few(0.6, 3, 8),
            tank_m3: few(0, 60, 6),
          }),
        ),
        batch: when(
          allowed.batch,
          fc.record({
            network: networkIndex,
            opens: fc.nat({ max: firstCycle.length - 1 }),
            lasts: fc.integer({ min: 1, max: Math.floor(firstCycle.length / 2) }),
            second: fc.boolean(),
            heat_kWh: few(50, 2000),
            tightness: few(0.8, 3, 11),
          }),
        ),
        backups: fc.array(
          fc.record({
            price: few(0.02, 0.1),
            hourly: allowed.hourly
              ? fc.option(series(blocks, allowed.negative ? -0.05 : 0.01, 0.12))
              : fc.constant(null),
            mayCharge: fc.boolean(),
            power: few(200, 1500),
            annual: few(0.02, 0.5),
            free: fc.boolean(),
          }),
          { minLength: allowed.boilers ? 0 : 0, maxLength: allowed.boilers ? 3 : 0 },
        ),
        electricity: allowed.negative
          ? fc.oneof(series(blocks, 0.05, 0.2), series(blocks, -0.05, 0.2))
          : series(blocks, 0.05, 0.2),
        limits: allowed.limits
          ? fc.record({
              land_m2: fc.option(few(200, 8000)),
              budget: fc.option(few(1000, 60000)),
              leastSolarFraction: fc.option(few(0.1, 0.9)),
            })
          : fc.constant(noLimits),
      })
      .map((given): DispatchCase => {
        // Costs of a cycle become costs of the days that it stands for.
        const lasting = (size: SizeCase): SizeCase => ({
          ...size,
          annualCost_per_unit: given.dayWeights[0] * size.annualCost_per_unit,
        });
        const dearest = Math.max(
          0.06,
          ...given.backups.flatMap(({ price, hourly }) => [price, ...(hourly ?? [])]),
        );
        const weight = new Float64Array(blocks);
        for (const [n, cycle] of cycles.entries())
          weight.fill(given.dayWeights[n]!, cycle.start, cycle.start + cycle.length);
        const usual = Array.from(
          { length: count },
          (_, k): BackupCase => backup(k === 0 ? 0.06 : 0.05, { id: `usual${k}`, network: k }),
        );
        const several = given.backups.map(
          ({ price, hourly, mayCharge, power, annual, free }, i): BackupCase =>
            backup(hourly ?? price, {
              id: `b${i}`,
              network: i % count,
              mayCharge,
              size: free
                ? // A boiler that is paid for its fuel must have an end.
                  { ...lasting(freeSize(annual, 10 * annual)), most: hourly === null ? infinity : power }
                : existingSize(power),
            }),
        );
        const chargeable = (item: (typeof given.stores)[number], k: number): StoreCase => ({
          id: `s${k}`,
          serves: { network: k },
          keep_per_h: item.keep,
          chargeEfficiency: item.chargeEfficiency,
          dischargeEfficiency: item.dischargeEfficiency,
          chargeLimit_kW: item.limit ?? infinity,
          dischargeLimit_kW: item.limit ?? infinity,
          charger: item.charger === null ? null : lasting(item.charger),
          size: lasting(item.size),
        });
        const coldStores = given.cold.flatMap(({ coldStore }): StoreCase[] =>
          coldStore === null
            ? []
            : [
                store(lasting(coldStore), {
                  id: "ice",
                  serves: { cold: 0 },
                  keep_per_h: 0.99,
                  chargeEfficiency: 0.95,
                  dischargeEfficiency: 0.95,
                  // Where power is paid for, cold could else be made and wasted without end.
                  chargeLimit_kW: given.electricity.some((price) => price < 0) ? 400 : infinity,
                }),
              ],
        );
        return dispatchCase(blocks, {
          name: "random",
          weight,
          cycles,
          networks: given.demand.map((fixed_kW, k) => network(`n${k}`, fixed_kW)),
          collectors: [
            collector(given.collectorCost * (blocks / 24) * given.dayWeights[0], {
              most_m2: given.collectorMost ?? infinity,
              initialCost_per_m2: 100 * given.collectorCost,
            }),
          ],
          fields: given.yields.map((yield_kW_per_m2, k) =>
            field(yield_kW_per_m2, {
              network: k,
              existing_m2: k === 0 ? given.fieldExisting : 0,
              parasitic_kW_per_m2: yield_kW_per_m2.map((heat) =>
                heat > 0 ? given.parasitic : given.parasitic / 3,
              ),
            }),
          ),
          stores: [...given.stores.map(chargeable), ...coldStores],
          stepDowns: given.stepDown.map(
            ({ efficiency, size }): StepDownCase => ({
              id: "x0",
              from: 0,
              to: 1,
              efficiency,
              size: lasting(size),
            }),
          ),
          cold: given.cold.map(
            ({ demand_kW, electricCop, limit }): ColdCase => ({
              id: "cool",
              demand_kW,
              electricCop: byHour(electricCop, 3.5, blocks),
              electricLimit_kW: limit ?? infinity,
            }),
          ),
          chillers: given.cold.map(
            (item): ChillerCase => ({
              id: "chiller",
              cold: 0,
              network: item.network,
              cop: byHour(item.cop, 0.7, blocks),
              capacityFactor: item.cop > 0.7 ? sometimesNone(blocks) : new Float64Array(blocks).fill(1),
              electricity_kWh_per_kWh: item.power,
              size: lasting(item.chiller),
            }),
          ),
          water: given.water.map((item): WaterCase => {
            const mean = item.order_m3_h.reduce((sum, value) => sum + value, 0) / blocks;
            return {
              id: "water",
              network: item.network,
              heat_kWh_per_m3: Float64Array.from(
                { length: blocks },
                (_, t) => item.heat * (1 + 0.2 * Math.sin(t)),
              ),
              electricity_kWh_per_m3: item.electricity,
              order_m3_h: item.order_m3_h,
              capacity_m3_h: item.slack * mean,
              tank_m3: item.tank_m3,
            };
          }),
          batches: given.batch.map((item): BatchCase => {
            const window = (from: number, length: number) =>
              Int32Array.from({ length: item.lasts }, (_, n) => from + ((item.opens + n) % length));
            const half = firstCycle.length / 2;
            const windows = [window(0, firstCycle.length)];
            // A second window half a cycle later, or on the other day, never meets the first.
            if (item.second && cycles.length > 1) windows.push(window(12, 12));
            else if (item.second)
              windows.push(Int32Array.from(windows[0]!, (block) => (block + half) % firstCycle.length));
            return {
              id: "dryer",
              network: item.network,
              power_kW: (item.tightness * item.heat_kWh) / item.lasts,
              heat_kWh: item.heat_kWh,
              windows,
            };
          }),
          backups: allowed.boilers && several.length > 0 ? several : usual,
          electricityPrice_per_kWh: given.electricity,
          limits: given.limits,
          unmetPrice_per_kWh: 1000 * dearest,
          tieBreak_per_kWh: 1e-5 * dearest,
        });
      });
  });
}
