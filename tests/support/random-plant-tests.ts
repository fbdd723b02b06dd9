import { describe, expect, it } from "vitest";
import { formulate } from "../../src/core/dispatch/formulate.ts";
import { type LinearProgram, solveOnce } from "../../src/core/dispatch/program.ts";
import { verify } from "../../src/core/dispatch/verify.ts";
import { loadHighs } from "../../src/solver/highs.ts";
import { interiorPoint } from "../../src/solver/interior-point/interior-point.ts";
import { randomPlant } from "./random-plant.ts";

/** Seeds of all random plants that solvers are held to; the environment variable SEEDS asks for more. */
export const seeds: readonly number[] = Array.from(
  { length: Number(process.env.SEEDS ?? 510) },
  (_, n) => n + 1,
);

const perTest = 51;

/** Relative to the objective; to 10 units of money where it is smaller, since some plants cost nothing. */
const differs = (a: number, b: number) => !(Math.abs(a - b) <= 1e-6 * Math.max(10, Math.abs(b)));

/** The largest right-hand side or bound: the scale of the program's quantities. */
export function scaleOf({ rowLower, rowUpper, colLower, colUpper }: LinearProgram): number {
  let scale = 1;
  for (const bounds of [rowLower, rowUpper, colLower, colUpper])
    for (const value of bounds) if (Number.isFinite(value)) scale = Math.max(scale, Math.abs(value));
  return scale;
}

/**
 * Objectives held against HiGHS (npm `highs`), a general-purpose solver that shares no code with ours: at its
 * usual tolerance, and at 1e-10 where another solver found another. Remembers the seeds where it did.
 */
export async function highsReferee() {
  const usualHighs = await loadHighs();
  const tightHighs = await loadHighs({ tolerance: 1e-10 });
  const disputed: number[] = [];
  return {
    disputed,
    expectAgreement(seed: number, program: LinearProgram, objective: number): void {
      const usual = solveOnce(usualHighs, program);
      expect(usual.status, `seed ${seed}`).toBe("optimal");
      if (!differs(objective, usual.objective)) return;
      disputed.push(seed);
      const tight = solveOnce(tightHighs, program);
      expect(tight.status, `seed ${seed}`).toBe("optimal");
      expect(differs(objective, tight.objective), `seed ${seed}: ${objective} or ${tight.objective}`).toBe(
        false,
      );
    },
  };
}

/** The tests of the engine on some of the seeds. */
export async function describeEngineOn(some: readonly number[]): Promise<void> {
  const referee = await highsReferee();
  const groups = Array.from({ length: Math.ceil(some.length / perTest) }, (_, n) => {
    const group = some.slice(n * perTest, (n + 1) * perTest);
    return { group, from: group[0]!, to: group[group.length - 1]! };
  });
  describe("the interior point on random plants", () => {
    it.each(groups)(
      "costs what HiGHS says and is proved by its own duals: seeds $from to $to",
      ({ group }) => {
        for (const seed of group) {
          const { program } = formulate(randomPlant(seed));
          const ours = solveOnce(interiorPoint, program);
          expect(ours.status, `seed ${seed}`).toBe("optimal");
          referee.expectAgreement(seed, program, ours.objective);
          const proof = verify(program, ours.primal, ours.rowDual);
          const gap = proof.relativeGap! * (1 + Math.abs(proof.objective));
          expect(differs(proof.objective + gap, proof.objective), `gap ${gap}, seed ${seed}`).toBe(false);
          expect(proof.primalResidual / scaleOf(program), `primal, seed ${seed}`).toBeLessThanOrEqual(1e-6);
          const largestCost = program.cost.reduce((most, cost) => Math.max(most, Math.abs(cost)), 0);
          expect(proof.dualResidual! / largestCost, `dual, seed ${seed}`).toBeLessThanOrEqual(1e-6);
        }
      },
    );

    it("seldom differs from HiGHS at its usual tolerance", () => {
      expect(referee.disputed.length).toBeLessThanOrEqual(0.04 * some.length);
    });
  });
}
