import {
  atSizes,
  type BackupCase,
  type BatchCase,
  type DispatchCase,
  type NewSizes,
} from "../dispatch/case.ts";
import { formulate } from "../dispatch/formulate.ts";
import type { Layout } from "../dispatch/layout.ts";
import { type LpSolver, type SolveOptions, StoppedError, solveOnce } from "../dispatch/program.ts";
import { mean } from "../series.ts";
import { expectedCase, type Forecast, type Horizon } from "./forecast.ts";
import type { HourState } from "./hour-state.ts";
import { type OpenState, openCycle } from "./open-cycle.ts";
import type { ReplayPlant } from "./replay-plant.ts";
import { emptySetPoints, type SetPoints } from "./set-points.ts";

/** Contents to be reached at the end of each plan: by store or water order, then block. */
export interface Targets {
  readonly stores_kWh: readonly Float64Array[];
  readonly tanks_m3: readonly Float64Array[];
}

export interface PlanningOptions {
  readonly solver: LpSolver;
  readonly forecast: Forecast;
  readonly targets?: Targets;
  readonly shouldStop?: () => boolean;
}

/** What a kWh in a store is worth at a plan's end, as a share of the backup heat that it may save. */
const worthAtEnd = 0.5;
/** Price of a unit that misses a target, in dearest backup heat. */
const missingTimesDearest = 10;
/** By what share backup heat counts as cheaper with each block, so that it is not burnt before it must. */
const laterByBlock = 1e-4;
/** Rounding of a solver. */
const dust = 1e-7;

/**
 * Plans the blocks of a horizon by a small linear program at the plant's sizes, from what its stores,
 * tanks and batches hold now.
 *
 * @returns the set-points of each block of the horizon, or null where the solver has no answer
 * @throws StoppedError
 */
export function planDays(
  plant: ReplayPlant,
  state: HourState,
  sizes: NewSizes,
  horizon: Horizon,
  options: PlanningOptions,
): SetPoints[] | null {
  const expected = expectedCase(atSizes(plant.problem, sizes), options.forecast, horizon);
  const { batches, loadOf } = batchesDue(plant, state, horizon);
  const problem: DispatchCase = {
    ...expected,
    name: "horizon",
    batches,
    backups: options.forecast === "perfect" ? expected.backups : expected.backups.map(ratherLater),
  };
  const { program, layout } = formulate(problem);
  const open = openCycle(program, openStates(plant, state, problem, layout, horizon, options.targets));
  const watched: SolveOptions = options.shouldStop === undefined ? {} : { shouldStop: options.shouldStop };
  // Networks without load or plant leave nothing to decide.
  if (open.columns === 0) return Array.from({ length: horizon.length }, () => emptySetPoints(plant.problem));
  const answer = solveOnce(options.solver, open, watched);
  if (answer.status === "stopped") throw new StoppedError("stopped in the middle of a replay");
  if (answer.status !== "optimal") return null;
  return Array.from({ length: horizon.length }, (_, n) =>
    setPointsAt(plant.problem, layout, answer.primal, n, loadOf),
  );
}

/** Of equal costs the later one: by then the sun may have done better than expected. */
const ratherLater = (backup: BackupCase): BackupCase => ({
  ...backup,
  heatPrice_per_kWh: backup.heatPrice_per_kWh.map((price, n) => price - Math.abs(price) * laterByBlock * n),
});

/** What is due in each window that the horizon meets; of one that it does not see closing, a share. */
function batchesDue(plant: ReplayPlant, state: HourState, { start, length }: Horizon) {
  const batches: BatchCase[] = [];
  const loadOf: number[] = [];
  plant.problem.batches.forEach((batch, i) => {
    const blocksOf = new Map<number, number[]>();
    for (let n = 0; n < length; n += 1) {
      const window = plant.windowAt[i][start + n];
      if (window < 0) continue;
      const blocks = blocksOf.get(window);
      if (blocks === undefined) blocksOf.set(window, [n]);
      else blocks.push(n);
    }
    for (const [window, blocks] of blocksOf) {
      let due_kWh = state.due_kWh[i][window];
      for (const run of runsOf(blocks)) {
        if (due_kWh <= dust) break;
        const later = plant.windowLeft[i][start + run[run.length - 1]];
        const share_kWh = (due_kWh * run.length) / (run.length + later);
        const must_kWh = due_kWh - later * batch.power_kW * plant.problem.step_h;
        const heat_kWh = Math.max(share_kWh, must_kWh);
        batches.push({ ...batch, heat_kWh, windows: [Int32Array.from(run)] });
        loadOf.push(i);
        due_kWh -= heat_kWh;
      }
    }
  });
  return { batches, loadOf };
}

