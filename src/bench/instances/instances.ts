import type { DispatchCase } from "../../core/dispatch/case.ts";
import { type NetworkRecipe, networkCase } from "./network-case.ts";

/** A program to be timed, under a name that stays. */
export interface BenchInstance {
  readonly name: string;
  readonly what: string;
  readonly problem: () => DispatchCase;
  /** How many times faster than HiGHS the engine is to be. */
  readonly leastRatio?: number;
  readonly mostSolve_s?: number;
  readonly mostMemory_MB?: number;
  /** How long HiGHS takes: not run on `never`, once on `minutes`, and left out by `--quick` on both. */
  readonly highs: "seconds" | "minutes" | "never";
}

const made = (
  name: string,
  what: string,
  recipe: NetworkRecipe,
  more: Partial<Omit<BenchInstance, "name" | "what" | "problem">> = {},
): BenchInstance => ({
  name,
  what,
  problem: () => ({ ...networkCase(recipe), name }),
  highs: "seconds",
  ...more,
});

/** Full years against HiGHS. */
export const yearInstances: readonly BenchInstance[] = [
  made("one", "1 network", { networks: 1 }, { leastRatio: 10 }),
  made("two", "2 networks", { networks: 2 }),
  made("three", "3 networks", { networks: 3 }, { leastRatio: 20, mostSolve_s: 0.8 }),
  made("four", "4 networks", { networks: 4 }, { highs: "minutes" }),
  made(
    "three-powers",
    "3 networks, powers of boilers, charging and exchangers sized too",
    { networks: 3, sizedPowers: true },
    { leastRatio: 20, highs: "minutes" },
  ),
  made("three-fixed", "3 networks, sizes given", { networks: 3, fixedSizes: true }, { leastRatio: 4 }),
  made(
    "three-fraction",
    "3 networks, solar fraction at least 0.9",
    { networks: 3, leastSolarFraction: 0.9 },
    { highs: "minutes" },
  ),
  made(
    "three-boilers",
    "3 networks, boilers of 80 % of the highest demand",
    { networks: 3, boilerShare: 0.8 },
    { highs: "minutes" },
  ),
  made(
    "three-hourly",
    "3 networks, hourly prices",
    { networks: 3, hourlyPrices: true },
    { highs: "minutes" },
  ),
  made(
    "three-negative",
    "3 networks, hourly prices of which some are negative",
    { networks: 3, hourlyPrices: true, priceFall: 0.7, boilerShare: 1 },
    { highs: "minutes" },
  ),
];

/** The same plant over more years, to show how time and memory grow. */
export const growthInstances: readonly BenchInstance[] = [1, 3].flatMap((networks) =>
  [1, 5, 25].map((years) =>
    made(
      `${networks === 1 ? "one" : "three"}-years-${years}`,
      `${networks} network${networks === 1 ? "" : "s"}, ${years} year${years === 1 ? "" : "s"} in one program`,
      { networks, years },
      {
        highs: "never",
        ...(years === 25 ? { mostMemory_MB: networks === 1 ? 300 : 800 } : {}),
      },
    ),
  ),
);
