/** Where in the user's material a problem lies. Row numbers are file lines, counted from 1. */
export interface Place {
  readonly file?: string;
  readonly row?: number;
  readonly column?: string;
  /** Slash-separated path in the study, e.g. `loads/0/heat_kW`. */
  readonly path?: string;
}

/**
 * One fault or remark about what the user gave: collected, never thrown. `message` is one clear
 * sentence that says what was found and what is allowed; `place` says where.
 */
export interface Problem {
  /** Stable name, e.g. `WEATHER_HOUR_MISSING`; listed in docs/errors.md. */
  readonly code: string;
  readonly message: string;
  readonly place: Place;
}

/** Either the value with remarks (`findings`), or every fault at once. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly findings: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export function found<T>(value: T, findings: readonly Problem[] = []): Outcome<T> {
  return { ok: true, value, findings };
}

export function refused<T>(problems: readonly Problem[]): Outcome<T> {
  return { ok: false, problems };
}

/** The problem as one line of text: place first, then the sentence. */
export function tell(problem: Problem): string {
  const { file, row, column, path } = problem.place;
  const place = [
    file,
    row === undefined ? undefined : `row ${row}`,
    column === undefined ? undefined : `column ${column}`,
    path,
  ].filter((part) => part !== undefined);
  return place.length === 0 ? problem.message : `${place.join(", ")}: ${problem.message}`;
}
