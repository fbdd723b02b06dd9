import { standardPressure_Pa } from "../air/psychrometrics.ts";
import { collectorLevel } from "../collector/network-levels.ts";
import { saturationTemperature_C } from "../steam/if97.ts";
import type { Chiller, Collector, Study } from "../study/schema/study.ts";

export { notIncluded } from "./not-included.ts";

/** A usual hazard of plant that the study holds. It is a reminder, never a complete safety review. */
export interface Caution {
  readonly id: string;
  readonly title: string;
  readonly sentence: string;
  /** Who must check before anything is built. */
  readonly whoMustCheck: string;
  /** What in the study brings it, in a sentence. */
  readonly appliesBecause: string;
}

/** Where the cautions end and licensed practice begins. */
export const deferenceSentence =
  "These are the usual cautions and not a safety review: local codes and licensed practice decide, and before " +
  "anything is built licensed engineers, the pressure-equipment inspector, the fire authority and, where glare " +
  "matters, the aviation authority must check the design.";

/**
 * The usual cautions for what the study holds, each only where it applies, the gravest first. They are
 * common practice, no source, unless their sentence names one. Nothing here says that plant is safe.
 */
export function cautionsFor(study: Study): Caution[] {
  return hazards.flatMap(({ because, ...hazard }) => {
    const found = because(study);
    return found.length === 0 ? [] : [{ ...hazard, appliesBecause: `The study has ${listed(found)}.` }];
  });
}

interface Hazard extends Omit<Caution, "appliesBecause"> {
  /** What the study has of it, as phrases; none where it does not apply. */
  readonly because: (study: Study) => string[];
}

