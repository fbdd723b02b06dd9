import { describe, expect, it } from "vitest";
import { type NetworkRecipe, networkCase } from "../../src/bench/instances/network-case.ts";
import { formulate } from "../../src/core/dispatch/formulate.ts";
import { solveOnce } from "../../src/core/dispatch/program.ts";
import { verify } from "../../src/core/dispatch/verify.ts";
import { interiorPoint } from "../../src/solver/interior-point/interior-point.ts";

/**
 * Full years that were hard for the engine once, or are hard by their nature, each by its recipe. An optimum is
 * proved by weak duality from the engine's own duals (`verify`, which shares nothing with it); objectives are
 * those of HiGHS 1.15 (npm `highs`, dual simplex, devex pricing) on the same program, which takes up to minutes.
 */
interface HardYear {
  readonly what: string;
  readonly recipe: NetworkRecipe;
  readonly highs: number;
}
const years: readonly HardYear[] = [
  { what: "1 network, constant prices", recipe: { networks: 1 }, highs: 80055.36167750432 },
  { what: "1 network, dear fuel", recipe: { networks: 1, fuel_per_kWh: 0.2 }, highs: 188308.84777586692 },
  {
    what: "1 network, fuel too cheap for any collector",
    recipe: { networks: 1, fuel_per_kWh: 0.004 },
    highs: 12095.496195140035,
  },
  {
    what: "1 network, store without losses",
    recipe: { networks: 1, lossless: true },
    highs: 79456.58907476312,
  },
  {
    what: "1 network, hardly any backup",
    recipe: { networks: 1, boilerShare: 0.1 },
    highs: 246510.85916466938,
  },
  {
    what: "1 network, some prices negative",
    recipe: { networks: 1, hourlyPrices: true, priceFall: 0.7, boilerShare: 1 },
    highs: 30363.011760434038,
  },
  { what: "1 network, powers sized", recipe: { networks: 1, sizedPowers: true }, highs: 83477.63742054379 },
  {
    what: "1 network, solar fraction 0.9",
    recipe: { networks: 1, leastSolarFraction: 0.9 },
    highs: 139186.55249902938,
  },
  { what: "2 networks, little land", recipe: { networks: 2, land_m2: 4000 }, highs: 198130.82463529057 },
  { what: "3 networks, constant prices", recipe: { networks: 3 }, highs: 235499.08872139585 },
  { what: "3 networks, sizes given", recipe: { networks: 3, fixedSizes: true }, highs: 274200.97667313635 },
  {
    what: "3 networks, hourly prices",
    recipe: { networks: 3, hourlyPrices: true },
    highs: 216383.22121898824,
  },
  {
    what: "3 networks, some prices negative",
    recipe: { networks: 3, hourlyPrices: true, priceFall: 0.7, boilerShare: 1 },
    highs: 89082.63844485828,
  },
  {
    what: "3 networks, boilers of 80 % of the highest demand",
    recipe: { networks: 3, boilerShare: 0.8 },
    highs: 235521.68039762665,
  },
];

describe("a full year", () => {
  it.each(years)("is solved and proved by its own duals: $what", ({ recipe, highs }) => {
    const { program } = formulate(networkCase(recipe));
    const answer = solveOnce(interiorPoint, program);
    expect(answer.status).toBe("optimal");
    const proof = verify(program, answer.primal, answer.rowDual);
    expect(proof.relativeGap).toBeLessThan(1e-7);
    // Rows are in kW, kWh and m² of some thousands; costs in money a kWh of some hundredths, unmet heat 1000 times that.
    expect(proof.primalResidual).toBeLessThan(1e-4);
    expect(proof.dualResidual).toBeLessThan(
      1e-6 * program.cost.reduce((most, cost) => Math.max(most, cost), 0),
    );
    expect(Math.abs(answer.objective / highs - 1)).toBeLessThan(1e-6);
  });
});
