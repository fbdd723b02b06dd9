import { describe, expect, it } from "vitest";
import { noRules } from "../../../src/core/replay/operating-rules.ts";
import { replaySimple } from "../../../src/core/replay/replay-simple.ts";
import { expectClose } from "../../support/close.ts";
import {
  backup,
  collector,
  dispatchCase,
  existingSize,
  field,
  network,
  store,
} from "../../support/dispatch-cases.ts";
import { someSizes } from "./support.ts";

/** All figures here are derived by hand from the controller's rules; no published case. */
const constant = (blocks: number, value: number) => new Float64Array(blocks).fill(value);
const series = (values: readonly number[]) => Float64Array.from(values);
const shown = (values: Float64Array) => Array.from(values, (value) => Number(value.toFixed(6)));

/** Sun for half a day, a constant demand, a store. */
const squareWave = (parts: Parameters<typeof store>[1] = {}) =>
  dispatchCase(24, {
    networks: [network("heat", constant(24, 1000))],
    collectors: [collector(0)],
    fields: [field(constant(24, 0).fill(0.5, 0, 12), { existing_m2: 4000 })],
    stores: [store(existingSize(12_000), parts)],
    backups: [backup(0.04)],
  });

describe("the simple controller, by hand", () => {
  it("burns fuel for all of the demand where there is no sun", () => {
    const problem = dispatchCase(24, {
      networks: [network("heat", constant(24, 100))],
      stores: [store(existingSize(500))],
      backups: [backup(0.05)],
    });
    const { totals } = replaySimple(problem, someSizes(problem, 0));
    expectClose(totals.backup_kWh, 2400, 1e-12);
    expectClose(totals.cost, 120, 1e-12);
    expect(totals.solarFraction).toBe(0);
  });

  it("fills the store by day and empties it by night", () => {
    const lossless = squareWave();
    expectClose(replaySimple(lossless, someSizes(lossless, 0)).totals.backup_kWh, 0, 1e-9);
    // 1000 kW · 12 h · 0.9 stored, 10.8 h delivered.
    const lossy = squareWave({ chargeEfficiency: 0.9 });
    expectClose(replaySimple(lossy, someSizes(lossy, 0)).totals.backup_kWh, 1200, 1e-9);
    // Discharge at 600 kW: 400 kW are burnt in each of 12 hours, 4800 kWh are left.
    const slow = squareWave({ dischargeLimit_kW: 600 });
    const { totals } = replaySimple(slow, someSizes(slow, 0));
    expectClose(totals.backup_kWh, 4800, 1e-9);
    expectClose(totals.left_kWh[0]!, 4800, 1e-9);
    expectClose(totals.cost, 0.04 * 4800, 1e-9);
  });

  it("steps down what the hotter network does not draw, before it stores", () => {
    const problem = dispatchCase(2, {
      networks: [network("hot", series([100, 100])), network("warm", series([90, 90]))],
      collectors: [collector(0)],
      fields: [field(series([1, 0]), { existing_m2: 300 })],
      stores: [store(existingSize(1000))],
      stepDowns: [{ id: "x", from: 0, to: 1, efficiency: 0.9, size: existingSize(500) }],
      backups: [backup(0.05), backup(0.05, { id: "b1", network: 1 })],
    });
    const { hours, totals } = replaySimple(problem, someSizes(problem, 0));
    // 300 = 100 drawn + 100 to the warm side (90 arrive) + 100 stored; then 100 from the store, 90 burnt.
    expect(shown(hours.networks[0]!.stepOut_kW)).toEqual([100, 0]);
    expect(shown(hours.networks[0]!.charge_kW)).toEqual([100, 0]);
    expect(shown(hours.networks[0]!.discharge_kW)).toEqual([0, 100]);
    expectClose(totals.backup_kWh, 90, 1e-12);
  });

  it("takes the cheaper boiler first, hour by hour, each up to its power", () => {
    const problem = dispatchCase(2, {
      networks: [network("heat", series([100, 100]))],
      backups: [
        backup(0, { id: "a", heatPrice_per_kWh: series([0.05, 0.09]), size: existingSize(80) }),
        backup(0, { id: "b", heatPrice_per_kWh: series([0.06, 0.06]), size: existingSize(70) }),
      ],
    });
    const { backup_kW, totals } = replaySimple(problem, someSizes(problem, 0));
    expect(shown(backup_kW[0]!)).toEqual([80, 30]);
    expect(shown(backup_kW[1]!)).toEqual([20, 70]);
    expectClose(totals.cost, 80 * 0.05 + 20 * 0.06 + 30 * 0.09 + 70 * 0.06, 1e-12);
  });

  it("calls boilers in the order given before their cost", () => {
    const problem = dispatchCase(2, {
      networks: [network("heat", series([100, 100]))],
      backups: [
        backup(0, { id: "a", heatPrice_per_kWh: series([0.05, 0.09]), size: existingSize(80) }),
        backup(0, { id: "b", heatPrice_per_kWh: series([0.06, 0.06]), size: existingSize(70) }),
      ],
    });
    const ordered = (backupOrder: number[]) => {
      const { backup_kW } = replaySimple(problem, someSizes(problem, 0), {
        ...noRules(problem),
        backupOrder,
      });
      return backup_kW.map((heat) => shown(heat));
    };
    expect(ordered([1, 2])).toEqual([
      [80, 80],
      [20, 20],
    ]);
    expect(ordered([2, 1])).toEqual([
      [30, 30],
      [70, 70],
    ]);
  });

  it("gives a batch the sun that is spare and waits with fuel until it must", () => {
    const problem = dispatchCase(6, {
      networks: [network("heat", constant(6, 0))],
      collectors: [collector(0)],
      fields: [field(series([0, 0, 0.4, 0, 0, 0]), { existing_m2: 100 })],
      batches: [
        { id: "kiln", network: 0, power_kW: 100, heat_kWh: 240, windows: [Int32Array.from([1, 2, 3, 4, 5])] },
      ],
      backups: [backup(0.05)],
    });
    const { hours, totals } = replaySimple(problem, someSizes(problem, 0));
    // 40 from the sun; 200 left need the last two hours at full power.
    expect(shown(hours.batches[0]!.heat_kW)).toEqual([0, 0, 40, 0, 100, 100]);
    expectClose(totals.backup_kWh, 200, 1e-12);
    expect(hours.batches[0]!.unmet_kWh[0]).toBe(0);
  });

  it("keeps a tank from running dry and fills it from the sun", () => {
    const problem = dispatchCase(4, {
      networks: [network("heat", constant(4, 0))],
      collectors: [collector(0)],
      fields: [field(series([0, 1, 0, 0]), { existing_m2: 500 })],
      water: [
        {
          id: "water",
          network: 0,
          heat_kWh_per_m3: constant(4, 50),
          electricity_kWh_per_m3: 0,
          order_m3_h: constant(4, 4),
          capacity_m3_h: 10,
          tank_m3: 100,
        },
      ],
      backups: [backup(0.05)],
    });
    const { hours, totals } = replaySimple(problem, someSizes(problem, 0));
    // The plant's 10 m³/h by sun leave 6 for the hour after and 2 for the last.
    expect(shown(hours.water[0]!.made_m3_h)).toEqual([4, 10, 0, 2]);
    expect(shown(hours.water[0]!.tank_m3)).toEqual([0, 6, 2, 0]);
    expectClose(totals.backup_kWh, 300, 1e-12);
  });

  it("burns at the least load and wastes what nobody takes", () => {
    const problem = dispatchCase(2, {
      networks: [network("heat", series([100, 300]))],
      backups: [backup(0.05, { size: existingSize(500) })],
    });
    const rules = { ...noRules(problem), backupLeastShare: [0.4] };
    const { backup_kW, totals, hours } = replaySimple(problem, someSizes(problem, 0), rules);
    expect(shown(backup_kW[0]!)).toEqual([200, 300]);
    expect(shown(hours.networks[0]!.backup_kW)).toEqual([100, 300]);
    expectClose(totals.cost, 500 * 0.05, 1e-12);
  });

  it("counts the heat that a chiller draws to start, and the cold that it lacks meanwhile", () => {
    const problem = dispatchCase(4, {
      networks: [network("heat", constant(4, 0))],
      collectors: [collector(0)],
      fields: [field(series([1, 1, 0, 1]), { existing_m2: 1000 })],
      cold: [
        { id: "cool", demand_kW: constant(4, 100), electricCop: constant(4, 4), electricLimit_kW: Infinity },
      ],
      chillers: [
        {
          id: "chiller",
          cold: 0,
          network: 0,
          cop: constant(4, 0.5),
          capacityFactor: constant(4, 1),
          electricity_kWh_per_kWh: 0,
          size: existingSize(100),
        },
      ],
    });
    const rules = { ...noRules(problem), chillerStartUp_h: [0.5], chillerLeastShare: [0.3] };
    const { hours } = replaySimple(problem, someSizes(problem, 0), rules);
    // A start takes half an hour at 200 kW of heat; the other half makes 50 kW of cold from 100 kW.
    expect(shown(hours.cold[0]!.absorption_kW)).toEqual([50, 100, 0, 50]);
    expect(shown(hours.cold[0]!.electric_kW)).toEqual([50, 0, 100, 50]);
    expect(shown(hours.networks[0]!.demand_kW)).toEqual([200, 200, 0, 200]);
  });

  it("leaves a chiller off where the sun does not reach its least load", () => {
    const problem = dispatchCase(2, {
      networks: [network("heat", constant(2, 0))],
      collectors: [collector(0)],
      fields: [field(series([0.05, 0.07]), { existing_m2: 1000 })],
      cold: [
        { id: "cool", demand_kW: constant(2, 100), electricCop: constant(2, 4), electricLimit_kW: Infinity },
      ],
      chillers: [
        {
          id: "chiller",
          cold: 0,
          network: 0,
          cop: constant(2, 0.5),
          capacityFactor: constant(2, 1),
          electricity_kWh_per_kWh: 0,
          size: existingSize(100),
        },
      ],
    });
    const rules = { ...noRules(problem), chillerLeastShare: [0.3] };
    const { hours } = replaySimple(problem, someSizes(problem, 0), rules);
    expect(shown(hours.cold[0]!.absorption_kW)).toEqual([0, 35]);
    expect(shown(hours.networks[0]!.spill_kW)).toEqual([50, 0]);
  });

  it("switches a store back only beyond its dead band", () => {
    const problem = dispatchCase(5, {
      networks: [network("heat", series([0, 50, 0, 50, 50]))],
      collectors: [collector(0)],
      fields: [field(series([1, 0, 1, 0, 0]), { existing_m2: 100 })],
      stores: [store(existingSize(1000))],
      backups: [backup(0.05)],
    });
    const rules = { ...noRules(problem), storeDeadBand: [0.15] };
    const { hours } = replaySimple(problem, someSizes(problem, 0), rules);
    // 100 kWh are too little to switch on, 200 enough; from then on until it is empty.
    expect(shown(hours.networks[0]!.discharge_kW)).toEqual([0, 0, 0, 50, 50]);
    expect(shown(hours.networks[0]!.backup_kW)).toEqual([0, 50, 0, 0, 0]);
  });

  it("leaves a store alone below its least power", () => {
    const problem = dispatchCase(3, {
      networks: [network("heat", series([0, 0, 30]))],
      collectors: [collector(0)],
      fields: [field(series([0.2, 1, 0]), { existing_m2: 100 })],
      stores: [store(existingSize(1000))],
      backups: [backup(0.05)],
    });
    const rules = { ...noRules(problem), storeLeastPower_kW: [40] };
    const { hours } = replaySimple(problem, someSizes(problem, 0), rules);
    expect(shown(hours.networks[0]!.charge_kW)).toEqual([0, 100, 0]);
    expect(shown(hours.networks[0]!.backup_kW)).toEqual([0, 0, 30]);
  });
});
