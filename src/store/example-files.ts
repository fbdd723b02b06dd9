import { readFileSync } from "node:fs";
import type { ExampleDefinition } from "../app/example.ts";

const folder = new URL("../../fixtures/worked-example/", import.meta.url);

/** The definition of the worked example, from the files that come with the program. */
export function exampleDefinition(): ExampleDefinition {
  const read = (name: string) => JSON.parse(readFileSync(new URL(name, folder), "utf8"));
  return { study: read("study.json"), means: read("monthly-means.json") };
}
