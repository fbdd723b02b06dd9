import type { Template } from "../template.ts";

/**
 * Which entries of one block's factor can differ from zero, by symbolic elimination (George and Liu
 * 1981): L below the diagonal, and V = L⁻¹·C, the tie to the rows of the next block that look back.
 */
export interface Elimination {
  readonly rows: number;
  /** Rows that look back, in order. */
  readonly backRows: readonly number[];
  /** N before elimination: (row, column) with row ≥ column. */
  readonly hasN: (row: number, column: number) => boolean;
  readonly hasL: (row: number, column: number) => boolean;
  /** C before elimination and V, by row and back row of the next block. */
  readonly hasC: (row: number, next: number) => boolean;
  readonly hasV: (row: number, next: number) => boolean;
  /** Schur complement that the block before leaves, (back row, back row) lower triangle. */
  readonly hasT: (row: number, column: number) => boolean;
  /** Places in the stored factor of a block: L entries, then V entries. */
  readonly placeOfL: (row: number, column: number) => number;
  readonly placeOfV: (row: number, next: number) => number;
  readonly stored: number;
}

export function eliminationOf(template: Template): Elimination {
  const { rows: m, own, back } = template;
  const backRows = [...new Set(back.map(({ row }) => row))].sort((a, b) => a - b);
  const rowsOfColumn = new Map<number, number[]>();
  for (const { row, column } of own) {
    rowsOfColumn.set(column, [...(rowsOfColumn.get(column) ?? []), row]);
  }
  const key = (i: number, k: number) => i * m + k;
  const first = new Set<number>();
  const link = (i: number, k: number) => first.add(i >= k ? key(i, k) : key(k, i));
  for (const list of rowsOfColumn.values()) for (const i of list) for (const k of list) link(i, k);
  for (const a of back) for (const b of back) if (a.column === b.column) link(a.row, b.row);
  for (let i = 0; i < m; i += 1) link(i, i);

  const c = new Set<number>();
  for (const { row, column } of back) for (const i of rowsOfColumn.get(column) ?? []) c.add(key(i, row));

  // What a block leaves to the next one adds to the next one's pattern, until nothing is new.
  const t = new Set<number>();
  for (;;) {
    const n = new Set([...first, ...t]);
    const l = new Set<number>();
    for (let k = 0; k < m; k += 1) {
      for (let i = k + 1; i < m; i += 1) if (n.has(key(i, k))) l.add(key(i, k));
      for (let i = k + 1; i < m; i += 1) {
        if (!l.has(key(i, k))) continue;
        for (let h = i; h < m; h += 1) if (l.has(key(h, k))) n.add(key(h, i));
      }
    }
    const v = new Set<number>(c);
    for (const next of backRows) {
      for (let p = 0; p < m; p += 1) {
        if (!v.has(key(p, next))) continue;
        for (let i = p + 1; i < m; i += 1) if (l.has(key(i, p))) v.add(key(i, next));
      }
    }
    const before = t.size;
    for (const a of backRows) {
      for (const b of backRows) {
        if (b > a) continue;
        for (let i = 0; i < m; i += 1) if (v.has(key(i, a)) && v.has(key(i, b))) t.add(key(a, b));
      }
    }
    if (t.size > before) continue;
    const placesL = new Map([...l].sort((a, b) => a - b).map((entry, i) => [entry, i]));
    const placesV = new Map([...v].sort((a, b) => a - b).map((entry, i) => [entry, placesL.size + i]));
    const initial = new Set([...first, ...t]);
    return {
      rows: m,
      backRows,
      hasN: (i, k) => initial.has(key(i, k)),
      hasL: (i, k) => placesL.has(key(i, k)),
      hasC: (i, next) => c.has(key(i, next)),
      hasV: (i, next) => placesV.has(key(i, next)),
      hasT: (i, k) => t.has(key(i, k)),
      placeOfL: (i, k) => placesL.get(key(i, k)) ?? -1,
      placeOfV: (i, next) => placesV.get(key(i, next)) ?? -1,
      stored: placesL.size + placesV.size,
    };
  }
}
