import { growingIntegers, growingKinds, growingNumbers } from "./growing.ts";
import type { LinearProgram } from "./program.ts";

/**
 * Collects columns, rows and entries in any order and assembles them by columns. A column or row
 * belongs to a family (its name's stem) and a block; names are made only when asked for.
 */
export class ProgramBuilder {
  private readonly cost = growingNumbers();
  private readonly colLower = growingNumbers();
  private readonly colUpper = growingNumbers();
  private readonly colFamily = growingKinds();
  /** Index less block: zero for nearly all, which takes no memory. */
  private readonly colOffset = growingIntegers();
  private readonly colBlock = growingIntegers();
  private readonly rowLower = growingNumbers();
  private readonly rowUpper = growingNumbers();
  private readonly rowFamily = growingKinds();
  private readonly rowOffset = growingIntegers();
  private readonly rowBlock = growingIntegers();
  private readonly entryRow = growingIntegers();
  private readonly entryColumn = growingIntegers();
  private readonly entryValue = growingNumbers();
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
    this.colOffset.push(index - block);
    this.colBlock.push(block);
    return this.cost.length - 1;
  }

  /** @param index and block as for a column */
  row(family: number, index: number, lower: number, upper: number, block: number = index): number {
    this.rowLower.push(lower);
    this.rowUpper.push(upper);
    this.rowFamily.push(family);
    this.rowOffset.push(index - block);
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

  /** The program; the builder is empty afterwards. */
  assemble(name: string): LinearProgram {
    const columns = this.cost.length;
    const rows = this.rowLower.length;
    const entries = this.entryRow.length;
    const starts = new Int32Array(columns + 1);
    this.entryColumn.forEach((column) => {
      starts[column + 1]! += 1;
    });
    for (let c = 0; c < columns; c += 1) starts[c + 1]! += starts[c]!;
    const next = starts.slice(0, columns);
    const indices = new Int32Array(entries);
    const values = new Float64Array(entries);
    this.entryColumn.forEach((column, e) => {
      const place = next[column]!;
      next[column] = place + 1;
      indices[place] = this.entryRow.at(e);
      values[place] = this.entryValue.at(e);
    });
    this.entryRow.drop();
    this.entryColumn.drop();
    this.entryValue.drop();
    const { families } = this;
    const structure = {
      columnBlock: this.colBlock.take(),
      columnKind: this.colFamily.take(),
      rowBlock: this.rowBlock.take(),
      rowKind: this.rowFamily.take(),
    };
    const colOffset = this.colOffset.take();
    const rowOffset = this.rowOffset.take();
    const nameOf = (family: number, block: number) =>
      block < 0 ? families[family]! : `${families[family]}.${block}`;
    return {
      name,
      columns,
      rows,
      cost: this.cost.take(),
      colLower: this.colLower.take(),
      colUpper: this.colUpper.take(),
      rowLower: this.rowLower.take(),
      rowUpper: this.rowUpper.take(),
      starts,
      indices,
      values,
      structure,
      columnName: (column) =>
        nameOf(structure.columnKind[column]!, structure.columnBlock[column]! + colOffset[column]!),
      rowName: (row) => nameOf(structure.rowKind[row]!, structure.rowBlock[row]! + rowOffset[row]!),
    };
  }
}
