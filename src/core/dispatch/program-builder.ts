import type { LinearProgram } from "./program.ts";

/** Grows typed columns without an object an entry. */
class Growing {
  private values: Float64Array;
  length = 0;
  constructor(capacity: number) {
    this.values = new Float64Array(capacity);
  }
  push(value: number): void {
    if (this.length === this.values.length) {
      const larger = new Float64Array(this.values.length * 2);
      larger.set(this.values);
      this.values = larger;
    }
    this.values[this.length] = value;
    this.length += 1;
  }
  get(index: number): number {
    return this.values[index]!;
  }
  copy(): Float64Array {
    return this.values.slice(0, this.length);
  }
}

/**
 * Collects columns, rows and entries in any order and assembles them by columns. A column or row
 * belongs to a family (its name's stem) and a block; names are made only when asked for.
 */
export class ProgramBuilder {
  private readonly cost = new Growing(1024);
  private readonly colLower = new Growing(1024);
  private readonly colUpper = new Growing(1024);
  private readonly colFamily = new Growing(1024);
  private readonly colIndex = new Growing(1024);
  private readonly colBlock = new Growing(1024);
  private readonly rowLower = new Growing(1024);
  private readonly rowUpper = new Growing(1024);
  private readonly rowFamily = new Growing(1024);
  private readonly rowIndex = new Growing(1024);
  private readonly rowBlock = new Growing(1024);
  private readonly entryRow = new Growing(4096);
  private readonly entryColumn = new Growing(4096);
  private readonly entryValue = new Growing(4096);
  private readonly families: string[] = [];

  family(stem: string): number {
    this.families.push(stem);
    return this.families.length - 1;
  }

  /**
   * @param index ends its name: the block it belongs to, −1 for one that all blocks share
   * @param block the block, where its name ends in another number
   */
  column(
    family: number,
    index: number,
    cost: number,
    lower: number,
    upper: number,
    block: number = index,
  ): number {
    this.cost.push(cost);
    this.colLower.push(lower);
    this.colUpper.push(upper);
    this.colFamily.push(family);
    this.colIndex.push(index);
    this.colBlock.push(block);
    return this.cost.length - 1;
  }

  /** @param index and block as for a column */
  row(family: number, index: number, lower: number, upper: number, block: number = index): number {
    this.rowLower.push(lower);
    this.rowUpper.push(upper);
    this.rowFamily.push(family);
    this.rowIndex.push(index);
    this.rowBlock.push(block);
    return this.rowLower.length - 1;
  }

  /** At most one entry for each pair; zero entries are left out. */
  entry(row: number, column: number, value: number): void {
    if (value === 0) return;
    this.entryRow.push(row);
    this.entryColumn.push(column);
    this.entryValue.push(value);
  }

  assemble(name: string): LinearProgram {
    const columns = this.cost.length;
    const rows = this.rowLower.length;
    const entries = this.entryRow.length;
    const starts = new Int32Array(columns + 1);
    for (let e = 0; e < entries; e += 1) starts[this.entryColumn.get(e) + 1]! += 1;
    for (let c = 0; c < columns; c += 1) starts[c + 1]! += starts[c]!;
    const next = starts.slice(0, columns);
    const indices = new Int32Array(entries);
    const values = new Float64Array(entries);
    for (let e = 0; e < entries; e += 1) {
      const column = this.entryColumn.get(e);
      const place = next[column]!;
      next[column] = place + 1;
      indices[place] = this.entryRow.get(e);
      values[place] = this.entryValue.get(e);
    }
    const { families } = this;
    const colFamily = this.colFamily.copy();
    const colIndex = this.colIndex.copy();
    const rowFamily = this.rowFamily.copy();
    const rowIndex = this.rowIndex.copy();
    const nameOf = (family: number, block: number) =>
      block < 0 ? families[family]! : `${families[family]}.${block}`;
    return {
      name,
      columns,
      rows,
      cost: this.cost.copy(),
      colLower: this.colLower.copy(),
      colUpper: this.colUpper.copy(),
      rowLower: this.rowLower.copy(),
      rowUpper: this.rowUpper.copy(),
      starts,
      indices,
      values,
      structure: {
        columnBlock: Int32Array.from(this.colBlock.copy()),
        columnKind: Int32Array.from(colFamily),
        rowBlock: Int32Array.from(this.rowBlock.copy()),
        rowKind: Int32Array.from(rowFamily),
      },
      columnName: (column) => nameOf(colFamily[column]!, colIndex[column]!),
      rowName: (row) => nameOf(rowFamily[row]!, rowIndex[row]!),
    };
  }
}
