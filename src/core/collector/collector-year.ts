import type { Collector } from "../study/schema/collector.ts";
import type { SunYear } from "../sun/sun-year.ts";
import type { WeatherYear } from "../weather.ts";
import { absorbedYear, type OpticalLosses } from "./absorbed-year.ts";
import { meanFilmState } from "./film-state.ts";
import { frostGuard } from "./frost-guard.ts";
import { perAperture } from "./per-aperture.ts";
import { pipeBody } from "./pipe-body.ts";
import { pipedHeat } from "./piped-heat.ts";
import { runningPower } from "./running-power.ts";
import { usefulHeat } from "./useful-heat.ts";

/** Sun and weather of a site. */
export interface CollectorClimate {
  readonly latitude_deg: number;
  readonly sun: SunYear;
  readonly weather: WeatherYear;
}

/**
 * Where a year's light goes, kWh per m² of aperture: dni + diffuse on the aperture − all losses = useful, to
 * rounding. `modifier` may lie below 0 (a gain).
 */
export interface CollectorLosses extends OpticalLosses {
  /** Absorbed in hours of less light than the loop is started for. */
  readonly tooWeak: number;
  /** While running, and absorbed heat too weak to reach the temperature. */
  readonly heatLoss: number;
  readonly warmUp: number;
  /** Heat of the hours in which a loop drained for frost is filled again. */
  readonly frost: number;
  /** From the field's pipes while hot, and heat too little to bring them to their temperature. */
  readonly pipes: number;
  /** Heat that brings the pipes back to their temperature. */
  readonly pipeWarmUp: number;
}

/** What keeps a loop from freezing, through a year. */
export interface FrostFigures {
  /** Electricity, part of the parasitic. */
  readonly heating_kWh_per_m2: number;
  readonly heatedHours: number;
  readonly drainings: number;
}

/** A collector's year at one pair of temperatures. */
export interface CollectorLevel {
  readonly meanFluid_C: number;
  /** At the far end of the field's pipes. */
  readonly yield_kW_per_m2: Float64Array;
  readonly useful_kWh_per_m2: number;
  /** Hours in which useful heat arrives. */
  readonly runningHours: number;
  /** Electricity, whether or not the heat is used. */
  readonly parasitic_kW_per_m2: Float64Array;
  readonly parasitic_kWh_per_m2: number;
  /** Null where nothing keeps the loop from freezing. */
  readonly frost: FrostFigures | null;
  readonly losses: CollectorLosses;
}

/** A collector's year at a site, per m² of aperture. */
export interface CollectorYear {
  /** After the optics, of the share of the field that is in use. */
  readonly absorbed_W_m2: Float64Array;
  readonly dni_kWh_per_m2: number;
  readonly beamOnAperture_kWh_per_m2: number;
  /** 0 for collectors that use beam only. */
  readonly diffuseOnAperture_kWh_per_m2: number;
  readonly stowedHours: number;
  readonly stowedSunlitHours: number;
  /** Light on the aperture while stowed, of what is in use. */
  readonly stormLoss_kWh_per_m2: number;
  /** In the order of the levels asked for. */
  readonly levels: readonly CollectorLevel[];
}

/**
 * Hourly useful heat of a collector at a site, for each pair of collector temperatures: light, optics, storm,
 * heat loss at the mean fluid temperature, warm-up, days out of use (docs/methods/collector.md), frost and the field's pipes
 * (docs/methods/field-pipes.md). It does not know whether a collector may run so hot (`canServe`), and does not
 * spread the field's load over its length.
 *
 * @param options.filmState optical efficiency over that of a new film, one for the year or one for each month; the mean over the film's life if left out
 * @returns arrays of 8760 hours, new
 */
export function collectorYear(
  given: Collector,
  climate: CollectorClimate,
  levels: readonly { readonly collectorIn_C: number; readonly collectorOut_C: number }[],
  options: { readonly filmState?: number | Float64Array } = {},
): CollectorYear {
  const collector = perAperture(given);
  const { availability = 1, frost } = collector;
  const light = absorbedYear(collector, climate, options.filmState ?? meanFilmState(collector));
  return {
    absorbed_W_m2: light.absorbed_W_m2,
    dni_kWh_per_m2: light.dni_kWh_per_m2,
    beamOnAperture_kWh_per_m2: light.beamOnAperture_kWh_per_m2,
    diffuseOnAperture_kWh_per_m2: light.diffuseOnAperture_kWh_per_m2,
    stowedHours: light.stowedHours,
    stowedSunlitHours: light.stowedSunlitHours,
    stormLoss_kWh_per_m2: light.losses.storm,
    levels: levels.map(({ collectorIn_C, collectorOut_C }) => {
      const meanFluid_C = (collectorIn_C + collectorOut_C) / 2;
      const heat = usefulHeat(collector, light, climate.weather, meanFluid_C);
      const gain_kW_per_m2 =
        availability === 1 ? heat.yield_kW_per_m2 : heat.yield_kW_per_m2.map((each) => availability * each);
      const pipes = collector.pipes === undefined ? null : pipeBody(collector.pipes, meanFluid_C);
      const loop = { ...light, heat_kW_per_m2: gain_kW_per_m2, meanFluid_C, pipes };
      const guard = frost === undefined ? null : frostGuard(frost, collector, loop, climate.weather);
      const filled_kW_per_m2 = guard?.yield_kW_per_m2 ?? gain_kW_per_m2;
      // The pipes are those of the whole field, however much of it is in use.
      const piped =
        pipes === null ? null : pipedHeat(filled_kW_per_m2, climate.weather.ambient_C, meanFluid_C, pipes);
      const refill_kWh_per_m2 = guard?.refill_kWh_per_m2 ?? 0;
      // Pumps also run in hours whose heat only fills the loop or warms the pipes.
      const power = runningPower(collector, {
        ...light,
        yield_kW_per_m2: gain_kW_per_m2,
        sunlitShare: climate.sun.sunlitShare,
      });
      return {
        meanFluid_C,
        yield_kW_per_m2: piped?.yield_kW_per_m2 ?? filled_kW_per_m2,
        useful_kWh_per_m2:
          piped?.useful_kWh_per_m2 ?? availability * heat.useful_kWh_per_m2 - refill_kWh_per_m2,
        runningHours: piped?.runningHours ?? heat.runningHours - (guard?.refillHours ?? 0),
        parasitic_kW_per_m2:
          guard === null
            ? power.parasitic_kW_per_m2
            : power.parasitic_kW_per_m2.map((drawn, i) => drawn + guard.heating_kW_per_m2[i]!),
        parasitic_kWh_per_m2: power.parasitic_kWh_per_m2 + (guard?.heating_kWh_per_m2 ?? 0),
        frost:
          guard === null
            ? null
            : {
                heating_kWh_per_m2: guard.heating_kWh_per_m2,
                heatedHours: guard.heatedHours,
                drainings: guard.drainings,
              },
        losses: {
          ...light.losses,
          tooWeak: availability * heat.tooWeak_kWh_per_m2,
          heatLoss: availability * heat.heatLoss_kWh_per_m2,
          warmUp: availability * heat.warmUp_kWh_per_m2,
          frost: refill_kWh_per_m2,
          pipes: piped?.pipes_kWh_per_m2 ?? 0,
          pipeWarmUp: piped?.pipeWarmUp_kWh_per_m2 ?? 0,
        },
      };
    }),
  };
}
