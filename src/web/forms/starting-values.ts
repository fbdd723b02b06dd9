import type {
  Backup,
  Calendar,
  Chiller,
  Collector,
  Load,
  Network,
  Size,
  StepDown,
  Store,
  Study,
} from "../../core/study/schema/study.ts";
import { dayShift, startingCalendar } from "./starting-calendar.ts";
import { startingCooling } from "./starting-cooling.ts";
import { startingHotWater, startingOil, startingSteam } from "./starting-heat-loads.ts";
import { type ItemList, itemLists } from "./study-paths.ts";

/*
 * What a new item or a newly chosen variant starts from. These are the form's, not the model's: each
 * is marked as an assumption in the study until its owner confirms or replaces it. Common practice,
 * no source.
 */

/** Values for a variant of the union titled `title`; the caller keeps those that the variant knows. */
export function startingVariant(study: Study, title: string, tag: string): Record<string, unknown> {
  const ones = (count: number) => Array.from({ length: count }, () => 1);
  if (title === "Mount") return startingMount(study.site.latitude_deg);
  if (title === "Profile") {
    return { level: 100, calendar: study.calendars[0]?.id ?? "", unit: "kWh", baseShare: 0, bills: [] };
  }
  if (title === "Week") {
    return {
      shifts: [dayShift],
      between: 0,
      weekday: ones(24),
      saturday: ones(24),
      sunday: ones(24),
    };
  }
  if (title === "Optical efficiency") {
    return {
      opticalEfficiency: 0.7,
      filmTransmittance: 0.9,
      filmPasses: 1,
      reflectance: 0.9,
      intercept: 0.9,
      absorptance: 0.94,
    };
  }
  if (title === "Incidence angle modifier") {
    if (tag === "table") return { angles_deg: [0, 90], longitudinal: [1, 0] };
    return { b0: 0.1, coefficients: [0], containsCosine: false };
  }
  if (title === "Heat loss") {
    return {
      a1_W_m2K: 1,
      a2_W_m2K2: 0.005,
      linear_W_mK: 0.2,
      quartic_W_mK4: 1e-8,
      apertureWidth_m: 3,
    };
  }
  if (title === "Oil") return { heatCapacity_kJ_kgK: 2.2, highest_C: 320 };
  if (title === "Heat use") {
    return {
      performanceRatio: 9,
      convention: "2326-kJ-per-kg",
      heat_kWh_per_m3: 70,
      stages: 20,
      losses_K: 4,
      lastStageAboveSea_K: 8,
      heat_kWh_per_kgWater: 1,
      air_C: 80,
      exhaustRelativeHumidity: 0.6,
      heatLossShare: 0.1,
    };
  }
  return startingCooling(title);
}

/** Tilted by the latitude, by 15° less in the half year of summer and more in that of winter. */
function startingMount(latitude_deg: number): Record<string, unknown> {
  const northern = latitude_deg >= 0;
  const tilt = (by: number) => Math.max(0, Math.min(90, Math.round(Math.abs(latitude_deg)) + by));
  return {
    tilt_deg: 30,
    azimuth_deg: northern ? 180 : 0,
    tilts_deg: Array.from({ length: 12 }, (_, month) =>
      tilt((month >= 3 && month < 9) === northern ? -15 : 15),
    ),
    axisTilt_deg: 0,
    backtracking: false,
    leastTilt_deg: 20,
    mostTilt_deg: 80,
  };
}

const freeSize: Size = { choice: "free" };
const nothingNew: Size = { choice: "fixed", fixed: 0 };

type ItemOf = {
  networks: Network;
  calendars: Calendar;
  loads: Load;
  collectors: Collector;
  stores: Store;
  stepDowns: StepDown;
  chillers: Chiller;
  backups: Backup;
};

/** A new item of a list; `kind` says which where there are several; null where it cannot be made yet. */
export function startingItem<L extends ItemList>(study: Study, list: L, kind: string): ItemOf[L] | null {
  const made = makers[list](study, kind);
  return made as ItemOf[L] | null;
}

