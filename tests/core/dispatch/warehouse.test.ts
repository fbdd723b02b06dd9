import { describe, it } from "vitest";
import { formulate } from "../../../src/core/dispatch/formulate.ts";
import { solveOnce } from "../../../src/core/dispatch/program.ts";
import { loadHighs } from "../../../src/solver/highs.ts";
import { expectClose } from "../../support/close.ts";
import {
  backup,
  collector,
  dispatchCase,
  existingSize,
  field,
  network,
  store,
} from "../../support/dispatch-cases.ts";

describe("the warehouse problem (Cahn 1948; figures own, worked by hand)", () => {
  it("buys cheap heat, sells dear heat and earns 1200", async () => {
    // Capacity 100, opening stock 50. Four periods of two blocks: sell out of stock, then buy. A boiler that may
    // charge buys; what is sold saves the unmet price of a demand of 100 that is worth its selling price.
    const buy = [5, 7, 3, 6];
    const sell = [6, 8, 4, 9];
    const opening = 50;
    // The opening stock is heat that costs nothing and comes only in the first block; the store ends empty at best.
    const blocks = 9;
    const demand = new Float64Array(blocks);
    const at = (period: number) => 1 + 2 * period;
    for (let n = 0; n < 4; n += 1) demand[at(n)] = 100;
    const sun = new Float64Array(blocks);
    sun[0] = 1;
    const solver = await loadHighs();
    // Prices by block need one boiler a price; each is held to its own block by the demand's price alone, so the
    // program is written here and only its store rows come from the formulation.
    const formulation = formulate(
      dispatchCase(blocks, {
        networks: [network("heat", demand)],
        collectors: [collector(0, { least_m2: 0 })],
        fields: [field(sun, { existing_m2: opening, most_m2: 0 })],
        stores: [store(existingSize(100))],
        backups: [backup(1, { id: "bought", mayCharge: true }), backup(1, { id: "sold", mayCharge: true })],
        unmetPrice_per_kWh: 1000,
      }),
    );
    const { program, layout } = formulation;
    const cost = program.cost.slice();
    const upper = program.colUpper.slice();
    for (let t = 0; t < blocks; t += 1) {
      const period = (t - 1) >> 1;
      const [bought, sold] = [layout.backup[0]![t]!, layout.backup[1]![t]!];
      const isSale = t % 2 === 1;
      // Heat not sold is bought back at the price at which it would have been sold.
      if (isSale) cost[sold] = sell[period]!;
      else upper[sold] = 0;
      if (t > 0 && !isSale) cost[bought] = buy[period]!;
      else upper[bought] = 0;
    }
    const answer = solveOnce(solver, { ...program, cost, colUpper: upper });
    const all = 100 * sell.reduce((sum, price) => sum + price, 0);
    expectClose(all - answer.objective, 1200, 1e-9);
  });
});
