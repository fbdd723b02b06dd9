/** A number that is the same in every block (a place among the constants) or changes (a place among the varying ones). */
export interface Coefficient {
  readonly varies: boolean;
  readonly at: number;
}

/**
 * What one block of a staircase program looks like. Every block has the same slots; where a column,
 * row or limit is absent its mask is 0. Rows that look back to the block before come last.
 */
export interface Template {
  /** Local columns, interior rows, limits. A block has columns + limits pairs (value, multiplier). */
  readonly columns: number;
  readonly rows: number;
  readonly limits: number;
  readonly own: readonly { readonly row: number; readonly column: number; readonly value: Coefficient }[];
  /** Entries of rows in a column of the block before; `at` is the place in the array of such values. */
  readonly back: readonly { readonly row: number; readonly column: number; readonly at: number }[];
  /** sign · column + slack = rhs + Σ value · size. */
  readonly limit: readonly {
    readonly column: number;
    readonly sign: 1 | -1;
    readonly rhs: Coefficient;
    readonly terms: readonly { readonly size: number; readonly value: Coefficient }[];
  }[];
  /** Entries of rows over many blocks. */
  readonly long: readonly { readonly row: number; readonly column: number; readonly value: Coefficient }[];
  /** Entries of carried border columns in interior rows, by place in the array of such values. */
  readonly direct: readonly { readonly row: number; readonly carried: number; readonly at: number }[];
  /** Place of the mask of each pair, −1 where it is always there. */
  readonly mask: readonly number[];
  /** Place of each column's cost, −1 where it costs nothing. */
  readonly cost: readonly number[];
  /** Border columns that interior rows meet: links first, then long rows, then sizes. */
  readonly carried: readonly Carried[];
}

export type Carried =
  | { readonly kind: "link"; readonly link: number }
  | { readonly kind: "long"; readonly row: number }
  | { readonly kind: "size"; readonly size: number };
