import { StoppedError } from "../core/dispatch/program.ts";
import { plantModel } from "../core/study/plant-model.ts";
import type { Result } from "../core/study/result.ts";
import { sizePlant } from "../core/study/size-plant.ts";
import type { Solvers } from "../core/study/sizing/solvers.ts";
import { breakEvens } from "../core/sureness/break-even.ts";
import { type Drawing, type DrawnFigures, drawFigures } from "../core/sureness/draws.ts";
import { type Evaluator, evaluator, variedHours } from "../core/sureness/evaluator.ts";
import { type Bar, oneAtATime, twoWay } from "../core/sureness/one-at-a-time.ts";
import { joinDraws, type SurenessAnswer, summariseDraws } from "../core/sureness/sureness-answer.ts";
import { inputRanges } from "../core/sureness/uncertain-inputs.ts";
import type { ResolvedFutures } from "./resolve-futures.ts";
import type { Progress } from "./types.ts";
import { version } from "./version.ts";

export interface SureRequest {
  /** The answer whose plant is varied. */
  readonly result: Pick<Result, "sizes" | "baseline">;
  readonly onProgress?: (progress: Progress) => void;
  readonly shouldStop?: () => boolean;
}

/** Draws and seed where the study gives none. */
const usual = { draws: 1000, seed: 1 } as const;

/** What needs no draw: bars, tables and break-even values at the sizes of the answer. */
export type FixedSureness = Pick<SurenessAnswer, "base" | "bars" | "tables" | "breakEvens">;

export function drawCount({ own }: ResolvedFutures): number {
  return own.study.sureness?.draws ?? usual.draws;
}

/** All of it, one after the other. @throws StoppedError */
export function sureStudy(
  futures: ResolvedFutures,
  request: SureRequest & { readonly resize?: Solvers },
): SurenessAnswer {
  const { resize, onProgress } = request;
  const part = (from: number, to: number): SureRequest => ({
    ...request,
    ...(onProgress === undefined
      ? {}
      : {
          onProgress: ({ doing, share }) =>
            onProgress({ doing, share: share === null ? null : from + (to - from) * share }),
        }),
  });
  const fixed = sureAtSizes(futures, part(0, 0.3));
  const drawn = drawPart(futures, part(0.3, resize === undefined ? 1 : 0.6), 0, drawCount(futures));
  return sureAnswer(
    futures,
    fixed,
    [drawn],
    resize === undefined ? null : resizedBars(futures, part(0.6, 1), resize),
  );
}

/** Bars, tables and break-even values at fixed sizes. @throws StoppedError */
export function sureAtSizes({ own }: ResolvedFutures, request: SureRequest): FixedSureness {
  const { result, onProgress } = request;
  const at = watched(evaluator([own], result), request);
  const ranges = inputRanges(own.study);
  const tell = (doing: string, share: number) => onProgress?.({ doing: `How sure: ${doing}`, share });
  tell("each input at both ends of its range", 0);
  const base = at({});
  const bars = oneAtATime(ranges, at, (done, of) => tell(`input ${done} of ${of}`, (0.4 * done) / of));
  tell("two inputs at once", 0.4);
  const tables = twoWay(ranges, at);
  tell("where it stops paying", 0.6);
  const inputs = ranges.map(({ input }) => input);
  return { base, bars, tables, breakEvens: breakEvens(inputs, at) };
}

/** Some of the draws, which do not depend on each other. @throws StoppedError */
export function drawPart(
  futures: ResolvedFutures,
  request: SureRequest,
  from: number,
  to: number,
): DrawnFigures {
  const { own, weatherYears } = futures;
  const drawing: Drawing = {
    ranges: inputRanges(own.study),
    yearShares: weatherYears.map(({ probability }) => probability),
    seed: own.study.sureness?.seed ?? usual.seed,
  };
  const hours = weatherYears.map(({ resolved }) => resolved);
  const at = watched(evaluator(hours, request.result), request);
  return drawFigures(drawing, at, from, to, (done) =>
    request.onProgress?.({ doing: `How sure: ${done} of ${to - from} draws`, share: done / (to - from) }),
  );
}

/** Each input at both ends with the sizes found anew by typical days, run by the simple controller. @throws StoppedError */
export function resizedBars({ own }: ResolvedFutures, request: SureRequest, solvers: Solvers): Bar[] {
  const { onProgress, shouldStop } = request;
  const ranges = inputRanges(own.study);
  let runs = 0;
  return oneAtATime(ranges, (variation) => {
    runs += 1;
    onProgress?.({
      doing: `How sure: sizes found anew, ${runs} of ${2 * ranges.length}`,
      share: (runs - 1) / (2 * ranges.length),
    });
    const { result } = sizePlant(plantModel(variedHours(own, variation)), {
      method: "typical-days",
      solvers,
      version,
      remarks: [],
      replays: "simple",
      ...(shouldStop === undefined ? {} : { shouldStop }),
    });
    const { annual, money, levelised } = result.replay?.simple ?? result;
    return {
      fuelCostAvoided: annual.fuelCostAvoided,
      npv: money.npv,
      annualCost: levelised.annualCost,
      solarHeat_per_kWh: levelised.solarHeat_per_kWh,
      solarFraction: annual.solarFraction,
      simplePayback_years: money.simplePayback_years,
    };
  });
}

/** Parts that were made apart as one answer; draws in their order. */
export function sureAnswer(
  { own, weatherYears }: ResolvedFutures,
  fixed: FixedSureness,
  drawn: readonly DrawnFigures[],
  resized: readonly Bar[] | null,
): SurenessAnswer {
  const { sureness, money } = own.study;
  return {
    formatVersion: 1,
    program: { name: "noonkeep", version },
    currency: money.currency,
    ...fixed,
    resized,
    draws: summariseDraws(joinDraws(drawn), {
      seed: sureness?.seed ?? usual.seed,
      weatherYears: weatherYears.filter(({ probability }) => probability > 0).length,
    }),
  };
}

function watched(at: Evaluator, { shouldStop }: SureRequest): Evaluator {
  return (variation, year) => {
    if (shouldStop?.() === true) throw new StoppedError();
    return at(variation, year);
  };
}
