import type { AreaCurve, CurvePoint } from "../core/study/result.ts";

/**
 * The area curve as CSV: a row for each point, told apart by `line` (store factor, optimum, chosen, bound)
 * and by what made it, `by` (replay, lp).
 */
export function curveCsv(curve: AreaCurve): string {
  const rows: (readonly [string, CurvePoint])[] = [
    ...curve.lines.flatMap(({ storeFactor, points }) =>
      points.map((point) => [`store x ${storeFactor}`, point] as const),
    ),
    ["optimum", curve.optimum],
    ["optimum", curve.optimumReplay],
    ...[curve.chosen, curve.chosenBound].flatMap((point) =>
      point === null ? [] : [["chosen", point] as const],
    ),
    ...curve.bound.map((point) => ["bound", point] as const),
  ];
  const keys = [
    "aperture_m2",
    "store_kWh",
    "solarFraction",
    "fuelCostAvoided",
    "annualCost",
    "spilled_kWh",
    "unmet_kWh",
    "by",
  ] as const;
  const lines = rows.map(([line, point]) => [line, ...keys.map((key) => point[key])].join(","));
  return `line,${keys.join(",")}\n${lines.join("\n")}\n`;
}
