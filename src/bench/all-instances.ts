import { type BenchInstance, growthInstances, yearInstances } from "./instances/instances.ts";

/** Every instance by its name; the worked example brings its files and readers with it, the others nothing. */
export async function instanceNamed(name: string): Promise<BenchInstance> {
  const own = [...yearInstances, ...growthInstances].find((instance) => instance.name === name);
  if (own !== undefined) return own;
  const { exampleInstance } = await import("./example-problem.ts");
  if (name === exampleInstance.name) return exampleInstance;
  throw new Error(`no instance ${name}; --list names them`);
}
