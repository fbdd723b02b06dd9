/** A table ready to be shown: every cell is text. */
export interface TableView {
  readonly caption: string;
  readonly columns: readonly { readonly title: string; readonly numeric: boolean }[];
  readonly rows: readonly (readonly string[])[];
}

/** A table whose first column holds words and whose others hold figures. */
export function figuresTable(
  caption: string,
  titles: readonly string[],
  rows: readonly (readonly string[])[],
  wordColumns = 1,
): TableView {
  return { caption, columns: titles.map((title, index) => ({ title, numeric: index >= wordColumns })), rows };
}
