import { ModelError } from "../errors.ts";
import type { BatchCase, Cycle } from "./case.ts";
import type { Draft } from "./formulate.ts";

/**
 * Writes the columns and rows of batch loads: within a window the heat given so far is a state like the
 * content of a store, B_t = B_(t−1) + Δ·β_t from nothing at the opening, and at the window's last block
 * B_(t−1) + Δ·β_t + unmet = heat of the batch. Each row ties a block to the one before it only.
 *
 * Windows of one load that overlap are told apart by lanes, each with columns and rows of its own; heat
 * given while two are open counts for both.
 */
export class BatchChains {
  private readonly draft: Draft;
  private readonly loads: readonly LoadChains[];

  /** @throws ModelError OUT_OF_RANGE where the blocks of a window do not follow each other in a cycle */
  constructor(draft: Draft) {
    this.draft = draft;
    const { problem, builder } = draft;
    this.loads = problem.batches.map((batch) => {
      checkWindows(batch, problem.cycles);
      const lanes = lanesOf(batch, problem.blocks);
      return {
        heat: builder.family(`batch.${batch.id}`),
        lanes: lanes.map((windowAt, lane) => {
          const stem = lane === 0 ? batch.id : `${batch.id}.lane${lane + 1}`;
          return {
            windowAt,
            content: builder.family(`batchContent.${stem}`),
            unmet: builder.family(`unmetBatch.${stem}`),
            state: builder.family(`batchState.${stem}`),
            due: builder.family(`batchDue.${stem}`),
          };
        }),
      };
    });
  }

  addColumns(t: number): void {
    const { problem, builder, layout } = this.draft;
    problem.batches.forEach((batch, i) => {
      const { heat, lanes } = this.loads[i];
      if (lanes.every(({ windowAt }) => windowAt[t] < 0)) return;
      const beta = builder.column(heat, t, 0, 0, batch.power_kW);
      layout.batch[i][t] = beta;
      builder.entry(layout.rows.balance[batch.network][t], beta, -1);
      for (const { windowAt, content, unmet } of lanes) {
        const n = windowAt[t];
        if (n < 0) continue;
        const window = batch.windows[n];
        const place = window.indexOf(t);
        if (place < window.length - 1) {
          layout.batchContent[i][n][place] = builder.column(content, t, 0, 0, Number.POSITIVE_INFINITY);
        } else {
          const price = problem.weight[window[0]] * problem.unmetPrice_per_kWh;
          layout.unmetBatch[i][n] = builder.column(unmet, t, price, 0, Number.POSITIVE_INFINITY);
        }
      }
    });
  }

  /** Once all columns of the block's cycle exist, since a window may run over the cycle's end. */
  addRows(t: number): void {
    const { problem, builder, layout } = this.draft;
    problem.batches.forEach((batch, i) => {
      for (const { windowAt, state, due } of this.loads[i].lanes) {
        const n = windowAt[t];
        if (n < 0) continue;
        const window = batch.windows[n];
        const place = window.indexOf(t);
        const contents = layout.batchContent[i][n];
        const isLast = place === window.length - 1;
        const target = isLast ? batch.heat_kWh : 0;
        const sign = isLast ? 1 : -1;
        const r = builder.row(isLast ? due : state, t, target, target);
        if (place > 0) builder.entry(r, contents[place - 1], sign);
        builder.entry(r, layout.batch[i][t], sign * problem.step_h);
        builder.entry(r, isLast ? layout.unmetBatch[i][n] : contents[place], 1);
      }
    });
  }
}

interface LoadChains {
  readonly heat: number;
  readonly lanes: readonly Lane[];
}

interface Lane {
  /** By block: the window that is open, −1 where none is. */
  readonly windowAt: Int32Array;
  /** Families of columns and rows. */
  readonly content: number;
  readonly unmet: number;
  readonly state: number;
  readonly due: number;
}

/** Windows put into as few lanes as keep those of one lane apart: the window of each lane by block, −1 for none. */
function lanesOf({ windows }: BatchCase, blocks: number): Int32Array[] {
  const lanes: Int32Array[] = [];
  windows.forEach((window, n) => {
    let lane = lanes.find((taken) => window.every((block) => taken[block] < 0));
    if (lane === undefined) {
      lane = new Int32Array(blocks).fill(-1);
      lanes.push(lane);
    }
    for (const block of window) lane[block] = n;
  });
  return lanes;
}

function checkWindows({ id, windows }: BatchCase, cycles: readonly Cycle[]): void {
  for (const window of windows) {
    const cycle = cycles.find(({ start, length }) => window[0] >= start && window[0] < start + length);
    const follows = (block: number, p: number) =>
      cycle !== undefined && block === cycle.start + ((window[0] - cycle.start + p) % cycle.length);
    if (cycle !== undefined && window.length <= cycle.length && window.every(follows)) continue;
    throw new ModelError(
      "OUT_OF_RANGE",
      `a window of "${id}" of the blocks ${window.join(", ")}, which do not follow each other in one cycle`,
    );
  }
}
