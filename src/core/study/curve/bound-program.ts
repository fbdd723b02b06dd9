import type { DispatchCase, NewSizes, SizeCase } from "../../dispatch/case.ts";
import { unlimited } from "../../dispatch/case.ts";
import { type Formulation, formulate } from "../../dispatch/formulate.ts";
import type { LinearProgram } from "../../dispatch/program.ts";

export interface BoundProgram {
  /** Without the row of the total. */
  readonly formulation: Formulation;
  /** With it, as its last row; the columns are the same. */
  readonly program: LinearProgram;
}

/**
 * The program of sizes and dispatch at a given total aperture: one row Σ new apertures = that of `line`,
 * the split and all other sizes its own choice within the study's bounds, which are widened as far as
 * `line` goes beyond them, so that `line` is one of its answers. Limits over the year are left out, as
 * they are along the lines of the curve.
 *
 * @param line sizes of new plant in the optimum's proportions at that total
 */
export function boundProgram(problem: DispatchCase, line: NewSizes): BoundProgram {
  const formulation = formulate(widened(unlimited(problem), line));
  const { fields } = formulation.layout.sizes;
  let open_m2 = 0;
  const columns: number[] = [];
  formulation.problem.fields.forEach((field, f) => {
    open_m2 += line.fields_m2[f];
    if (fields[f] >= 0) columns.push(fields[f]);
    else open_m2 -= field.least_m2;
  });
  return { formulation, program: withRow(formulation.program, "totalAperture", columns, open_m2) };
}

function widened(problem: DispatchCase, line: NewSizes): DispatchCase {
  const holding = (size: SizeCase, value: number): SizeCase => ({
    ...size,
    least: Math.min(size.least, value),
    most: Math.max(size.most, value),
  });
  return {
    ...problem,
    collectors: problem.collectors.map((collector, c) => {
      const onLine_m2 = problem.fields.reduce(
        (all, field, f) => all + (field.collector === c ? line.fields_m2[f] : 0),
        0,
      );
      return {
        ...collector,
        least_m2: Math.min(collector.least_m2, onLine_m2),
        most_m2: Math.max(collector.most_m2, onLine_m2),
      };
    }),
    fields: problem.fields.map((field, f) => ({
      ...field,
      least_m2: Math.min(field.least_m2, line.fields_m2[f]),
      most_m2: Math.max(field.most_m2, line.fields_m2[f]),
    })),
    stores: problem.stores.map((store, s) => ({
      ...store,
      size: holding(store.size, line.stores_kWh[s]),
      charger: store.charger === null ? null : holding(store.charger, line.chargers_kW[s]),
    })),
  };
}

/** The same program with one more equation, Σ columns = value. */
function withRow(
  program: LinearProgram,
  name: string,
  columns: readonly number[],
  value: number,
): LinearProgram {
  if (columns.length === 0) return program;
  const row = program.rows;
  const inRow = new Set(columns);
  const starts = new Int32Array(program.columns + 1);
  const indices = new Int32Array(program.indices.length + inRow.size);
  const values = new Float64Array(indices.length);
  let at = 0;
  for (let j = 0; j < program.columns; j += 1) {
    for (let e = program.starts[j]; e < program.starts[j + 1]; e += 1) {
      indices[at] = program.indices[e];
      values[at] = program.values[e];
      at += 1;
    }
    if (inRow.has(j)) {
      indices[at] = row;
      values[at] = 1;
      at += 1;
    }
    starts[j + 1] = at;
  }
  const { structure } = program;
  return {
    ...program,
    rows: row + 1,
    rowLower: Float64Array.from([...program.rowLower, value]),
    rowUpper: Float64Array.from([...program.rowUpper, value]),
    starts,
    indices,
    values,
    ...(structure === undefined
      ? {}
      : {
          structure: {
            ...structure,
            rowBlock: Int32Array.from([...structure.rowBlock, -1]),
            rowKind: Uint16Array.from([
              ...structure.rowKind,
              structure.rowKind.reduce((most, kind) => Math.max(most, kind), -1) + 1,
            ]),
          },
        }),
    columnName: (column) => program.columnName(column),
    rowName: (index) => (index === row ? name : program.rowName(index)),
  };
}
