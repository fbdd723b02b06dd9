import { expect, it } from "vitest";
import { exampleBundle } from "../../../src/app/example.ts";
import { resolveStudy } from "../../../src/app/resolve-study.ts";
import { cleanAnswer } from "../../../src/core/dispatch/clean-answer.ts";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { solveOnce } from "../../../src/core/dispatch/program.ts";
import { readSizes } from "../../../src/core/dispatch/read-plan.ts";
import { typicalDays } from "../../../src/core/dispatch/typical-days.ts";
import { prepareReplay } from "../../../src/core/replay/prepare-replay.ts";
import { replayTwoDay } from "../../../src/core/replay/replay-two-day.ts";
import { plantModel } from "../../../src/core/study/plant-model.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { exampleDefinition } from "../../../src/store/example-files.ts";
import { boundAt, faultsOf } from "./support.ts";

it("runs the worked example without foresight, dearer than with it, every hour in balance", async () => {
  const highs = await loadHighs();
  const outcome = resolveStudy(exampleBundle(exampleDefinition()));
  if (!outcome.ok) throw new Error("the worked example does not resolve");
  const { problem, rules } = plantModel(outcome.value);
  const days = formulate(typicalDays(problem, 4).problem);
  const sizes = readSizes(days, cleanAnswer(days, solveOnce(highs, days.program).primal));
  const bound = boundAt(problem, sizes, highs);

  const simple = prepareReplay(problem, rules).plan(sizes);
  const twoDay = replayTwoDay(problem, sizes, rules, { solver: highs, forecast: "persistence" });
  for (const [name, plan] of [
    ["simple controller", simple],
    ["two-day plan", twoDay],
  ] as const) {
    expect(faultsOf(problem, rules, plan)).toEqual([]);
    expect(plan.totals.unmetCost).toBe(0);
    expect(plan.totals.cost).toBeGreaterThan(bound);
    const gap = plan.totals.cost - bound;
    process.stdout.write(
      `  worked example, ${name}: ${gap.toFixed(0)} XTS a year (${((100 * gap) / bound).toFixed(2)} %) above perfect foresight, ` +
        `solar fraction ${plan.totals.solarFraction.toFixed(4)}\n`,
    );
  }
  expect(twoDay.unplannedDays).toBe(1);
});
