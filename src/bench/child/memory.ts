import { formulate } from "../../core/dispatch/formulate.ts";
import { solveOnce } from "../../core/dispatch/program.ts";
import { hoursPerYear } from "../../core/series.ts";
import { interiorPoint } from "../../solver/interior-point/interior-point.ts";
import { instanceNamed } from "../all-instances.ts";

/** Largest resident memory of this process so far, MB; asked in a process that does nothing else. */
export interface Memory {
  readonly afterProgram_MB: number;
  readonly afterSolve_MB: number;
  readonly status: string;
  readonly solve_s: number;
  readonly iterations: number;
  readonly years: number;
}

/** Formulates and solves one instance once. */
export async function memory(name: string): Promise<Memory> {
  const { program, years } = await programOf(name);
  const afterProgram_MB = peak_MB();
  const { status, solve_s, iterations } = solveOnce(interiorPoint, program);
  return { afterProgram_MB, afterSolve_MB: peak_MB(), status, solve_s, iterations, years };
}

/** In a function of its own, so that nothing but the program is held when it is solved. */
async function programOf(name: string) {
  const problem = (await instanceNamed(name)).problem();
  return { program: formulate(problem).program, years: problem.blocks / hoursPerYear };
}

/** Node gives kilobytes. */
const peak_MB = () => process.resourceUsage().maxRSS / 1000;
