/** A table ready to be shown: every cell is text. */
export interface TableView {
  readonly caption: string;
  readonly columns: readonly { readonly title: string; readonly numeric: boolean }[];
  readonly rows: readonly (readonly string[])[];
}

/** A table whose first column holds words and whose others hold figures, but for those named in `words`. */
export function figuresTable(
  caption: string,
  titles: readonly string[],
  rows: readonly (readonly string[])[],
  words: readonly string[] = [],
): TableView {
  const numeric = (title: string, index: number) => index > 0 && !words.includes(title);
  return {
    caption,
    columns: titles.map((title, index) => ({ title, numeric: numeric(title, index) })),
    rows,
  };
}
