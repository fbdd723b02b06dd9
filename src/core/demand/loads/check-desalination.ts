import type { Problem } from "../../problem.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import type { LoadFacts } from "./check-load.ts";
import { figure } from "./figure.ts";

export const desalinationProblems = {
  LOAD_DRAW_SHARES: "at least one hour of the day must draw water",
  LOAD_STEAM_TEMPERATURE: "the heating steam of a desalination plant must lie between 0 and 350 °C",
  LOAD_WATER_CAPACITY: "a desalination plant must be able to make the day's order in a day",
  LOAD_FLASH_STAGES: "flash stages need a top brine and sea water, and a brine that cools",
  LOAD_SEAWATER: "sea water must leave a heat use above a fifth of the one given",
} as const;

type Desalination = LoadOf<"desalination">;

function problem(code: keyof typeof desalinationProblems, path: string, message: string): Problem {
  return { code, message, place: { path } };
}

/** Every fault of a desalination load by itself. */
export function desalinationFaults(
  load: LoadOf<"desalination">,
  inputs: Pick<LoadFacts, "network">,
  path: string,
): Problem[] {
  const problems: Problem[] = [];
  if (load.drawShares !== undefined && !(Math.max(...load.drawShares) > 0))
    problems.push(
      problem(
        "LOAD_DRAW_SHARES",
        `${path}/drawShares`,
        "All draw shares are 0; at least one hour must draw.",
      ),
    );
  const use = load.heatUse;
  const steam_C = use.by === "performance-ratio" ? (use.steam_C ?? inputs.network?.supply_C) : undefined;
  if (
    use.by === "performance-ratio" &&
    use.convention === "latent-heat" &&
    steam_C !== undefined &&
    !(steam_C <= 350)
  )
    problems.push(
      problem(
        "LOAD_STEAM_TEMPERATURE",
        `${path}/heatUse/steam_C`,
        `The network's ${figure(steam_C)} °C stand for the heating steam and have no latent heat; give steam_C of 350 °C or less.`,
      ),
    );
  const busiest = load.order_m3_per_day * Math.max(...(load.orderMonths ?? [1]));
  if (busiest > load.capacity_m3_h * 24 * (1 + 1e-9))
    problems.push(
      problem(
        "LOAD_WATER_CAPACITY",
        `${path}/capacity_m3_h`,
        `The order reaches ${figure(busiest)} m³ a day, and the plant can make ${figure(load.capacity_m3_h * 24)} m³ a day.`,
      ),
    );
  if (use.by === "flash-stages") problems.push(...flashFaults(load, use, path));
  else if (load.seawater !== undefined) problems.push(...seawaterFaults(load.seawater, path));
  return problems;
}

function flashFaults(
  { topBrine_C, seawater }: Desalination,
  use: Extract<Desalination["heatUse"], { by: "flash-stages" }>,
  path: string,
): Problem[] {
  const problems: Problem[] = [];
  if (topBrine_C === undefined)
    problems.push(
      problem(
        "LOAD_FLASH_STAGES",
        `${path}/topBrine_C`,
        "Heat by flash stages needs the temperature of the top brine; none is given.",
      ),
    );
  if (seawater === undefined)
    problems.push(
      problem(
        "LOAD_FLASH_STAGES",
        `${path}/seawater/months_C`,
        "Heat by flash stages needs the sea water's temperature in twelve months; none is given.",
      ),
    );
  if (topBrine_C === undefined || seawater === undefined) return problems;
  const last_C = Math.max(...seawater.months_C) + use.lastStageAboveSea_K;
  // Below one loss in range the stages would give no more than the losses take.
  if (!(topBrine_C - last_C > use.losses_K))
    problems.push(
      problem(
        "LOAD_FLASH_STAGES",
        `${path}/topBrine_C`,
        `The brine flashes from ${figure(topBrine_C, 1)} °C to ${figure(last_C, 1)} °C in the warmest month, which its losses of ${figure(use.losses_K, 1)} K use up; a hotter brine is needed.`,
      ),
    );
  return problems;
}

/** A slope may not make the heat vanish in any month. */
function seawaterFaults(
  { months_C, reference_C, heatChange_per_K = 0 }: NonNullable<Desalination["seawater"]>,
  path: string,
): Problem[] {
  const reference = reference_C ?? months_C.reduce((total, sea_C) => total + sea_C, 0) / 12;
  const least = Math.min(...months_C.map((sea_C) => 1 + heatChange_per_K * (sea_C - reference)));
  if (least >= 0.2) return [];
  return [
    problem(
      "LOAD_SEAWATER",
      `${path}/seawater/heatChange_per_K`,
      `A change of ${figure(100 * heatChange_per_K, 1)} % per K leaves ${figure(100 * least)} % of the heat in one month; at least 20 % must be left.`,
    ),
  ];
}
