import { beforeAll, describe, expect, it } from "vitest";
import type { DispatchCase } from "../../src/core/dispatch/case.ts";
import { formulate } from "../../src/core/dispatch/formulate.ts";
import { solveOnce } from "../../src/core/dispatch/program.ts";
import { interiorPoint } from "../../src/solver/interior-point/interior-point.ts";
import { randomPlant } from "../support/random-plant.ts";
import { highsReferee } from "../support/random-plant-tests.ts";

/** Boilers that are out of use now and then, and at half power for a while. */
function pausing(plant: DispatchCase): DispatchCase {
  const available = Float64Array.from({ length: plant.blocks }, (_, t) =>
    t % 11 === 3 ? 0 : t % 23 < 4 ? 0.5 : 1,
  );
  return { ...plant, backups: plant.backups.map((backup) => ({ ...backup, available })) };
}

let referee: Awaited<ReturnType<typeof highsReferee>>;
beforeAll(async () => {
  referee = await highsReferee();
});

describe("random plants whose boilers have outages", () => {
  it.each([
    [1, 40],
    [41, 80],
    [81, 120],
  ])("cost what HiGHS says, and no less than without: seeds %i to %i", (from, to) => {
    let gaveUp = 0;
    for (let seed = from; seed <= to; seed += 1) {
      const plant = randomPlant(seed);
      const { program } = formulate(pausing(plant));
      const ours = solveOnce(interiorPoint, program);
      // Where the engine does not prove its answer, HiGHS stands in for it and says so.
      if (ours.status !== "optimal") {
        gaveUp += 1;
        continue;
      }
      referee.expectAgreement(seed, program, ours.objective);
      const always = solveOnce(interiorPoint, formulate(plant).program);
      const most = ours.objective + 1e-6 * Math.max(10, Math.abs(ours.objective));
      expect(always.objective, `seed ${seed}`).toBeLessThanOrEqual(most);
    }
    expect(gaveUp).toBeLessThanOrEqual(1);
  });

  it("are the same plants where nothing is out of use", () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const plant = randomPlant(seed);
      const ready = new Float64Array(plant.blocks).fill(1);
      const backups = plant.backups.map((backup) => ({ ...backup, available: ready }));
      const objective = (one: DispatchCase) => solveOnce(interiorPoint, formulate(one).program).objective;
      const plain = objective(plant);
      const apart = Math.abs(objective({ ...plant, backups }) - plain);
      expect(apart, `seed ${seed}`).toBeLessThanOrEqual(1e-6 * Math.max(10, Math.abs(plain)));
    }
  });
});
