import type { Problem } from "../problem.ts";
import type { Chiller } from "../study/schema/chiller.ts";
import type { ByTemperature } from "../study/schema/chiller-temperatures.ts";
import { characteristicDifference_K, characteristicPowers, type MeanTemperatures } from "./characteristic.ts";
import { coefficientsOf, ratedMeans, serviceMeans } from "./chiller-year.ts";
import { leastEntering_C } from "./cooling-water.ts";
import { reversibleCop } from "./reversible-cop.ts";

export const chillerFaultProblems = {
  CHILLER_BROMIDE_COLD:
    "a chiller with water and lithium bromide makes cold above the freezing of its water only",
  CHILLER_TEMPERATURE_ORDER: "driving heat must be hotter than cooling water, and that warmer than the cold",
  CHILLER_DRIVING_MEAN: "the mean driving temperature cannot lie above its network's supply",
  CHILLER_BEYOND_REVERSIBLE: "a COP cannot lie above the reversible limit at the temperatures given with it",
  CHILLER_COEFFICIENTS: "the characteristic equation needs coefficients of a machine of the same kind",
  CHILLER_POINTS: "points must stand by rising cooling water",
} as const;

/** Water is the refrigerant there; common practice is 4 to 5 °C at least, no source. */
const leastBromideCold_C = 4;

/** Faults of a chiller that stop the work; all at once. */
export function chillerFaults(
  chiller: Chiller,
  coldSupply_C: number,
  networkSupply_C: number,
  path: string,
): Problem[] {
  const { effect, byTemperature } = chiller;
  const problems: Problem[] = [];
  const add = (code: keyof typeof chillerFaultProblems, field: string, message: string) =>
    problems.push({ code, message, place: { path: `${path}/${field}` } });
  if ((effect === "single" || effect === "double") && !(coldSupply_C >= leastBromideCold_C))
    add(
      "CHILLER_BROMIDE_COLD",
      "effect",
      `Single- and double-effect chillers here work with water and lithium bromide and freeze below about ${leastBromideCold_C} °C, and the load wants cold of ${coldSupply_C} °C; choose ammonia–water (or "other") with its own COP, or warmer cold.`,
    );
  if (byTemperature === undefined) return problems;
  const group = "byTemperature";
  if (!(byTemperature.drivingMean_C <= networkSupply_C))
    add(
      "CHILLER_DRIVING_MEAN",
      `${group}/drivingMean_C`,
      `The mean driving temperature is ${byTemperature.drivingMean_C} °C and the network supplies ${networkSupply_C} °C; the mean must not lie above the supply.`,
    );
  const coldest = serviceMeans(byTemperature, coldSupply_C, leastEntering_C(byTemperature.coolingWater));
  const inService = orderFault(coldest);
  if (inService !== null)
    add(
      "CHILLER_TEMPERATURE_ORDER",
      `${group}/coolingWater`,
      `In service, at the coolest water: ${inService}`,
    );
  problems.push(
    ...(byTemperature.by === "characteristic"
      ? characteristicFaults(chiller, byTemperature, `${path}/${group}`)
      : pointFaults(byTemperature, coldSupply_C, `${path}/${group}`)),
  );
  return problems;
}

function orderFault({ driving_C, coolingWater_C, cold_C }: MeanTemperatures): string | null {
  if (!(coolingWater_C < driving_C))
    return `the driving heat has ${driving_C} °C and the cooling water ${coolingWater_C} °C on the mean; the heat must be hotter.`;
  if (!(cold_C < coolingWater_C))
    return `the cooling water has ${coolingWater_C} °C and the cold ${cold_C} °C on the mean; the water must be warmer (else cool with it directly).`;
  return null;
}

function characteristicFaults(
  { cop, effect }: Chiller,
  given: Extract<ByTemperature, { by: "characteristic" }>,
  path: string,
): Problem[] {
  const at = ratedMeans(given);
  const order = orderFault(at);
  if (order !== null)
    return [
      {
        code: "CHILLER_TEMPERATURE_ORDER",
        message: `At the rated point ${order}`,
        place: { path: `${path}/ratedCoolingWater_C` },
      },
    ];
  const problems: Problem[] = [];
  const limit = reversibleCop(at.driving_C, at.coolingWater_C, at.cold_C);
  if (!(cop <= limit)) problems.push(beyond(cop, limit, at, path.replace(/byTemperature$/, "cop")));
  if (effect !== "single" && given.coefficients === undefined) {
    problems.push({
      code: "CHILLER_COEFFICIENTS",
      message: `The coefficients that are taken where none are given belong to a single-effect machine; this one is ${effect}: give its own coefficients, or points of its data sheet.`,
      place: { path: `${path}/coefficients` },
    });
    return problems;
  }
  const { cold_kW, heat_kW } = characteristicPowers(
    coefficientsOf(given),
    characteristicDifference_K(coefficientsOf(given), at),
  );
  if (!(cold_kW > 0 && heat_kW > 0))
    problems.push({
      code: "CHILLER_COEFFICIENTS",
      message: `At the rated temperatures the characteristic equation gives ${cold_kW.toFixed(2)} kW of cold from ${heat_kW.toFixed(2)} kW of heat; both must be above 0, so check the coefficients and the rated temperatures.`,
      place: { path: `${path}/coefficients` },
    });
  return problems;
}

function pointFaults(
  given: Extract<ByTemperature, { by: "points" }>,
  coldSupply_C: number,
  path: string,
): Problem[] {
  return given.points.flatMap(({ coolingIn_C, cop }, i): Problem[] => {
    const before = given.points[i - 1];
    if (before !== undefined && !(coolingIn_C > before.coolingIn_C))
      return [
        {
          code: "CHILLER_POINTS",
          message: `The point at ${coolingIn_C} °C follows one at ${before.coolingIn_C} °C; points must stand by rising cooling water.`,
          place: { path: `${path}/points/${i}/coolingIn_C` },
        },
      ];
    const at = serviceMeans(given, coldSupply_C, coolingIn_C);
    const limit = reversibleCop(at.driving_C, at.coolingWater_C, at.cold_C);
    return cop <= limit ? [] : [beyond(cop, limit, at, `${path}/points/${i}/cop`)];
  });
}

function beyond(
  cop: number,
  limit: number,
  { driving_C, coolingWater_C, cold_C }: MeanTemperatures,
  path: string,
): Problem {
  return {
    code: "CHILLER_BEYOND_REVERSIBLE",
    message: `A COP of ${cop} lies above the reversible limit of ${limit.toFixed(2)} for heat of ${driving_C} °C, cooling water of ${coolingWater_C} °C and cold of ${cold_C} °C on the mean; no machine can reach it.`,
    place: { path },
  };
}
