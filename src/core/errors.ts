/** What a caller of the core may do wrong. Data faults of a user are `Problem`s, not these. */
export const errorCodes = {
  SERIES_LENGTH: "series that describe the same hours must have the same length",
  OUT_OF_RANGE: "an argument lies outside the range in which the relation holds",
  UNKNOWN_ID: "an id must name an item of the study",
  DIFFERENT_PLANTS: "years that are joined must be of the same plant",
  NOT_CONVERGED: "an iteration did not reach its tolerance",
} as const;
export type ErrorCode = keyof typeof errorCodes;

/** A call the core cannot honour: a fault of the program, never of the user's data. */
export class ModelError extends Error {
  override readonly name = "ModelError";
  readonly code: ErrorCode;
  constructor(code: ErrorCode, found: string) {
    super(`${code}: ${errorCodes[code]}; got ${found}`);
    this.code = code;
  }
}
