// A measurement's own process loads only what it measures, so what else the bench needs is loaded on demand.
const args = process.argv.slice(2);
if (args[0] === "--child") {
  const { runChild } = await import("./child/run-child.ts");
  await runChild(args.slice(1));
} else {
  const { runBench } = await import("./run-bench.ts");
  await runBench(args);
}
