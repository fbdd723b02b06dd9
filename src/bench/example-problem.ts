import { exampleBundle } from "../app/example.ts";
import { resolveStudy } from "../app/resolve-study.ts";
import type { ResolvedStudy } from "../app/types.ts";
import { plantModel } from "../core/study/plant-model.ts";
import { exampleDefinition } from "../store/example-files.ts";
import type { BenchInstance } from "./instances/instances.ts";

/** The worked example's full year: what the program is asked day by day. */
export const exampleInstance: BenchInstance = {
  name: "worked-example",
  what: "the worked example",
  problem: () => ({ ...plantModel(resolvedExample()).problem, name: "worked-example" }),
  highs: "minutes",
};

export function resolvedExample(): ResolvedStudy {
  const outcome = resolveStudy(exampleBundle(exampleDefinition()));
  if (!outcome.ok) throw new Error("the worked example does not resolve");
  return outcome.value;
}
