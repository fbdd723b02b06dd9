import type { Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { asGiven, missingFigure, threeDigits, withDecimals } from "./numbers.ts";
import { money } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** What was checked about the answer, figure by figure. */
export function proofTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  const p = result.proof;
  const rows: string[][] = [
    ["Method", p.method === "typical-days" ? "typical days, then the full year at those sizes" : "full year"],
    ["Solver", p.solver],
    ["Status", p.status],
    [
      p.method === "typical-days"
        ? "Objective, annual cost of the typical days’ program"
        : "Objective, annual cost of the full year’s program",
      money(p.objective, w),
    ],
    ["Objective recomputed from the written answer", money(p.recomputedObjective, w)],
    ["Relative gap between primal and dual", tiny(p.relativeGap, "–")],
    ["Largest violation of a row", tiny(p.primalResidual, "")],
    ["Largest violation of the dual", tiny(p.dualResidual, "–")],
    ["Largest violation of an hourly heat balance", `${tiny(p.balanceResidual_kW, "")} kW`],
    [
      "Size of the program",
      `${asGiven(p.columns, w.locale)} columns, ${asGiven(p.rows, w.locale)} rows, ${asGiven(p.nonZeros, w.locale)} non-zeros`,
    ],
    ["Iterations", asGiven(p.iterations, w.locale)],
    ["Solver’s own time", `${threeDigits(p.solve_s, w.locale)} s`],
  ];
  if (p.secondOpinion !== null) {
    const { solver, objective, relativeDifference } = p.secondOpinion;
    rows.push([
      `Second opinion by ${solver}`,
      `${money(objective, w)}, differs by ${tiny(relativeDifference, "")}`,
    ]);
  }
  const t = result.typicalDays;
  if (t !== null) {
    rows.push(
      ["Typical days", `${t.days.length} days, solved by ${t.solver}`],
      ["Solar fraction, typical days", `${withDecimals(t.solarFraction * 100, 1, w.locale)} %`],
      [
        "Solar fraction, full year at those sizes",
        `${withDecimals(t.dispatchSolarFraction * 100, 1, w.locale)} %`,
      ],
      ["Annual cost, typical days", money(t.objective, w)],
      ["Annual cost, full year at those sizes", money(t.dispatchObjective, w)],
    );
  }
  return figuresTable("What was checked", ["", "Found"], rows, ["Found"]);
}

const raised: Readonly<Record<string, string>> = {
  "-": "⁻",
  "0": "⁰",
  "1": "¹",
  "2": "²",
  "3": "³",
  "4": "⁴",
  "5": "⁵",
  "6": "⁶",
  "7": "⁷",
  "8": "⁸",
  "9": "⁹",
};

/** A residual: a power of ten is what matters. */
function tiny(value: number | null, otherwise: string): string {
  if (value === null) return otherwise;
  if (!Number.isFinite(value)) return missingFigure;
  if (value === 0) return "0";
  const [mantissa = "", exponent = ""] = value.toExponential(1).split("e");
  return `${mantissa} × 10${[...exponent].map((sign) => raised[sign] ?? "").join("")}`;
}