const hazards: readonly Hazard[] = [
  {
    id: "hot-oil",
    title: "Hot thermal oil",
    sentence:
      "Hot oil burns skin deeply, its vapour forms mist that explodes, a leak into insulation can catch fire by " +
      "itself below the auto-ignition temperature of the maker's sheet, and oil ages: sample it, keep its flash " +
      "point and air away, and plan for fire and spill.",
    whoMustCheck: "A licensed engineer, the fire authority and the pressure-equipment inspector.",
    because: ({ networks, stores, loads }) => [
      ...networks.filter((n) => n.carrier === "thermal-oil").map((n) => `thermal oil in ${n.name}`),
      ...loads
        .filter((l) => l.kind === "thermal-oil")
        .map((l) =>
          l.oil.by === "data-sheet" && l.oil.flash_C !== undefined && l.in_C > l.oil.flash_C
            ? `oil at ${l.in_C} °C in ${l.name}, above its flash point of ${l.oil.flash_C} °C`
            : `oil at ${l.in_C} °C in ${l.name}`,
        ),
      ...stores
        .filter((s) => s.medium === "thermal-oil" || s.medium === "oil-rock")
        .map((s) => `thermal oil in ${s.name}`),
    ],
  },
  {
    id: "steam-pressure",
    title: "Steam and pressurised water",
    sentence:
      "Steam and water above its boiling point scald and, when a vessel or pipe fails, flash with the force of an " +
      "explosion: relief valves, water hammer, low-water protection and periodic inspection are a matter of law " +
      "in most places.",
    whoMustCheck: "A licensed engineer and the pressure-equipment inspector.",
    because: underPressure,
  },
  {
    id: "molten-salt",
    title: "Molten salt",
    sentence:
      "Nitrate salt freezes at some 220 to 240 °C and blocks pipes, burns skin at once, and is an oxidiser that " +
      "makes oil, wood and rags burn fiercely; water in it erupts as steam, and overheated salt gives off " +
      "poisonous gases.",
    whoMustCheck: "A licensed engineer with practice in salt, and the fire authority.",
    because: ({ networks, stores }) => [
      ...networks.filter((n) => n.carrier === "molten-salt").map((n) => `molten salt in ${n.name}`),
      ...stores.filter((s) => s.medium === "molten-salt").map((s) => `molten salt in ${s.name}`),
    ],
  },
  {
    id: "concentrated-light",
    title: "Concentrated light",
    sentence:
      "Concentrated sunlight blinds, burns skin and clothes, and sets fire to what it meets, most of all when a " +
      "mirror is out of focus or is being set: cover mirrors or turn them from the sun while people work on " +
      "them, keep the ground clear, and provide a stop that defocuses without mains power.",
    whoMustCheck: "A licensed engineer, the safety officer of the site and the fire authority.",
    because: ({ collectors }) => collectors.filter(concentrates).map((c) => `the concentrator ${c.name}`),
  },
  {
    id: "glare",
    title: "Glare",
    sentence:
      "Mirrors and glass throw sunlight at roads, railways, neighbours and aircraft, more so while stowed or out of " +
      "focus; the program does not compute where it goes.",
    whoMustCheck: "The aviation authority and the road authority, with a glare study for the site.",
    because: ({ collectors }) => collectors.map((c) => `the collector ${c.name}`),
  },
  {
    id: "film-under-pressure",
    title: "Film mirrors under air pressure",
    sentence:
      "Film tears, and torn film or a whole cushion flies far in wind, onto people, roads and power lines; film and " +
      "blowers also burn: empty mirrors of air and secure them before a storm (common practice, no source), and " +
      "take the design wind from the local code, not from a weather year.",
    whoMustCheck: "A licensed structural engineer, for the design wind, the anchors and the storm procedure.",
    because: ({ collectors }) => collectors.filter(hasFilm).map((c) => `film in ${c.name}`),
  },
  {
    id: "ammonia-chiller",
    title: "Ammonia–water chillers",
    sentence:
      "Cold below 0 °C from absorption usually means ammonia, which is poisonous, corrodes the eyes and lungs and " +
      "burns in some mixtures with air: it needs detection, ventilation, distance to people and a plan for release.",
    whoMustCheck:
      "A licensed refrigeration engineer, the pressure-equipment inspector and the fire authority.",
    because: (study) => chillersWhere(study, (cold_C, effect) => cold_C < 0 || effect === "ammonia-water"),
  },
  {
    id: "bromide-chiller",
    title: "Absorption chillers with lithium bromide",
    sentence:
      "Lithium bromide solution corrodes steel where air leaks in and irritates skin and eyes, it crystallises when " +
      "too concentrated or too cold, and the machine's vessels and its driving circuit are pressure or vacuum equipment.",
    whoMustCheck: "A licensed refrigeration engineer and the pressure-equipment inspector.",
    because: (study) => chillersWhere(study, (cold_C, effect) => cold_C >= 0 && effect !== "ammonia-water"),
  },
  {
    id: "product-water",
    title: "Product water",
    sentence:
      "Distillate is not drinking water: it is not potable without treatment, remineralisation and testing, and it " +
      "dissolves pipes; the return of brine needs a permit in most places.",
    whoMustCheck: "The health authority and a licensed water engineer.",
    because: ({ loads }) =>
      loads.filter((l) => l.kind === "desalination").map((l) => `desalination (${l.name})`),
  },
  {
    id: "legionella",
    title: "Legionella",
    sentence:
      "Water between about 20 and 50 °C breeds legionella, which harms where water becomes mist: showers, sprays and " +
      "the wet cooling towers of chillers need a water safety plan.",
    whoMustCheck: "Whoever answers for water hygiene on the site, under the local health code.",
    because: ({ networks, stores, chillers, loads }) => [
      ...networks
        .filter((n) => n.carrier === "water" && n.return_C < breedingBelow_C)
        .map((n) => `water that returns at ${n.return_C} °C in ${n.name}`),
      ...stores
        .filter((s) => s.medium === "water" && s.cold_C < breedingBelow_C)
        .map((s) => `water down to ${s.cold_C} °C in ${s.name}`),
      ...loads
        .filter((l) => l.kind === "hot-water")
        .map(
          (l) =>
            `hot water drawn at ${l.use_C} °C (${l.name}): keep tanks and return of the pipes at 60 °C or as local codes say`,
        ),
      ...chillers
        .filter(({ byTemperature }) => (byTemperature?.coolingWater.from ?? "wet-tower") === "wet-tower")
        .map(({ name, byTemperature }) =>
          byTemperature === undefined
            ? `heat to reject from ${name}, often by a cooling tower`
            : `the wet cooling tower of ${name}`,
        ),
    ],
  },
  {
    id: "hot-surfaces",
    title: "Hot surfaces and scalding",
    sentence:
      "Pipes, receivers and water at these temperatures burn at a touch; a collector that stands in the sun without " +
      "flow grows far hotter than its outlet in use.",
    whoMustCheck: "A licensed engineer, for insulation, guards, expansion and stagnation.",
    because: ({ networks }) =>
      networks.filter((n) => n.supply_C >= burnsFrom_C).map((n) => `${n.supply_C} °C in ${n.name}`),
  },
  {
    id: "tanks",
    title: "Tanks",
    sentence:
      "A full tank is heavy and can burst, collapse under vacuum or overflow: it needs a foundation, vent, bund and " +
      "earthquake design of its own, and nobody enters one without a permit for confined spaces.",
    whoMustCheck: "A licensed structural engineer, and the pressure-equipment inspector for closed tanks.",
    because: ({ stores, loads }) => [
      ...stores.map((s) => `the store ${s.name}`),
      ...loads
        .filter((l) => l.kind === "desalination" && l.tank_m3 > 0)
        .map((l) => `the product tank of ${l.name}`),
      ...loads
        .filter((l) => l.kind === "hot-water" && l.tank_m3 > 0)
        .map((l) => `the hot water tank of ${l.name}`),
    ],
  },
  {
    id: "boilers",
    title: "Fuel-fired boilers",
    sentence:
      "Boilers and fuel stores bring fire, explosion and carbon monoxide; a boiler that now cycles with the sun needs " +
      "its minimum load, purge and flame safeguards looked at again.",
    whoMustCheck: "A licensed boiler engineer, the pressure-equipment inspector and the fire authority.",
    because: ({ backups }) =>
      backups
        .filter(({ fuel }) => fuel.kind !== "electricity" && fuel.kind !== "waste-heat")
        .map((b) => `the backup ${b.name}`),
  },
  {
    id: "heat-pumps",
    title: "Heat pumps and their refrigerants",
    sentence:
      "Refrigerants of heat pumps are under pressure, and many are poisonous (ammonia) or burn (hydrocarbons): they need " +
      "detection, ventilation, relief and a machine room by the local code.",
    whoMustCheck: "A licensed refrigeration engineer and the pressure-equipment inspector.",
    because: ({ backups }) =>
      backups.filter(({ heatPump }) => heatPump !== undefined).map((b) => `the heat pump ${b.name}`),
  },
  {
    id: "waste-heat",
    title: "Waste heat",
    sentence:
      "Flue gas, oil or cooling water that gives its heat away can carry dust, acid or what is poisonous: exchangers foul, " +
      "corrode below the dew point and can leak one side into the other.",
    whoMustCheck: "A licensed process engineer, with whoever runs the process from which the heat comes.",
    because: ({ backups }) =>
      backups.filter(({ fuel }) => fuel.kind === "waste-heat").map((b) => `the waste heat ${b.name}`),
  },
  {
    id: "dryers",
    title: "Dryers",
    sentence:
      "Dry product and its dust burn and can explode in hot air: what air temperature is safe depends on the product.",
    whoMustCheck: "A licensed engineer and the fire authority.",
    because: ({ loads }) =>
      loads.filter((l) => l.kind === "drying" || l.kind === "batch-drying").map((l) => `drying (${l.name})`),
  },
  {
    id: "electrical",
    title: "Electrical work",
    sentence:
      "Pumps, drives, blowers and chillers need electrical design, earthing and lightning protection by the local " +
      "code, and a supply that still brings mirrors to safety when the mains fail.",
    whoMustCheck: "A licensed electrical engineer.",
    because: ({ collectors, chillers, loads }) => [
      ...collectors.map((c) => `drives and pumps of ${c.name}`),
      ...chillers.map((c) => `pumps of ${c.name}`),
      ...loads.filter((l) => l.kind === "desalination").map((l) => `pumps of ${l.name}`),
      ...loads.filter((l) => l.kind === "cooling").map((l) => `the electric chiller of ${l.name}`),
    ],
  },
  {
    id: "height",
    title: "Work at height",
    sentence:
      "Collectors, tanks and pipe racks are put up, cleaned and mended at height and under lifted loads: falls are " +
      "among the deadliest accidents of building.",
    whoMustCheck: "The safety officer of the site, under the local code.",
    because: ({ collectors, stores }) => [
      ...collectors.map((c) => `the collector ${c.name}`),
      ...stores.map((s) => `the store ${s.name}`),
    ],
  },
];

