import { beforeAll, describe, expect, it } from "vitest";
import type { BackupCase } from "../../../src/core/dispatch/case.ts";
import { cleanAnswer } from "../../../src/core/dispatch/clean-answer.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { type LpSolver, solveOnce } from "../../../src/core/dispatch/program.ts";
import { readPlan } from "../../../src/core/dispatch/read-plan.ts";
import { verify } from "../../../src/core/dispatch/verify.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { expectClose } from "../../support/close.ts";
import { backup, dispatchCase, existingSize, network, store } from "../../support/dispatch-cases.ts";

let highs: LpSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

/** 100 kW in two hours, a store of 1000 kWh that keeps a tenth of each kWh charged to itself. */
function solve(price: readonly number[], more: Partial<BackupCase>) {
  const problem = dispatchCase(price.length, {
    networks: [network("n", new Float64Array(price.length).fill(100))],
    backups: [backup(Float64Array.from(price), more)],
    stores: [store(existingSize(1000), { chargeEfficiency: 0.9, chargeLimit_kW: 2000 })],
  });
  const formulation = formulate(problem);
  const answer = solveOnce(highs, formulation.program);
  const cleaned = cleanAnswer(formulation, answer.primal);
  const { objective } = verify(formulation.program, cleaned, null);
  expectClose(objective, answer.objective, 1e-9);
  return { cost: objective, plan: readPlan(formulation, cleaned, answer.rowDual) };
}

// Closed forms from the balance of two hours, by hand.
describe("backup heat at hourly prices", () => {
  it("is stored from a cheap hour for a dear one where it may charge", () => {
    const { cost, plan } = solve([0.02, 0.1], { mayCharge: true });
    expectClose(cost, 0.02 * (100 + 100 / 0.9), 1e-9);
    expectClose(plan.hours.networks[0]!.charge_kW[0]!, 100 / 0.9, 1e-9);
    expectClose(plan.backup_kWh[0]!, 100 + 100 / 0.9, 1e-9);
  });

  it("is not stored where it may not, even from a boiler large enough for any hour", () => {
    const { cost, plan } = solve([0.02, 0.1], {});
    expectClose(cost, 0.02 * 100 + 0.1 * 100, 1e-9);
    expect(plan.hours.networks[0]!.charge_kW).toEqual(new Float64Array(2));
  });

  it("needs no row against charging where its price never changes", () => {
    const rows = (price: readonly number[]) => {
      const { program } = formulate(
        dispatchCase(price.length, {
          networks: [network("n", new Float64Array(price.length).fill(100))],
          backups: [backup(Float64Array.from(price))],
          stores: [store(existingSize(1000))],
        }),
      );
      return Array.from({ length: program.rows }, (_, row) => program.rowName(row)).filter((name) =>
        name.startsWith("chargeSource"),
      ).length;
    };
    expect(rows([0.05, 0.05, 0.05])).toBe(0);
    expect(rows([0.05, 0.05, 0.06])).toBe(3);
  });
});

describe("backup heat at a negative price", () => {
  it("only meets the demand where it may not charge", () => {
    const { cost } = solve([-0.02, 0.1], { size: existingSize(300) });
    expectClose(cost, -0.02 * 100 + 0.1 * 100, 1e-9);
  });

  it("is burnt to the boiler's limit where a store may waste it, and the answer keeps that waste", () => {
    // 200 kW beyond the demand: 111.1 kW serve the next hour, the rest is lost by going round the store.
    const { cost, plan } = solve([-0.02, 0.1], { size: existingSize(300), mayCharge: true });
    expectClose(cost, -0.02 * 300, 1e-9);
    const [hours] = plan.hours.networks;
    expectClose(hours!.backup_kW[0]!, 300, 1e-9);
    expect(hours!.charge_kW[0]!).toBeGreaterThan(111.2);
  });
});
