import type { Template } from "../template.ts";
import type { Elimination } from "./elimination.ts";

/** Which entries of G = L⁻¹·F can differ from zero in some block, and where a block keeps them. */
export interface BorderPattern {
  readonly has: (row: number, carried: number) => boolean;
  /** −1 where there is none. */
  readonly place: (row: number, carried: number) => number;
  readonly stored: number;
}

/** Follows F through L and on to the rows of the next block that look back, until nothing is new. */
export function borderPattern(template: Template, { backRows, hasL, hasV }: Elimination): BorderPattern {
  const { rows: m, carried, own, back, limit, long, direct } = template;
  const width = carried.length;
  const present = new Uint8Array(m * width);
  const meet = (column: number, c: number) => {
    for (const entry of own) if (entry.column === column) present[entry.row * width + c] = 1;
    for (const entry of back) if (entry.column === column) present[entry.row * width + c] = 1;
  };
  carried.forEach((item, c) => {
    if (item.kind === "size") {
      for (const { column, terms } of limit)
        if (terms.some(({ size }) => size === item.size)) meet(column, c);
    } else if (item.kind === "long") {
      for (const entry of long) if (entry.row === item.row) meet(entry.column, c);
    }
  });
  for (const entry of direct) present[entry.row * width + entry.carried] = 1;
  for (let isNew = true; isNew; ) {
    isNew = false;
    for (let c = 0; c < width; c += 1) {
      const add = (row: number) => {
        if (present[row * width + c] === 1) return;
        present[row * width + c] = 1;
        isNew = true;
      };
      for (let p = 0; p < m; p += 1) {
        if (present[p * width + c] === 0) continue;
        for (let i = p + 1; i < m; i += 1) if (hasL(i, p)) add(i);
        for (const next of backRows) if (hasV(p, next)) add(next);
      }
    }
  }
  const places = new Int32Array(m * width).fill(-1);
  let stored = 0;
  present.forEach((is, i) => {
    if (is === 0) return;
    places[i] = stored;
    stored += 1;
  });
  return {
    has: (row, c) => present[row * width + c] === 1,
    place: (row, c) => places[row * width + c],
    stored,
  };
}
