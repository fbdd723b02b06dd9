/** A table of the bench's page: what was found beside what was wanted. */
export interface Table {
  readonly title: string;
  readonly note: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export function markdownTable({ title, note, head, rows }: Table): string {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [`## ${title}`, "", note, "", line(head), line(head.map(() => "---")), ...rows.map(line), ""].join(
    "\n",
  );
}

export const milliseconds = (time_s: number) => `${(time_s * 1000).toPrecision(3)} ms`;
export const seconds = (time_s: number) => `${time_s.toPrecision(3)} s`;
export const small = (value: number | null) => (value === null ? "–" : value.toExponential(1));

/** What was wanted, and whether it was found. */
export const wanted = (text: string, isMet: boolean) => `${text}: ${isMet ? "met" : "missed"}`;
