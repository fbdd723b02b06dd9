import type { Reporter, TestModule } from "vitest/node";

/** Closes a run with the line `N passed, N failed, N skipped`, which CI counts. */
export default class CountReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    const count = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === "passed") count.passed += 1;
        else if (state === "failed") count.failed += 1;
        else count.skipped += 1;
      }
      // A module that cannot even be read holds no test to count; it is a failure all the same.
      if (module.state() === "failed" && module.errors().length > 0) count.failed += 1;
    }
    count.failed += unhandled.length;
    // After the other reporters have written their own closing lines.
    process.on("exit", () => {
      process.stdout.write(`${count.passed} passed, ${count.failed} failed, ${count.skipped} skipped\n`);
    });
  }
}
