import { Option } from "commander";

/** Which solver takes the full year's programs. */
export function yearSolverOption(): Option {
  return new Option("--solver <solver>", "what solves the full year; highs is the slower second opinion")
    .choices(["interior-point", "highs"])
    .default("interior-point");
}
