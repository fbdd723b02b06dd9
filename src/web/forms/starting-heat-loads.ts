import { steamPressure_bar } from "../../core/demand/loads/steam.ts";
import { saturationPressure_bar, saturationTemperature_C } from "../../core/steam/if97.ts";
import type { LoadOf, Network, Study } from "../../core/study/schema/study.ts";

const constant = (level: number) => ({ from: "constant" as const, level });

/** Steam on a steam network, or else the hottest, at a pressure that it can supply. */
export function startingSteam(study: Study, id: string): LoadOf<"steam"> | null {
  const network = networkFor(study, "steam");
  if (network === undefined) return null;
  const usual = { pressure_bar: 6, pressureIs: "gauge" as const };
  const fits = saturationTemperature_C(steamPressure_bar(usual, study.site.elevation_m)) <= network.supply_C;
  const within_bar = Math.floor(10 * saturationPressure_bar(Math.min(350, network.supply_C))) / 10;
  const pressure = fits
    ? usual
    : { pressure_bar: Math.max(0.01, within_bar), pressureIs: "absolute" as const };
  return {
    kind: "steam",
    id,
    name: "New steam load",
    network: network.id,
    flow_kg_h: constant(500),
    ...pressure,
    condensateReturn_C: Math.min(90, Math.floor(network.supply_C) - 5),
    condensateReturnShare: 0.8,
    makeUp_C: 20,
  };
}

/** Washing water from the coolest network that can heat it. */
export function startingHotWater(study: Study, id: string): LoadOf<"hot-water"> | null {
  const use_C = 60;
  const byHeat = [...study.networks].sort((a, b) => a.supply_C - b.supply_C);
  const network = byHeat.find(({ supply_C }) => supply_C >= use_C) ?? byHeat.at(-1);
  if (network === undefined) return null;
  return {
    kind: "hot-water",
    id,
    name: "New hot water",
    network: network.id,
    draw_m3_h: constant(1),
    use_C: Math.min(use_C, network.supply_C),
    coldWater_C: 15,
    tank_m3: 10,
    heater_kW: 100,
  };
}

/** A consumer on an oil network, or else the hottest. */
export function startingOil(study: Study, id: string): LoadOf<"thermal-oil"> | null {
  const network = networkFor(study, "thermal-oil");
  if (network === undefined) return null;
  const in_C = Math.min(390, network.supply_C);
  return {
    kind: "thermal-oil",
    id,
    name: "New thermal oil load",
    network: network.id,
    flow: constant(10_000),
    flowIs: "kg/h",
    in_C,
    out_C: Math.max(12, in_C - 40),
    oil: { by: "eutectic" },
  };
}

function networkFor({ networks }: Study, carrier: Network["carrier"]): Network | undefined {
  const hottest = [...networks].sort((a, b) => b.supply_C - a.supply_C);
  return hottest.find((network) => network.carrier === carrier) ?? hottest[0];
}
