import type { Problem } from "../../problem.ts";
import type { Load, LoadOf } from "../../study/schema/study.ts";
import { batchHeat_kWh } from "./batch-drying.ts";
import { desalinationFaults } from "./check-desalination.ts";
import { hotWaterProblems, oilProblems } from "./check-liquids.ts";
import { steamProblems } from "./check-steam.ts";
import { dryingNeeds, highestDryingHeat_kWh_kg } from "./drying.ts";
import { figure } from "./figure.ts";
import type { LoadInputs } from "./load-inputs.ts";
import { loadSupply_C } from "./load-supply.ts";

export const loadProblems = {
  LOAD_STEAM_PRESSURE: "steam must have between 0.00612 and 165 bar absolute",
  LOAD_CONDENSATE_TEMPERATURE: "returned condensate and make-up water must be liquid at the steam's pressure",
  LOAD_NETWORK_TOO_COLD: "a load's network must supply at least the temperature that the load needs",
  LOAD_MOISTURE: "a product must leave the dryer drier than it enters and cannot be all water",
  LOAD_AIR_TOO_HUMID: "the drying air must be able to take up water in every hour that dries",
  LOAD_BATCH_HEAT: "a batch needs its heat or its product, and not both",
  LOAD_BATCH_POWER: "a batch's heat must fit into its window at its largest heat rate",
} as const;
export type LoadProblemCode = keyof typeof loadProblems;

/** What a load can be checked by; without weather the hourly checks of its air are left out. */
export type LoadFacts = Pick<LoadInputs, "profile" | "network" | "elevation_m"> &
  Partial<Pick<LoadInputs, "weather">>;

/**
 * Every fault for which a load could not be resolved or served, at once; resolveLoad honours a load
 * without any. `path` is the load's place in the study, e.g. `loads/2`.
 */
export function checkLoad(load: Load, inputs: LoadFacts, path: string): Problem[] {
  const problems = [...ofKind(load, inputs, path)];
  if (problems.length === 0) problems.push(...ofNetwork(load, inputs, path));
  return problems;
}

function problem(code: LoadProblemCode, path: string, message: string): Problem {
  return { code, message, place: { path } };
}

function ofKind(load: Load, inputs: LoadFacts, path: string): Problem[] {
  switch (load.kind) {
    case "steam":
      return steamProblems(load, inputs.elevation_m, path);
    case "hot-water":
      return hotWaterProblems(load, inputs.profile, path);
    case "thermal-oil":
      return oilProblems(load, path);
    case "drying":
      return dryingProblems(load, inputs, path);
    case "desalination":
      return desalinationFaults(load, inputs, path);
    case "batch-drying":
      return batchProblems(load, path);
    default:
      return [];
  }
}

function batchProblems(load: LoadOf<"batch-drying">, path: string): Problem[] {
  const { heat_kWh_per_batch, product, power_kW, lasts_h } = load;
  if ((heat_kWh_per_batch === undefined) === (product === undefined))
    return [
      problem(
        "LOAD_BATCH_HEAT",
        `${path}/heat_kWh_per_batch`,
        product === undefined
          ? "A batch has neither its heat nor its product; one of the two is needed."
          : `A batch gives a heat of ${figure(heat_kWh_per_batch ?? 0)} kWh and a product too; leave one of them out.`,
      ),
    ];
  if (product !== undefined && !(product.moistureIn > product.moistureOut && product.moistureOut < 1))
    return [moistureProblem(product, `${path}/product/moistureOut`)];
  const heat_kWh = batchHeat_kWh(load);
  if (heat_kWh <= power_kW * lasts_h) return [];
  return [
    problem(
      "LOAD_BATCH_POWER",
      `${path}/power_kW`,
      `A batch of ${figure(heat_kWh)} kWh does not fit into ${lasts_h} h at ${figure(power_kW)} kW; ` +
        `at least ${figure(Math.ceil(heat_kWh / lasts_h))} kW are needed.`,
    ),
  ];
}

function moistureProblem(
  { moistureIn, moistureOut }: { readonly moistureIn: number; readonly moistureOut: number },
  path: string,
): Problem {
  return problem(
    "LOAD_MOISTURE",
    path,
    `The product leaves with a moisture of ${moistureOut} and enters with ${moistureIn} (wet basis); it must leave drier.`,
  );
}

function dryingProblems(load: LoadOf<"drying">, inputs: LoadFacts, path: string): Problem[] {
  const problems: Problem[] = [];
  if (!(load.moistureIn > load.moistureOut && load.moistureOut < 1))
    problems.push(moistureProblem(load, `${path}/moistureOut`));
  if (load.heatUse.by === "air" && inputs.profile !== null && inputs.weather !== undefined) {
    const specific = dryingNeeds(load.heatUse, inputs.weather).heat_kWh_kg;
    const unfit = inputs.profile.reduce(
      (count, wet, hour) => (wet > 0 && Number.isNaN(specific[hour]) ? count + 1 : count),
      0,
    );
    if (unfit > 0)
      problems.push(
        problem(
          "LOAD_AIR_TOO_HUMID",
          `${path}/heatUse`,
          `In ${figure(unfit)} h of the year that dry, outside air heated to ${figure(load.heatUse.air_C)} °C cannot take up water ` +
            `for ${highestDryingHeat_kWh_kg} kWh per kg or less; raise the drying air's temperature or the exhaust's relative humidity.`,
        ),
      );
  }
  return problems;
}

function ofNetwork(load: Load, inputs: LoadFacts, path: string): Problem[] {
  const network = inputs.network;
  const needed_C = loadSupply_C(load, network, inputs.elevation_m);
  // Pressures are often rounded to 0.1 bar, which moves saturation by less than half a kelvin above 3 bar.
  if (network === null || needed_C === null || needed_C <= network.supply_C + 0.5) return [];
  return [
    problem(
      "LOAD_NETWORK_TOO_COLD",
      `${path}/network`,
      `The load needs ${figure(needed_C, 1)} °C and its network ${network.id} supplies ${figure(network.supply_C, 1)} °C.`,
    ),
  ];
}
