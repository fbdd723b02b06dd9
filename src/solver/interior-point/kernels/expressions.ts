import type { Template } from "../template.ts";
import { coefficientName, maskName } from "./source.ts";

/**
 * Residuals of one block as texts, from names that each kernel declares: x of columns (0 where
 * absent), x and z of limits' slacks behind them, a row duals, y row duals of the next block, px
 * columns of the block before, W carried columns.
 */
export interface Residual {
  readonly value: string;
  /** What is summed in it, to compare the value with. */
  readonly products: readonly string[];
}

/** Place among the carried columns of a size or a long row. */
export function carriedPlace({ carried }: Template, kind: "size" | "long", number: number): number {
  return carried.findIndex((item) =>
    kind === "size"
      ? item.kind === "size" && item.size === number
      : item.kind === "long" && item.row === number,
  );
}

/** rhs − A·x of an interior row. */
export function rowResidual({ own, back, direct }: Template, row: number): Residual {
  const products = [
    ...own.flatMap((entry) =>
      entry.row === row ? [`${coefficientName(entry.value)} * x${entry.column}`] : [],
    ),
    ...back.flatMap((entry) => (entry.row === row ? [`b${entry.at} * px${entry.column}`] : [])),
    ...direct.flatMap((entry) => (entry.row === row ? [`r${entry.at} * W${entry.carried}`] : [])),
  ];
  return { value: `B[om + ${row}]${products.map((product) => ` - ${product}`).join("")}`, products };
}

/** rhs + Σ r·size − column − slack of a limit. */
export function limitResidual(template: Template, l: number): Residual {
  const { column, sign, terms, rhs } = template.limit[l];
  const slack = template.columns + l;
  const sizes = terms.map(
    (term) => `${coefficientName(term.value)} * W${carriedPlace(template, "size", term.size)}`,
  );
  return {
    value: `${maskName(template, slack)} * (${coefficientName(rhs)} ${sign < 0 ? "+" : "-"} x${column} - x${slack}${sizes.map((size) => ` + ${size}`).join("")})`,
    products: [`x${column}`, `x${slack}`, ...sizes],
  };
}

/** Cost of a column, 0 if it has none. */
export const costName = ({ cost }: Template, column: number) =>
  cost[column] < 0 ? "0" : `C[ok + ${cost[column]}]`;

/** cost − Aᵀ·y − z of a column, limits counted. */
export function columnResidual(template: Template, column: number): Residual {
  const { own, back, long, limit, columns: n } = template;
  const products = [
    ...own.flatMap((entry) =>
      entry.column === column ? [`${coefficientName(entry.value)} * a${entry.row}`] : [],
    ),
    ...back.flatMap((entry) => (entry.column === column ? [`n${entry.at} * y${entry.row}`] : [])),
    ...long.flatMap((entry) =>
      entry.column === column
        ? [`${coefficientName(entry.value)} * W${carriedPlace(template, "long", entry.row)}`]
        : [],
    ),
    `z${column}`,
  ];
  const limits = limit.flatMap((item, l) =>
    item.column === column ? [` ${item.sign < 0 ? "-" : "+"} z${n + l}`] : [],
  );
  return {
    value: `${maskName(template, column)} * (${costName(template, column)}${products.map((product) => ` - ${product}`).join("")}${limits.join("")})`,
    products,
  };
}
