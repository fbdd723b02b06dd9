import { desalinationFaults } from "../../demand/loads/check-desalination.ts";
import { waterHeat } from "../../demand/loads/desalination.ts";
import type { Problem } from "../../problem.ts";
import type { LoadOf, Study } from "../schema/study.ts";

export const desalinationRemarkCodes = {
  REMARK_TOP_BRINE: "a top brine hotter than such plants run, so that scale forms",
  REMARK_WATER_HEAT: "the heat of a m³ lies outside what such plants use",
  REMARK_WATER_POWER: "the electricity of a m³ lies outside what such plants use",
  REMARK_ELECTRIC_EQUIVALENT: "a heat so small that it is usually an electricity equivalent",
} as const;

/*
 * Al-Karaghouli and Kazmerski, Renewable and Sustainable Energy Reviews 24 (2013) 343, from memory: flash
 * 190 to 282 MJ/m³, multi-effect 145 to 230, with vapour compression to 390; electricity 2.5 to 5 and 2 to 2.5
 * kWh/m³, here with a margin for intake and product pumps. Membrane distillation from memory of laboratory and pilot plants: 100 to 1000 kWh/m³.
 */
const usual = {
  "multi-effect": { name: "multi-effect plants", heat_kWh: [40, 109], power_kWh: [1, 4], top_C: 70 },
  "multi-stage-flash": { name: "multi-stage flash", heat_kWh: [52, 79], power_kWh: [2, 6], top_C: 120 },
  "membrane-distillation": {
    name: "membrane distillation",
    heat_kWh: [100, 1000],
    power_kWh: [0, 10],
    top_C: 90,
  },
} as const;

/** Below this no thermal plant is known to us; figures of 10 to 15 kWh/m³ are electricity equivalents. */
const leastHeat_kWh_m3 = 30;

/** What is odd about desalination loads without faults. */
export function desalinationRemarks({ loads, networks }: Study): Problem[] {
  return loads.flatMap((load, i) => {
    if (load.kind !== "desalination") return [];
    const network = networks.find(({ id }) => id === load.network);
    const path = `loads/${i}`;
    if (network === undefined || desalinationFaults(load, { network }, path).length > 0) return [];
    return ofLoad(load, waterHeat(load, network).months_kWh_m3, path);
  });
}

function ofLoad(load: LoadOf<"desalination">, months_kWh_m3: readonly number[], path: string): Problem[] {
  const remark = (code: keyof typeof desalinationRemarkCodes, at: string, message: string): Problem => ({
    code,
    message: `${load.name}: ${message}`,
    place: { path: `${path}/${at}` },
  });
  const words = (value: number) => String(Number(value.toPrecision(3)));
  const [least, most] = [Math.min(...months_kWh_m3), Math.max(...months_kWh_m3)];
  if (least < leastHeat_kWh_m3)
    return [
      remark(
        "REMARK_ELECTRIC_EQUIVALENT",
        "heatUse",
        `a heat of ${words(least)} kWh per m³ is less than any thermal plant uses; such figures are mostly electricity equivalents. Heat itself is needed here.`,
      ),
    ];
  if (load.plant === undefined) return [];
  const { name, heat_kWh, power_kWh, top_C } = usual[load.plant];
  const remarks: Problem[] = [];
  if (load.topBrine_C !== undefined && load.topBrine_C > top_C)
    remarks.push(
      remark(
        "REMARK_TOP_BRINE",
        "topBrine_C",
        `a top brine of ${words(load.topBrine_C)} °C is hotter than ${name} usually run (up to ${top_C} °C); scale forms on hot surfaces unless the feed is treated for it.`,
      ),
    );
  if (most < heat_kWh[0] || least > heat_kWh[1])
    remarks.push(
      remark(
        "REMARK_WATER_HEAT",
        "heatUse",
        `${words(most)} kWh of heat per m³ lies outside the ${heat_kWh[0]} to ${heat_kWh[1]} kWh that ${name} use; check the ratio, its convention and the unit.`,
      ),
    );
  const power = load.electricity_kWh_per_m3;
  if (power < power_kWh[0] || power > power_kWh[1])
    remarks.push(
      remark(
        "REMARK_WATER_POWER",
        "electricity_kWh_per_m3",
        `${words(power)} kWh of electricity per m³ lies outside the ${power_kWh[0]} to ${power_kWh[1]} kWh that ${name} use.`,
      ),
    );
  return remarks;
}
