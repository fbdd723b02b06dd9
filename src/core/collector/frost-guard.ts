import { hoursPerYear } from "../series.ts";
import type { Collector } from "../study/schema/collector.ts";
import type { Frost } from "../study/schema/frost.ts";
import type { WeatherYear } from "../weather.ts";
import { heatCapacity_kJ_m2K, lossFunction, seesSky } from "./heat-loss.ts";
import type { PipeBody } from "./pipe-body.ts";
import { skyExcess_W_m2 } from "./sky-radiation.ts";

/** What keeping a loop from freezing costs in a year, per m² of aperture. */
export interface GuardedYear {
  /** Useful heat of the collectors less what filling a drained loop costs. */
  readonly yield_kW_per_m2: Float64Array;
  /** Electricity that keeps the loop from falling below its least temperature. */
  readonly heating_kW_per_m2: Float64Array;
  readonly heating_kWh_per_m2: number;
  readonly refill_kWh_per_m2: number;
  /** Hours with that electricity. */
  readonly heatedHours: number;
  readonly drainings: number;
  readonly refillHours: number;
}

/** The year of the collectors in which the loop stands, runs and may freeze. */
export interface LoopYear {
  /** Useful heat of the collectors by hour. */
  readonly heat_kW_per_m2: Float64Array;
  readonly absorbed_W_m2: Float64Array;
  readonly onAperture_W_m2: Float64Array;
  readonly receiverBeam_W_m2?: Float64Array | null;
  readonly meanFluid_C: number;
  /** Null without field pipes. */
  readonly pipes: PipeBody | null;
}

/**
 * Collectors and pipes as one loop that must not fall below `keepAbove_C`, through the hours without useful heat.
 *
 * A loop that ran stands at the mean fluid temperature. Then it moves toward ambient + absorbed/U by the exact
 * exponential with U/C: U the loss per kelvin at the hour's first temperature, collector and pipes, C a5 and the pipes'
 * capacity. Where it would pass the least temperature within the hour, `electric` heats it for the rest of the hour
 * with loss − absorbed at that temperature, and `drain` empties it: no heating then, but the useful heat of the next
 * `refill_h` hours is lost. It starts the year at ambient, or at the least temperature where that is the higher.
 * Loss relations that do not know the air are taken at no less than their temperature above the air. Held heat is not
 * credited to the morning's warm-up. A least temperature above the mean fluid's counts as that.
 *
 * @returns new arrays of 8760 hours
 */
export function frostGuard(
  { by, keepAbove_C, refill_h = 1 }: Frost,
  { heatLoss }: Pick<Collector, "heatLoss">,
  loop: LoopYear,
  weather: WeatherYear,
): GuardedYear {
  const { heat_kW_per_m2, absorbed_W_m2, onAperture_W_m2, receiverBeam_W_m2, meanFluid_C, pipes } = loop;
  const { ambient_C, wind_m_s } = weather;
  const lossAt = lossFunction(heatLoss);
  const sky = seesSky(heatLoss) ? skyExcess_W_m2(weather) : null;
  const knowsAir = heatLoss.by !== "receiver-tube";
  const keep_C = Math.min(keepAbove_C, meanFluid_C);
  const capacity_Wh_m2K = heatCapacity_kJ_m2K(heatLoss) / 3.6 + (pipes?.capacity_Wh_m2K ?? 0);
  const loss_W_m2 = (loop_C: number, i: number) => {
    const ambient = ambient_C[i]!;
    const excess_K = Math.max(0, loop_C - ambient);
    const felt_C = knowsAir ? loop_C : Math.max(loop_C, excess_K);
    const beam = receiverBeam_W_m2?.[i];
    return (
      lossAt(felt_C, ambient, wind_m_s[i]!, onAperture_W_m2[i]!, sky?.[i], beam) +
      (pipes?.loss_W_m2K ?? 0) * excess_K
    );
  };

  const yield_kW_per_m2 = new Float64Array(hoursPerYear);
  const heating_kW_per_m2 = new Float64Array(hoursPerYear);
  let loop_C = Math.max(ambient_C[0]!, keep_C);
  let drained = by === "drain" && ambient_C[0]! < keep_C;
  let toFill_h = drained ? refill_h : 0;
  let heating = 0;
  let refill = 0;
  let refillHours = 0;
  let heatedHours = 0;
  let drainings = 0;
  for (let i = 0; i < hoursPerYear; i += 1) {
    const heat_kW = heat_kW_per_m2[i]!;
    const ambient = ambient_C[i]!;
    if (heat_kW !== 0) {
      if (toFill_h > 0) {
        toFill_h -= 1;
        refill += heat_kW;
        refillHours += 1;
        continue;
      }
      drained = false;
      loop_C = meanFluid_C;
      yield_kW_per_m2[i] = heat_kW;
      continue;
    }
    if (drained) {
      // A loop that was being filled when the sun went is drained again.
      if (ambient < keep_C) toFill_h = refill_h;
      continue;
    }
    const absorbed = absorbed_W_m2[i]!;
    // A loop as cold as the air or colder follows it as one a kelvin above it would.
    const above_C = Math.max(loop_C, ambient + 1);
    const perKelvin = loss_W_m2(above_C, i) / (above_C - ambient);
    if (perKelvin === 0) continue;
    const target_C = ambient + absorbed / perKelvin;
    const kept = capacity_Wh_m2K > 0 ? Math.exp(-perKelvin / capacity_Wh_m2K) : 0;
    const end_C = target_C + (loop_C - target_C) * kept;
    if (end_C >= keep_C) {
      loop_C = end_C;
      continue;
    }
    if (by === "drain") {
      drained = true;
      toFill_h = refill_h;
      drainings += 1;
      continue;
    }
    const free_h = (capacity_Wh_m2K / perKelvin) * Math.log((loop_C - target_C) / (keep_C - target_C));
    const needs_W = (1 - Math.min(1, free_h)) * Math.max(0, loss_W_m2(keep_C, i) - absorbed);
    loop_C = keep_C;
    if (!(needs_W > 0)) continue;
    heatedHours += 1;
    heating += needs_W;
    heating_kW_per_m2[i] = needs_W / 1000;
  }
  return {
    yield_kW_per_m2,
    heating_kW_per_m2,
    heating_kWh_per_m2: heating / 1000,
    refill_kWh_per_m2: refill,
    heatedHours,
    drainings,
    refillHours,
  };
}
