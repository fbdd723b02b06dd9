import { describe, expect, it } from "vitest";
import { formulate } from "../../src/core/dispatch/formulate.ts";
import { solveOnce } from "../../src/core/dispatch/program.ts";
import { verify } from "../../src/core/dispatch/verify.ts";
import { javascriptLpSolver } from "../../src/solver/javascript-lp-solver.ts";
import { plantFeatures } from "../support/plant-features.ts";
import { randomPlant } from "../support/random-plant.ts";
import { highsReferee, scaleOf, seeds } from "../support/random-plant-tests.ts";

const plants = seeds.slice(0, 510).map(randomPlant);

describe("the random plants", () => {
  it("are at least five hundred", () => {
    expect(plants.length).toBeGreaterThanOrEqual(500);
  });

  it.each(Object.entries(plantFeatures))("have in at least forty of them: %s", (_, isIn) => {
    expect(plants.filter(isIn).length).toBeGreaterThanOrEqual(40);
  });
});

describe("javascript-lp-solver on the smallest random plants", () => {
  it("costs what HiGHS says, or gives up, or gives what a check of its rows refuses", async () => {
    const referee = await highsReferee();
    let agreed = 0;
    let failed = 0;
    plants.forEach((plant, n) => {
      const { program } = formulate(plant);
      if (program.rows + program.columns > 600) return;
      const ours = solveOnce(javascriptLpSolver, program);
      const isSound =
        ours.status === "optimal" &&
        verify(program, ours.primal, null).primalResidual <= 1e-6 * scaleOf(program);
      if (!isSound) failed += 1;
      else {
        agreed += 1;
        referee.expectAgreement(n + 1, program, ours.objective);
      }
    });
    expect(agreed).toBeGreaterThanOrEqual(100);
    expect(failed).toBeLessThanOrEqual(0.05 * agreed);
  });
});
