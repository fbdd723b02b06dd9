import type { LinearProgram } from "../core/dispatch/program.ts";
import { ModelError } from "../core/errors.ts";

/**
 * The program as free MPS, the text format that linear-program solvers share: rows, columns by their
 * entries, right-hand sides, ranges, bounds. It says nothing of the sense; the objective is minimised.
 * Numbers are written in the fewest digits that read back as the same double.
 *
 * @throws ModelError OUT_OF_RANGE for a number that is not finite where it must be, bounds that cross,
 * a name with a blank in it or a name used twice
 */
export function writeMps(program: LinearProgram): string {
  return Array.from(mpsChunks(program)).join("");
}

/** The same text in pieces of some ten thousand characters, for writing without holding all of it. */
export function* mpsChunks(program: LinearProgram): Generator<string> {
  const rowName = namesOf("row", program.rows, (i) => program.rowName(i));
  const objective = freeName(rowName);
  yield* gather(lines(program, [...rowName], objective));
}

const linesPerChunk = 1024;

function* gather(all: Iterable<string>): Generator<string> {
  let held: string[] = [];
  for (const line of all) {
    held.push(line);
    if (held.length === linesPerChunk) {
      yield `${held.join("\n")}\n`;
      held = [];
    }
  }
  yield `${held.join("\n")}\n`;
}

function* lines(program: LinearProgram, rowName: readonly string[], objective: string): Generator<string> {
  const { rows, rowLower, rowUpper } = program;
  yield "* minimise; free MPS";
  yield `NAME ${checkedName("program", program.name)}`;
  yield "ROWS";
  yield ` N ${objective}`;
  for (let i = 0; i < rows; i += 1) yield ` ${rowKind(rowLower[i], rowUpper[i], rowName[i])} ${rowName[i]}`;
  const columnName: string[] = [];
  yield "COLUMNS";
  yield* columnLines(program, rowName, objective, columnName);
  yield "RHS";
  for (let i = 0; i < rows; i += 1) {
    const side = Number.isFinite(rowUpper[i]) ? rowUpper[i] : rowLower[i];
    if (Number.isFinite(side) && side !== 0) yield ` rhs ${rowName[i]} ${side}`;
  }
  let titled = false;
  for (let i = 0; i < rows; i += 1) {
    if (!isRange(rowLower[i], rowUpper[i])) continue;
    if (!titled) yield "RANGES";
    titled = true;
    yield ` range ${rowName[i]} ${rowUpper[i] - rowLower[i]}`;
  }
  yield "BOUNDS";
  yield* boundLines(program, columnName);
  yield "ENDATA";
}

/** Entries of each column; a pair given twice becomes one entry, since not every reader adds them up. */
function* columnLines(
  { columns, rows, starts, indices, values, cost, columnName: nameOf }: LinearProgram,
  rowName: readonly string[],
  objective: string,
  columnName: string[],
): Generator<string> {
  const seen = new Set<string>();
  const sum = new Float64Array(rows);
  const lastColumn = new Int32Array(rows).fill(-1);
  for (let j = 0; j < columns; j += 1) {
    const name = addName("column", seen, nameOf(j));
    columnName.push(name);
    if (cost[j] !== 0) yield ` ${name} ${objective} ${finite(cost[j], name)}`;
    let written = cost[j] !== 0;
    const own: number[] = [];
    for (let e = starts[j]; e < starts[j + 1]; e += 1) {
      const i = indices[e];
      if (lastColumn[i] !== j) {
        lastColumn[i] = j;
        sum[i] = 0;
        own.push(i);
      }
      sum[i] += values[e];
    }
    for (const i of own) {
      if (sum[i] === 0) continue;
      written = true;
      yield ` ${name} ${rowName[i]} ${finite(sum[i], name)}`;
    }
    if (!written) yield ` ${name} ${objective} 0`;
  }
}

function* boundLines(
  { columns, colLower, colUpper }: LinearProgram,
  columnName: readonly string[],
): Generator<string> {
  for (let j = 0; j < columns; j += 1) {
    const lower = colLower[j];
    const upper = colUpper[j];
    const name = columnName[j];
    if (!(lower <= upper)) throw new ModelError("OUT_OF_RANGE", `bounds ${lower} to ${upper} of ${name}`);
    if (lower === upper) yield ` FX bound ${name} ${finite(lower, name)}`;
    else if (lower === Number.NEGATIVE_INFINITY && upper === Number.POSITIVE_INFINITY)
      yield ` FR bound ${name}`;
    else {
      // The lower bound goes first: an upper bound below 0 alone would open the lower one.
      if (lower === Number.NEGATIVE_INFINITY) yield ` MI bound ${name}`;
      else if (lower !== 0) yield ` LO bound ${name} ${finite(lower, name)}`;
      if (upper !== Number.POSITIVE_INFINITY) yield ` UP bound ${name} ${finite(upper, name)}`;
    }
  }
}

function rowKind(lower: number, upper: number, name: string): string {
  if (!(lower <= upper)) throw new ModelError("OUT_OF_RANGE", `sides ${lower} to ${upper} of ${name}`);
  if (lower === upper) return "E";
  if (upper !== Number.POSITIVE_INFINITY) return "L";
  return lower === Number.NEGATIVE_INFINITY ? "N" : "G";
}

const isRange = (lower: number, upper: number) =>
  lower < upper && Number.isFinite(lower) && Number.isFinite(upper);

function finite(value: number, name: string): number {
  if (!Number.isFinite(value)) throw new ModelError("OUT_OF_RANGE", `the number ${value} in ${name}`);
  return value;
}

function namesOf(what: string, count: number, name: (index: number) => string): Set<string> {
  const names = new Set<string>();
  for (let i = 0; i < count; i += 1) addName(what, names, name(i));
  return names;
}

function addName(what: string, names: Set<string>, name: string): string {
  checkedName(what, name);
  if (names.has(name)) throw new ModelError("OUT_OF_RANGE", `two of the name ${name} (${what})`);
  names.add(name);
  return name;
}

function checkedName(what: string, name: string): string {
  if (!/^\S+$/.test(name)) throw new ModelError("OUT_OF_RANGE", `the name "${name}" of a ${what}`);
  return name;
}

/** A name for the objective that no row has. */
function freeName(taken: ReadonlySet<string>): string {
  let name = "cost";
  while (taken.has(name)) name += "_";
  return name;
}
