import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { reversibleCop } from "../../../src/core/cooling/reversible-cop.ts";
import { chillerProblems, chillerRemarks } from "../../../src/core/demand/chiller-remarks.ts";
import type { Chiller } from "../../../src/core/study/schema/study.ts";
import { expectPrinted } from "../../support/close.ts";

const chiller = (effect: Chiller["effect"], cop: number, drivingLeast_C: number): Chiller => ({
  id: "cold-maker",
  name: "Chiller",
  load: "cold-room",
  network: "hot-water",
  effect,
  cop,
  drivingLeast_C,
  electricity_kWh_per_kWh: 0.02,
  existing_kW: 0,
  size: { choice: "free" },
  parts: [],
});
const codes = (...made: Parameters<typeof chiller>) =>
  chillerRemarks(chiller(...made)).map(({ code }) => code);

describe("chillerRemarks(chiller)", () => {
  // ASHRAE Handbook of Refrigeration, absorption; Herold et al.: single 0.7 at 75 to 100 °C, double 1.2 at 140 to 180 °C.
  it("is silent about published chillers", () => {
    expect(codes("single", 0.7, 85)).toEqual([]);
    expect(codes("double", 1.2, 160)).toEqual([]);
    // Triple effect, 1.6 to 1.7 at 200 to 250 °C.
    expect(codes("other", 1.6, 220)).toEqual([]);
  });

  it("remarks on a double-effect COP from single-effect heat", () => {
    expect(codes("single", 1.2, 85)).toEqual(["CHILLER_COP_UNUSUAL"]);
    expect(codes("double", 1.2, 85)).toEqual(["CHILLER_DRIVING_UNUSUAL"]);
    expect(codes("single", 0.5, 130)).toEqual(["CHILLER_COP_UNUSUAL", "CHILLER_DRIVING_UNUSUAL"]);
  });

  // Carnot, worked by hand: 85/30/7 °C 1.871, 160/30/7 °C 3.656.
  it("prints the reversible limit", () => {
    expectPrinted(reversibleCop(85, 30, 7), "1.871");
    expectPrinted(reversibleCop(160, 30, 7), "3.656");
  });

  it("calls a COP above the reversible limit impossible, and only that", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 2.5, noNaN: true }),
        fc.double({ min: 50, max: 300, noNaN: true }),
        (cop, t) => {
          expect(codes("other", cop, t)).toEqual(
            cop > reversibleCop(t, 30, 7) ? ["CHILLER_COP_IMPOSSIBLE"] : [],
          );
        },
      ),
    );
  });

  it("uses the catalogue's codes and says where", () => {
    for (const remark of chillerRemarks(chiller("double", 2.4, 60), "chillers/0")) {
      expect(Object.keys(chillerProblems)).toContain(remark.code);
      expect(remark.place.path).toMatch(/^chillers\/0\//);
    }
  });
});
