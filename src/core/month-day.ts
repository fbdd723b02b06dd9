/** Days of the year given as month-day, both included; from may lie after to (over New Year). */
export interface DaySpan {
  readonly from: string;
  readonly to: string;
}

/** `03-09` as 309, so that dates compare as numbers. */
export function monthAndDay(text: string): number {
  return Number(text.slice(0, 2)) * 100 + Number(text.slice(3, 5));
}

/** Whether a date, as `monthAndDay` gives it, lies in a span. */
export function isWithin(date: number, { from, to }: DaySpan): boolean {
  const first = monthAndDay(from);
  const last = monthAndDay(to);
  return first <= last ? date >= first && date <= last : date >= first || date <= last;
}

/** Whether a date lies in one of the spans. */
export function isClosedDay(spans: readonly DaySpan[], month: number, day: number): boolean {
  return spans.some((span) => isWithin(month * 100 + day, span));
}