/** Legionella grows up to about 50 °C and best near 35 °C; common practice, no source at hand. */
const breedingBelow_C = 50;
/** Metal of about this temperature burns within seconds; common practice, no source. */
const burnsFrom_C = 60;

function underPressure({ networks, stores, loads, site }: Study): string[] {
  const boils_C = saturationTemperature_C(standardPressure_Pa(site.elevation_m) / 1e5);
  return [
    ...networks.filter((n) => n.carrier === "steam").map((n) => `steam in ${n.name}`),
    ...networks
      .filter(
        (n) => n.carrier === "water" && Math.max(n.supply_C, collectorLevel(n).collectorOut_C) > boils_C,
      )
      .map((n) => `water above its boiling point at the site in ${n.name}`),
    ...loads.filter((l) => l.kind === "steam").map((l) => `steam for ${l.name}`),
    ...stores
      .filter((s) => s.medium === "pressurised-water" || (s.medium === "water" && s.hot_C > boils_C))
      .map((s) => `pressurised water in ${s.name}`),
  ];
}

/** Mirrors gather beam: computed optics with a mirror or a focus, a receiver tube, or little use of diffuse light. */
function concentrates({ optics, heatLoss, diffuseModifier }: Collector): boolean {
  const mirrored =
    optics.by === "shape" || (optics.by === "computed" && (optics.reflectance < 1 || optics.intercept < 1));
  const focused =
    heatLoss.by === "receiver-tube" ||
    heatLoss.by === "evacuated-tube" ||
    (heatLoss.by === "computed" && heatLoss.concentration > 1);
  return mirrored || focused || diffuseModifier < 0.5;
}

function hasFilm({ optics, filmPart }: Collector): boolean {
  return filmPart !== undefined || (optics.by !== "measured" && optics.filmPasses > 0);
}

function chillersWhere(
  { chillers, loads }: Study,
  fits: (cold_C: number, effect: Chiller["effect"]) => boolean,
): string[] {
  return chillers.flatMap((chiller) => {
    const load = loads.find(({ id }) => id === chiller.load);
    if (load?.kind !== "cooling" || !fits(load.coldSupply_C, chiller.effect)) return [];
    return [`the chiller ${chiller.name} for cold at ${load.coldSupply_C} °C`];
  });
}

function listed(phrases: readonly string[]): string {
  const unique = [...new Set(phrases)];
  if (unique.length === 1) return unique[0]!;
  return `${unique.slice(0, -1).join(", ")} and ${unique.at(-1)}`;
}
