import type { Problem } from "../../problem.ts";
import { saturatedLiquidEnthalpy_kJ_kg, saturationTemperature_C } from "../../steam/if97.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import { figure } from "./figure.ts";
import { steamHeat, steamPressure_bar } from "./steam.ts";

/** What the water and steam round a boiler must keep to, beside the codes of check-load.ts. */
export const steamLoadProblems = {
  LOAD_STEAM_QUALITY: "steam is either superheated or wet, and at most 800 °C hot",
  LOAD_FLASH_PRESSURE: "water flashes where the pressure falls, at 0.00612 bar absolute or more",
  LOAD_BLOW_DOWN:
    "blow-down drains no hotter than it boils and no cooler than the make-up water that cools it",
  LOAD_FEED_BOILS: "what is recovered must not boil the feed water, nor vent more than it holds",
} as const;

type Code = keyof typeof steamLoadProblems | "LOAD_STEAM_PRESSURE" | "LOAD_CONDENSATE_TEMPERATURE";
type SteamLoad = LoadOf<"steam">;
const highest_C = 800;
const lowest_bar = 0.00612;

/** Every fault of a steam load in itself, at once. `path` is its place in the study. */
export function steamProblems(load: SteamLoad, elevation_m: number, path: string): Problem[] {
  const problems: Problem[] = [];
  const fault = (code: Code, column: string, message: string) => {
    problems.push({ code, message, place: { path: `${path}/${column}` } });
  };
  const absolute_bar = (pressure_bar: number) =>
    steamPressure_bar({ pressure_bar, pressureIs: load.pressureIs }, elevation_m);
  const pressure_bar = absolute_bar(load.pressure_bar);
  if (!(pressure_bar >= lowest_bar && pressure_bar <= 165)) {
    fault(
      "LOAD_STEAM_PRESSURE",
      "pressure_bar",
      `Steam of ${figure(pressure_bar, 3)} bar absolute lies outside 0.00612 to 165 bar.`,
    );
    return problems;
  }
  const boiling_C = saturationTemperature_C(pressure_bar);
  const tooHot = (name: string, column: string, temperature_C: number) =>
    fault(
      "LOAD_CONDENSATE_TEMPERATURE",
      column,
      `${name} of ${figure(temperature_C, 1)} °C would boil at the steam's ${figure(pressure_bar, 2)} bar absolute; at most ${figure(boiling_C, 1)} °C is allowed.`,
    );
  if (load.condensateReturnShare > 0 && load.condensateReturn_C > boiling_C)
    tooHot("Condensate", "condensateReturn_C", load.condensateReturn_C);
  if ((load.condensateReturnShare < 1 || losesWater(load)) && load.makeUp_C > boiling_C)
    tooHot("Make-up water", "makeUp_C", load.makeUp_C);

  const { superheat_K = 0, dryness = 1, condensateFlash, blowDown } = load;
  if (superheat_K > 0 && dryness < 1)
    fault(
      "LOAD_STEAM_QUALITY",
      "dryness",
      `Steam with ${figure(superheat_K, 1)} K of superheat cannot be wet (dryness ${dryness}); leave one of them out.`,
    );
  if (boiling_C + superheat_K > highest_C)
    fault(
      "LOAD_STEAM_QUALITY",
      "superheat_K",
      `Steam of ${figure(boiling_C + superheat_K)} °C lies beyond ${highest_C} °C; at most ${figure(Math.floor(highest_C - boiling_C))} K of superheat is allowed.`,
    );
  // Where a vessel's pressure is at fault, its temperature says nothing.
  const flashes = (name: string, column: string, vessel_bar: number): boolean => {
    if (vessel_bar >= lowest_bar && vessel_bar < pressure_bar) return true;
    fault(
      "LOAD_FLASH_PRESSURE",
      column,
      `${name} of ${figure(pressure_bar, 2)} bar absolute cannot flash at ${figure(vessel_bar, 3)} bar absolute; the lower pressure must lie between ${lowest_bar} and ${figure(pressure_bar, 2)} bar.`,
    );
    return false;
  };
  if (condensateFlash !== undefined) {
    const vessel_bar = absolute_bar(condensateFlash.pressure_bar);
    if (flashes("Condensate", "condensateFlash/pressure_bar", vessel_bar)) {
      const vessel_C = saturationTemperature_C(vessel_bar);
      if (load.condensateReturnShare > 0 && load.condensateReturn_C > vessel_C + 0.05)
        fault(
          "LOAD_CONDENSATE_TEMPERATURE",
          "condensateReturn_C",
          `Condensate that has flashed at ${figure(vessel_bar, 2)} bar absolute is at most ${figure(vessel_C, 1)} °C hot, and ${figure(load.condensateReturn_C, 1)} °C are given.`,
        );
    }
  }
  if (blowDown !== undefined) {
    const vessel_bar =
      blowDown.flashPressure_bar === undefined ? pressure_bar : absolute_bar(blowDown.flashPressure_bar);
    const fits =
      blowDown.flashPressure_bar === undefined ||
      flashes("Blow-down", "blowDown/flashPressure_bar", vessel_bar);
    if (fits && blowDown.drain_C !== undefined) {
      const drain_C = saturationTemperature_C(vessel_bar);
      if (!(blowDown.drain_C <= drain_C && blowDown.drain_C >= load.makeUp_C))
        fault(
          "LOAD_BLOW_DOWN",
          "blowDown/drain_C",
          `Blow-down drained at ${figure(blowDown.drain_C, 1)} °C must lie between the make-up water's ${figure(load.makeUp_C, 1)} °C, which cools it, and its own ${figure(drain_C, 1)} °C.`,
        );
    }
  }
  if (problems.length === 0) problems.push(...balanceProblems(load, elevation_m, path, boiling_C));
  return problems;
}

function losesWater({ condensateFlash, blowDown, ventShareOfFeed }: SteamLoad): boolean {
  return condensateFlash?.steamIs === "vented" || blowDown !== undefined || (ventShareOfFeed ?? 0) > 0;
}

/** What only the balance of the whole boiler house shows. */
function balanceProblems(load: SteamLoad, elevation_m: number, path: string, boiling_C: number): Problem[] {
  const { water } = steamHeat(load, elevation_m);
  const problem = (code: Code, column: string, message: string): Problem => ({
    code,
    message,
    place: { path: `${path}/${column}` },
  });
  const boiling_kJ_kg = saturatedLiquidEnthalpy_kJ_kg(boiling_C);
  const extras = load.blowDown !== undefined || load.condensateFlash !== undefined || load.ventShareOfFeed;
  if (extras && !(water.feed_kJ_kg <= boiling_kJ_kg * (1 + 1e-9)))
    return [
      problem(
        "LOAD_FEED_BOILS",
        load.blowDown === undefined ? "condensateFlash" : "blowDown",
        `What comes back would make the feed water boil at the steam's pressure (${figure(water.feed_kJ_kg)} kJ/kg against ${figure(boiling_kJ_kg)}); vent the flash steam or return cooler condensate.`,
      ),
    ];
  if (extras && !(water.feed_kJ_kg > 0))
    return [
      problem(
        "LOAD_FEED_BOILS",
        "ventShareOfFeed",
        "The vented steam carries more heat than all that comes back to the feed water; vent less.",
      ),
    ];
  return [];
}
