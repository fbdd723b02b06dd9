import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { solveOnce } from "../../../src/core/dispatch/program.ts";
import { verify } from "../../../src/core/dispatch/verify.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { interiorPoint } from "../../../src/solver/interior-point/interior-point.ts";
import { caseOf, recipes } from "./random-case.ts";

// Held against HiGHS (npm `highs`), a general-purpose solver that shares no code with ours.
const highs = await loadHighs();

describe("random dispatch problems", () => {
  it("cost what HiGHS says, and the duals prove it", () => {
    fc.assert(
      fc.property(recipes, (recipe) => {
        const { program } = formulate(caseOf(recipe));
        const expected = solveOnce(highs, program);
        expect(expected.status).toBe("optimal");
        const answer = solveOnce(interiorPoint, program);
        expect(answer.status).toBe("optimal");
        const scale = 1 + Math.abs(expected.objective);
        expect(Math.abs(answer.objective - expected.objective) / scale).toBeLessThan(1e-6);
        const proof = verify(program, answer.primal, answer.rowDual);
        expect(proof.relativeGap).toBeLessThan(1e-6);
        expect(proof.primalResidual).toBeLessThan(1e-4);
        expect(proof.dualResidual).toBeLessThan(1e-5);
      }),
      { numRuns: 40, seed: Number(process.env.SEED ?? 20261125) },
    );
  });
});
