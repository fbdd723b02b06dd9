import type { Result } from "../core/study/result.ts";
import type { Study } from "../core/study/schema/study.ts";
import { asGiven, missingFigure, threeDigits, withDecimals } from "./numbers.ts";
import { money } from "./quantities.ts";
import { figuresTable, type TableView } from "./table-view.ts";
import { writingOf } from "./writing-of.ts";

/** What the figures of the proof mean, in words that an engineer can check. */
export function proofSentences(study: Study, result: Result): string[] {
  const w = writingOf(study);
  const p = result.proof;
  const what = p.method === "typical-days" ? "the typical days’ program" : "the full year’s program";
  const least = (value: number) => (value < 0.005 ? `less than ${money(0.01, w)}` : money(value, w));
  const sentences = [
    p.status === "optimal"
      ? `${atTheHead(p.solver)} solved ${what} in ${threeDigits(p.solve_s, w.locale)} s of its own time, ${asGiven(p.iterations, w.locale)} iterations.`
      : `${atTheHead(p.solver)} ended ${what} with the status ${p.status}: the answer is not proved.`,
    "Objective, gap, violations and balances below are recomputed, in the original units, from the written answer by code that shares nothing with the solver.",
  ];
  if (p.relativeGap !== null && Number.isFinite(p.relativeGap)) {
    const gap = p.relativeGap * (1 + Math.abs(p.recomputedObjective));
    sentences.push(
      `No other plant and dispatch of this program can cost less by more than the gap: ${least(gap)} a year.`,
    );
  }
  if (p.secondOpinion !== null) {
    const { solver, objective } = p.secondOpinion;
    sentences.push(
      `${atTheHead(solver)} solved the same program on its own: the two objectives differ by ${least(Math.abs(objective - p.objective))} a year.`,
    );
  }
  const rounded = result.wholeModules ?? null;
  if (rounded !== null) {
    sentences.push(
      `The program’s areas were then rounded to whole modules and the year run again with them held${result.conflicts.length > 0 ? "" : `: that costs ${least(Math.max(0, rounded.cost_per_year))} a year more than before`}. Objective and gap below are those of the program before rounding, balances those of the written year.`,
    );
  }
  return sentences;
}

/** A solver as it is called in the trade. */
function called(solver: string): string {
  return solver === "highs" ? "HiGHS" : solver;
}

function atTheHead(solver: string): string {
  return solver === "interior point" ? "The interior-point engine" : called(solver);
}

/** What was checked about the answer, figure by figure. */
export function proofTable(study: Study, result: Result): TableView {
  const w = writingOf(study);
  const p = result.proof;
  // To be compared digit by digit, so with all that matter.
  const exact = (value: number) => `${withDecimals(value, 2, w.locale)} ${w.currency}`;
  const rows: string[][] = [
    ["Method", p.method === "typical-days" ? "typical days, then the full year at those sizes" : "full year"],
    ["Solver", called(p.solver)],
    ["Status", p.status],
    [
      p.method === "typical-days"
        ? "Objective, annual cost of the typical days’ program"
        : "Objective, annual cost of the full year’s program",
      exact(p.objective),
    ],
    ["Objective recomputed from the written answer", exact(p.recomputedObjective)],
    ["Relative gap between primal and dual", tiny(p.relativeGap, "–")],
    ["Largest violation of a row, in its own unit (kW, kWh, m³)", tiny(p.primalResidual, "")],
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
      `Second opinion by ${called(solver)}`,
      `${exact(objective)}, relative difference ${tiny(relativeDifference, "")}`,
    ]);
  }
  const t = result.typicalDays;
  if (t !== null) {
    rows.push(
      ["Typical days", `${t.days.length} days, solved by ${called(t.solver)}`],
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