const makers: Readonly<Record<ItemList, (study: Study, kind: string) => object | null>> = {
  networks: (study): Network => ({
    id: freeId(study, "network"),
    name: "New heat network",
    carrier: "water",
    supply_C: 90,
    return_C: 70,
    exchangerApproach_K: 5,
  }),
  calendars: (study, kind) => startingCalendar(freeId(study, "calendar"), kind),
  loads: (study, kind) => startingLoad(study, kind),
  collectors: (study): Collector | null => {
    const network = study.networks[0];
    if (network === undefined) return null;
    return {
      id: freeId(study, "collector"),
      name: "New collector",
      networks: [network.id],
      mount: { type: "axis-north-south" },
      optics: { by: "measured", opticalEfficiency: 0.7 },
      modifier: { type: "none" },
      diffuseModifier: 0,
      groundCover: 0.4,
      rowShading: true,
      cleanliness: 0.95,
      heatLoss: { by: "iso-9806", a1_W_m2K: 1, a2_W_m2K2: 0.005 },
      highestOutlet_C: 250,
      storm: { stowWind_m_s: 14, backAfter_h: 1 },
      ageing_per_year: 0.01,
      parasitic_W_m2: 2,
      existing_m2: 0,
      size: freeSize,
      parts: [{ name: "Collector, installed", price_per_unit: 150, life_years: 20, upkeep_per_unit_year: 2 }],
    };
  },
  stores: (study, kind): Store | null => {
    const cold = kind === "cold";
    const network = study.networks[0];
    const load = study.loads.find((entry) => entry.kind === "cooling");
    if (cold ? load === undefined : network === undefined) return null;
    const hottest = network?.supply_C ?? 90;
    return {
      id: freeId(study, "store"),
      name: cold ? "New cold store" : "New store",
      ...(cold ? { load: load!.id } : { network: network!.id }),
      medium: cold
        ? "chilled-water"
        : hottest < 95
          ? "water"
          : hottest < 200
            ? "pressurised-water"
            : network?.carrier === "molten-salt"
              ? "molten-salt"
              : "thermal-oil",
      hot_C: cold ? 14 : hottest,
      cold_C: cold ? 6 : (network?.return_C ?? 70),
      usableShare: 0.9,
      chargeEfficiency: 1,
      dischargeEfficiency: 1,
      standingLoss_per_day: 0.02,
      existing_kWh: 0,
      size: freeSize,
      parts: [{ name: "Store, installed", price_per_unit: 30, life_years: 20, upkeep_per_unit_year: 0.3 }],
    };
  },
  stepDowns: (study): StepDown | null => {
    const byHeat = [...study.networks].sort((a, b) => b.supply_C - a.supply_C);
    if (byHeat.length < 2) return null;
    return {
      id: freeId(study, "step-down"),
      from: byHeat[0]!.id,
      to: byHeat[1]!.id,
      approach_K: 5,
      efficiency: 0.98,
      existing_kW: 0,
      size: freeSize,
      parts: [{ name: "Heat exchanger", price_per_unit: 30, life_years: 20, upkeep_per_unit_year: 0.3 }],
    };
  },
  chillers: (study): Chiller | null => {
    const load = study.loads.find((entry) => entry.kind === "cooling");
    const network = [...study.networks].sort((a, b) => a.supply_C - b.supply_C).find((n) => n.supply_C >= 80);
    if (load === undefined || network === undefined) return null;
    return {
      id: freeId(study, "chiller"),
      name: "New absorption chiller",
      load: load.id,
      network: network.id,
      effect: "single",
      cop: 0.7,
      drivingLeast_C: 80,
      electricity_kWh_per_kWh: 0.04,
      existing_kW: 0,
      size: freeSize,
      parts: [{ name: "Chiller, installed", price_per_unit: 350, life_years: 20, upkeep_per_unit_year: 4 }],
    };
  },
  backups: (study): Backup | null => {
    const network =
      study.networks.find(({ id }) => !study.backups.some((b) => b.network === id)) ?? study.networks[0];
    if (network === undefined) return null;
    return {
      id: freeId(study, "backup"),
      name: "New boiler",
      network: network.id,
      fuel: { kind: "natural-gas", price_per_kWh: 0.05, heatingValue: "net", escalation_per_year: 0 },
      efficiency: 0.88,
      mayCharge: false,
      size: nothingNew,
      parts: [],
    };
  },
};

function startingLoad(study: Study, kind: string): Load | null {
  const id = freeId(study, kind);
  const network = study.networks[0]?.id;
  if (kind === "cooling") {
    const coldSupply_C = 7;
    const electricChiller = { cop: 3.5 };
    return { kind, id, name: "New cooling load", cold_kW: constant(100), coldSupply_C, electricChiller };
  }
  if (network === undefined) return null;
  switch (kind) {
    case "process-heat":
      return { kind, id, name: "New process heat", network, heat_kW: constant(100) };
    case "steam":
      return startingSteam(study, id);
    case "hot-water":
      return startingHotWater(study, id);
    case "thermal-oil":
      return startingOil(study, id);
    case "desalination":
      return {
        kind,
        id,
        name: "New desalination",
        network,
        order_m3_per_day: 100,
        capacity_m3_h: 6,
        heatUse: { by: "specific-heat", heat_kWh_per_m3: 70 },
        electricity_kWh_per_m3: 2,
        tank_m3: 100,
      };
    case "drying":
      return {
        kind,
        id,
        name: "New drying",
        network,
        wetProduct_kg_h: constant(500),
        moistureIn: 0.6,
        moistureOut: 0.12,
        heatUse: { by: "specific-heat", heat_kWh_per_kgWater: 1 },
      };
    case "batch-drying":
      return {
        kind,
        id,
        name: "New batch drying",
        network,
        heat_kWh_per_batch: 1000,
        opens_h: 6,
        lasts_h: 12,
        power_kW: 200,
        weekdays: [1, 2, 3, 4, 5],
      };
    default:
      return null;
  }
}

function constant(level: number) {
  return { from: "constant" as const, level };
}

/** `base`, or `base-2`, `base-3` … where that is the id of anything in the study. */
export function freeId(study: Study, base: string): string {
  const taken = new Set(itemLists.flatMap((list) => study[list].map(({ id }) => id)));
  if (!taken.has(base)) return base;
  for (let number = 2; ; number += 1) if (!taken.has(`${base}-${number}`)) return `${base}-${number}`;
}
