import { describe, expect, it } from "vitest";
import type { DispatchCase } from "../../src/core/dispatch/case.ts";
import { formulate } from "../../src/core/dispatch/formulate.ts";
import { type LinearProgram, solveOnce } from "../../src/core/dispatch/program.ts";
import { loadHighs } from "../../src/solver/highs.ts";
import { interiorPoint } from "../../src/solver/interior-point/interior-point.ts";
import {
  backup,
  collector,
  dispatchCase,
  existingSize,
  field,
  freeSize,
  network,
  store,
} from "../support/dispatch-cases.ts";
import { everySolver } from "../support/every-solver.ts";
import { randomPlant } from "../support/random-plant.ts";
import { smallPrograms } from "../support/small-programs.ts";

// That these programs have no answer is seen by hand, and HiGHS says it of each.
const solvers = await everySolver();
const highs = await loadHighs();

/** A dispatch without the columns that stand for what is not delivered. */
function withoutUnmet(problem: DispatchCase): LinearProgram {
  const { program, layout } = formulate(problem);
  const colUpper = program.colUpper.slice();
  for (const list of [...layout.unmet, ...layout.unmetCold, ...layout.unmetWater, ...layout.unmetBatch])
    for (const column of list) if (column >= 0) colUpper[column] = 0;
  return { ...program, colUpper };
}

/** A constant demand of 100 kW over a day, sun by day, a store. */
const plant = (parts: Partial<DispatchCase>): DispatchCase =>
  dispatchCase(24, {
    networks: [network("heat", new Float64Array(24).fill(100))],
    collectors: [collector(0.12)],
    fields: [field(new Float64Array(24).fill(0.5, 0, 12))],
    stores: [store(freeSize(0.01))],
    backups: [backup(0.04)],
    ...parts,
  });

const infeasible: [string, () => LinearProgram][] = [
  // The night wants 1200 kWh; the boiler gives 600 and the tank holds 500.
  [
    "a night that boiler and tank cannot cover",
    () =>
      withoutUnmet(
        plant({ backups: [backup(0.04, { size: existingSize(50) })], stores: [store(existingSize(500))] }),
      ),
  ],
  // The sun gives a m² 6 kWh a day; 300 m² give 1800 of the 2400 kWh.
  [
    "less sun than heat wanted",
    () =>
      withoutUnmet(
        plant({ backups: [], fields: [field(new Float64Array(24).fill(0.5, 0, 12), { most_m2: 300 })] }),
      ),
  ],
  // 30 m³ ordered, 24 made at most.
  [
    "more water than the plant can make",
    () =>
      withoutUnmet(
        plant({
          water: [
            {
              id: "still",
              network: 0,
              heat_kWh_per_m3: new Float64Array(24).fill(50),
              electricity_kWh_per_m3: 1,
              order_m3_h: new Float64Array(24).fill(1.25),
              capacity_m3_h: 1,
              tank_m3: 20,
            },
          ],
        }),
      ),
  ],
  // 900 kWh in four hours of 200 kW.
  [
    "a batch with too little power",
    () =>
      withoutUnmet(
        plant({
          batches: [
            {
              id: "kiln",
              network: 0,
              power_kW: 200,
              heat_kWh: 900,
              windows: [Int32Array.of(20, 21, 22, 23)],
            },
          ],
        }),
      ),
  ],
];

const unbounded: [string, () => LinearProgram][] = [
  // Heat that is paid for, made without end and lost in a store between charge and discharge.
  [
    "a boiler without limit that is paid to burn",
    () =>
      formulate(
        plant({
          backups: [backup(-0.01, { mayCharge: true })],
          stores: [store(freeSize(0.01), { chargeEfficiency: 0.9, dischargeEfficiency: 0.9 })],
        }),
      ).program,
  ],
  [
    "collectors that are paid for standing there",
    () => formulate(plant({ collectors: [collector(-0.12)] })).program,
  ],
];

const names = (solver: { readonly solver: { readonly name: string } }) => solver.solver.name;

describe.each(solvers)("$solver.name", (each) => {
  it.each(infeasible)("does not give an answer to an infeasible plant: %s", (_, program) => {
    expect(solveOnce(highs, program()).status).toBe("infeasible");
    const { status, objective } = solveOnce(each.solver, program());
    expect(each.tellsAll ? ["infeasible"] : ["infeasible", "unknown"], names(each)).toContain(status);
    expect(objective).toBeNaN();
  });

  it.each(unbounded)("does not give an answer to an unbounded plant: %s", (_, program) => {
    expect(solveOnce(highs, program()).status).toBe("unbounded");
    const { status, objective } = solveOnce(each.solver, program());
    expect(each.tellsAll ? ["unbounded"] : ["unbounded", "unknown"], names(each)).toContain(status);
    expect(objective).toBeNaN();
  });

  it("does not give an answer to small programs without one", () => {
    for (const program of smallPrograms.infeasible()) {
      const { status } = solveOnce(each.solver, program);
      // One of them could also cost less for ever, were it not infeasible, and its columns show that first.
      expect(each.tellsAll ? ["infeasible"] : ["infeasible", "unbounded", "unknown"]).toContain(status);
    }
    for (const program of smallPrograms.unbounded())
      expect(each.tellsAll ? ["unbounded"] : ["unbounded", "unknown"]).toContain(
        solveOnce(each.solver, program).status,
      );
  });
});

describe("the interior point on random plants without columns for what is not delivered", () => {
  it("answers nearly always where HiGHS does, and never where it does not", () => {
    let [possible, impossible, unanswered] = [0, 0, 0];
    for (let seed = 5001; seed <= 5060; seed += 1) {
      const program = withoutUnmet(randomPlant(seed));
      const theirs = solveOnce(highs, program);
      const ours = solveOnce(interiorPoint, program);
      if (theirs.status === "infeasible") {
        impossible += 1;
        expect(["infeasible", "unknown"], `seed ${seed}`).toContain(ours.status);
        continue;
      }
      possible += 1;
      // Where all answers lie in a plane there is no interior to walk through.
      if (ours.status === "unknown") unanswered += 1;
      else expect(Math.abs(ours.objective / theirs.objective - 1), `seed ${seed}`).toBeLessThan(1e-5);
    }
    expect(impossible).toBeGreaterThan(10);
    expect(possible).toBeGreaterThan(20);
    expect(unanswered).toBeLessThanOrEqual(0.05 * possible);
  });
});
