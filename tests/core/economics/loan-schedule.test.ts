import fc from "fast-check";
import { ipmt, npv, pmt, ppmt } from "financial";
import { describe, expect, it } from "vitest";
import { loanSchedule } from "../../../src/core/economics/loan-schedule.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

const annuity = { repayment: "annuity", interestOnly: 0 } as const;

describe("loanSchedule(principal, terms)", () => {
  // Documentation of a numerical library's pmt: 200 000 over 15 years at 7.5 % is 1854.02 a month; over 360 months at 5 %, 1073.64.
  it.each([
    [0.075 / 12, 180, "1854.02"],
    [0.05 / 12, 360, "1073.64"],
  ])("at %d a period over %d periods pays the printed amount", (interest, periods, printed) => {
    const { interest: paid, repayment } = loanSchedule(200_000, { ...annuity, interest, periods });
    expectPrinted(paid[0]! + repayment[0]!, printed);
  });

  // Documentation of the same library's ipmt: 2500 over 12 months at 8.24 %/12 costs 112.98 of interest in all.
  it("costs the printed interest over a year", () => {
    const { interest } = loanSchedule(2500, { ...annuity, interest: 0.0824 / 12, periods: 12 });
    expectPrinted(
      interest.reduce((all, one) => all + one, 0),
      "112.98",
    );
    expectPrinted(interest[0]!, "17.17");
    expectPrinted(interest[11]!, "1.49");
  });

  it("agrees with the general package on every payment, interest and repayment", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1_000_000 }),
        fc.integer({ min: 1, max: 3000 }).map((n) => n / 10_000),
        fc.integer({ min: 1, max: 40 }),
        (principal, interest, periods) => {
          const schedule = loanSchedule(principal, { ...annuity, interest, periods });
          for (let t = 0; t < periods; t += 1) {
            expect(Math.abs(schedule.interest[t]! + ipmt(interest, t + 1, periods, principal))).toBeLessThan(
              1e-8 * principal,
            );
            expect(Math.abs(schedule.repayment[t]! + ppmt(interest, t + 1, periods, principal))).toBeLessThan(
              1e-8 * principal,
            );
          }
          expectClose(
            schedule.interest[0]! + schedule.repayment[0]!,
            -pmt(interest, periods, principal),
            1e-9,
          );
        },
      ),
    );
  });

  it("is worth its principal at its own interest, however it is repaid, and ends at nothing owed", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 3000 }).map((n) => n / 10_000),
        fc.integer({ min: 1, max: 40 }),
        fc.constantFrom("annuity", "equal-principal"),
        fc.nat(39),
        (interest, periods, repayment, grace) => {
          const interestOnly = Math.min(grace, periods - 1);
          const schedule = loanSchedule(1000, { interest, periods, repayment, interestOnly });
          const payments = schedule.interest.map((one, t) => one + schedule.repayment[t]!);
          expectClose(npv(interest, [0, ...payments]), 1000, 1e-9);
          expectClose(
            schedule.repayment.reduce((all, one) => all + one, 0),
            1000,
            1e-9,
          );
          expect(schedule.balance.at(-1)).toBe(0);
          expect([...schedule.repayment.slice(0, interestOnly)].every((one) => one === 0)).toBe(true);
        },
      ),
    );
  });
});