/** Blocks without a gap: a window that wraps its cycle's end has two runs. */
function runsOf(blocks: readonly number[]): number[][] {
  const runs: number[][] = [];
  for (const block of blocks) {
    const last = runs.at(-1);
    if (last?.at(-1) === block - 1) last.push(block);
    else runs.push([block]);
  }
  return runs;
}

/** Mean of a series, exact for one that never changes. */
const levelOf = (series: Float64Array) => series[0] + mean(series.map((value) => value - series[0]));

function openStates(
  plant: ReplayPlant,
  state: HourState,
  problem: DispatchCase,
  layout: Layout,
  { start, length }: Horizon,
  targets: Targets | undefined,
): OpenState[] {
  const end = start + length - 1;
  const heatPrice = (network: number) =>
    plant.backupRoutes[network].reduce((least, { backup, route }) => {
      if (state.boiler_kW[backup] <= 0) return least;
      return Math.min(least, mean(problem.backups[backup].heatPrice_per_kWh) / route.efficiency);
    }, Number.POSITIVE_INFINITY);
  const worthOf = (price_per_kWh: number) =>
    Number.isFinite(price_per_kWh) ? worthAtEnd * Math.max(0, price_per_kWh) : 0;
  const dearest = (problem.unmetPrice_per_kWh / 1000) * missingTimesDearest;
  const weighted = problem.weight[0];
  const states: OpenState[] = [];
  problem.stores.forEach((store, s) => {
    if (layout.content[s][0] < 0) return;
    const price_per_kWh =
      "network" in store.serves
        ? heatPrice(store.serves.network)
        : mean(problem.electricityPrice_per_kWh) / levelOf(problem.cold[store.serves.cold].electricCop);
    states.push({
      firstColumn: layout.content[s][0],
      lastColumn: layout.content[s][length - 1],
      carried: plant.keep[s] * state.content_kWh[s],
      worth: targets === undefined ? weighted * store.dischargeEfficiency * worthOf(price_per_kWh) : 0,
      target:
        targets === undefined
          ? null
          : { content: targets.stores_kWh[s][end], missing_per_unit: weighted * dearest },
    });
  });
  problem.water.forEach((order, w) => {
    states.push({
      firstColumn: layout.tank[w][0],
      lastColumn: layout.tank[w][length - 1],
      carried: state.tank_m3[w],
      worth:
        targets === undefined
          ? weighted * order.heat_kWh_per_m3[length - 1] * worthOf(heatPrice(order.network))
          : 0,
      target:
        targets === undefined
          ? null
          : {
              content: targets.tanks_m3[w][end],
              missing_per_unit: weighted * order.heat_kWh_per_m3[length - 1] * dearest,
            },
    });
  });
  return states;
}

function setPointsAt(
  problem: DispatchCase,
  layout: Layout,
  x: Float64Array,
  n: number,
  loadOf: readonly number[],
): SetPoints {
  const points = emptySetPoints(problem);
  const read = (columns: Int32Array) => {
    const value = columns[n] < 0 ? 0 : x[columns[n]];
    return value > dust ? value : 0;
  };
  const fill = (into: Float64Array, columns: readonly Int32Array[]) => {
    for (let i = 0; i < into.length; i += 1) into[i] = read(columns[i]);
  };
  fill(points.stepDown_kW, layout.stepDown);
  fill(points.chilled_kW, layout.chilled);
  fill(points.electricCold_kW, layout.electricCold);
  fill(points.made_m3_h, layout.made);
  fill(points.content_kWh, layout.content);
  fill(points.tank_m3, layout.tank);
  fill(points.backup_kW, layout.backup);
  problem.stores.forEach(({ chargeEfficiency }, s) => {
    // Both at once would be a waste that the program has no reason for; the change of content counts.
    const stored_kW = chargeEfficiency * read(layout.charge[s]) - read(layout.discharge[s]);
    points.charge_kW[s] = Math.max(0, stored_kW) / chargeEfficiency;
    points.discharge_kW[s] = Math.max(0, -stored_kW);
  });
  loadOf.forEach((i, item) => {
    points.batch_kW[i] += read(layout.batch[item]);
  });
  return points;
}
