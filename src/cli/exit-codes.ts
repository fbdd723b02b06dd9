import { type Outcome, type Problem, tell } from "../core/problem.ts";

export const exitCodes = { done: 0, inputFault: 1, programFault: 2 } as const;

/** The input is at fault: every fault is a line for stderr. */
export class InputFault extends Error {
  override readonly name = "InputFault";
  readonly lines: readonly string[];
  constructor(lines: readonly string[]) {
    super(lines.join("\n"));
    this.lines = lines;
  }
}

/** The value of an outcome. @throws InputFault with every problem */
export function accept<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw faultOf(outcome.problems);
  return outcome.value;
}

export function faultOf(problems: readonly Problem[]): InputFault {
  const count = problems.length === 1 ? "1 fault" : `${problems.length} faults`;
  return new InputFault([`The input has ${count}:`, ...problems.map((problem) => `- ${tell(problem)}`)]);
}
