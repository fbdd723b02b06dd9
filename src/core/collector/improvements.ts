import type { Collector, HeatLoss } from "../study/schema/collector.ts";

/** A small change of one property for the better: what it is now, what it would be, and the collector with it. */
export interface Improvement {
  /** Stable name, e.g. `reflectance`. */
  readonly id: string;
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly unit: string;
  /** True where the property lasts as long as the film does. */
  readonly ofFilm: boolean;
  /** True where hours without heat come back whole. */
  readonly wholeHours: boolean;
  readonly changed: Collector;
}

/** A share of light is improved by so much, never above 1. */
const shareStep = 0.01;
/** A spread of directions, mrad. */
const spreadStep_mrad = 0.5;
/** Heat loss, heat capacity and the pipes' insulation are improved by this share of themselves. */
const relativeStep = 0.1;

/**
 * What could be better about a collector, one property at a time, each by a step that a maker would think of:
 * shares of light by 0.01, spreads by 0.5 mrad, heat loss, emittance, heat capacity, a day's dirt and
 * conductivity of the pipes' insulation by a tenth, the wind it stands by 1 m/s, ageing by 0.01 a year, the time to come back after a storm by
 * an hour. Steps end where the property is perfect; what is perfect already is left out, and so is the loss of an evacuated tube, which has no figure of
 * its own in the study; of a computed loss the emittance is taken. The order is that of the light's way.
 */
export function improvements(collector: Collector): Improvement[] {
  const film = collector.filmPart !== undefined;
  return [
    ...opticalImprovements(collector, film),
    ...step(
      collector,
      "cleanliness",
      "Cleanliness",
      collector.cleanliness,
      1,
      shareStep,
      "1",
      false,
      (to) => ({
        cleanliness: to,
      }),
    ),
    ...step(
      collector,
      "ageing",
      "Optical efficiency lost per year of film age",
      collector.ageing_per_year,
      0,
      shareStep,
      "1/a",
      film,
      (to) => ({ ageing_per_year: to }),
    ),
    ...useImprovements(collector),
    ...stormImprovements(collector),
    ...heatImprovements(collector),
    ...pipeImprovements(collector),
  ];
}

function step(
  collector: Collector,
  id: string,
  name: string,
  from: number,
  perfect: number,
  by: number,
  unit: string,
  ofFilm: boolean,
  change: (to: number) => Partial<Collector>,
): Improvement[] {
  if (from === perfect) return [];
  const to = perfect > from ? Math.min(perfect, from + by) : Math.max(perfect, from - by);
  return [{ id, name, from, to, unit, ofFilm, wholeHours: false, changed: { ...collector, ...change(to) } }];
}

function opticalImprovements(collector: Collector, film: boolean): Improvement[] {
  const { optics } = collector;
  const share = (
    key: string,
    name: string,
    from: number,
    ofFilm: boolean,
    change: (to: number) => Partial<typeof optics>,
    perfect = 1,
  ) =>
    step(collector, key, name, from, perfect, shareStep, "1", ofFilm, (to) => ({
      optics: { ...optics, ...change(to) } as typeof optics,
    }));
  if (optics.by === "measured")
    return share("opticalEfficiency", "Optical efficiency", optics.opticalEfficiency, false, (to) => ({
      opticalEfficiency: to,
    }));
  const spread = (
    key: "slopeError_mrad" | "specularity_mrad" | "trackingError_mrad",
    name: string,
    ofFilm: boolean,
  ) =>
    optics.by !== "shape"
      ? []
      : step(collector, key, name, optics[key], 0, spreadStep_mrad, "mrad", ofFilm, (to) => ({
          optics: { ...optics, [key]: to },
        }));
  return [
    ...(optics.filmPasses === 0
      ? []
      : share(
          "filmTransmittance",
          "Transmittance of the cover film",
          optics.filmTransmittance,
          film,
          (to) => ({
            filmTransmittance: to,
          }),
        )),
    ...share("reflectance", "Mirror reflectance", optics.reflectance, film, (to) => ({ reflectance: to })),
    ...(optics.by === "computed"
      ? share("intercept", "Intercept factor", optics.intercept, false, (to) => ({ intercept: to }))
      : [
          ...spread("slopeError_mrad", "Slope error", false),
          ...spread("specularity_mrad", "Spread of the reflection", film),
          ...spread("trackingError_mrad", "Tracking error", false),
          ...share(
            "receiverShadow",
            "Aperture in the receiver's shadow",
            optics.receiverShadow,
            false,
            (to) => ({ receiverShadow: to }),
            0,
          ),
        ]),
    ...share("absorptance", "Receiver absorptance", optics.absorptance, false, (to) => ({ absorptance: to })),
  ];
}

function stormImprovements(collector: Collector): Improvement[] {
  const { storm } = collector;
  return [
    ...step(
      collector,
      "stowWind_m_s",
      "Wind that it stands (hourly mean)",
      storm.stowWind_m_s,
      60,
      1,
      "m/s",
      false,
      (to) => ({ storm: { ...storm, stowWind_m_s: to } }),
    ),
    ...step(
      collector,
      "backAfter_h",
      "Back in use after a storm",
      storm.backAfter_h,
      0,
      1,
      "h",
      false,
      (to) => ({
        storm: { ...storm, backAfter_h: to },
      }),
    ),
  ].map((one) => ({ ...one, wholeHours: true }));
}

function heatImprovements(collector: Collector): Improvement[] {
  const { heatLoss } = collector;
  const less = (id: string, name: string, changed: HeatLoss): Improvement => ({
    id,
    name,
    from: 1,
    to: 1 - relativeStep,
    unit: "of today's",
    ofFilm: false,
    wholeHours: false,
    changed: { ...collector, heatLoss: changed },
  });
  const scaled = lossScaled(heatLoss, 1 - relativeStep);
  const capacity = heatLoss.a5_kJ_m2K ?? 0;
  return [
    ...(heatLoss.by !== "computed"
      ? []
      : step(
          collector,
          "emittance",
          "Thermal emittance of the receiver",
          heatLoss.emittance,
          0,
          relativeStep * heatLoss.emittance,
          "1",
          false,
          (to) => ({ heatLoss: { ...heatLoss, emittance: to } }),
        )),
    ...(scaled === null ? [] : [less("heatLoss", "Heat loss", scaled)]),
    ...(capacity === 0
      ? []
      : [
          less("heatCapacity", "Heat capacity to warm up", {
            ...heatLoss,
            a5_kJ_m2K: capacity * (1 - relativeStep),
          }),
        ]),
  ];
}

function useImprovements(collector: Collector): Improvement[] {
  const { soiling, availability } = collector;
  return [
    ...(soiling === undefined
      ? []
      : step(
          collector,
          "soiling",
          "Light lost to a day's dirt",
          soiling.lossPerDay,
          0,
          relativeStep * soiling.lossPerDay,
          "per day",
          false,
          (to) => ({ soiling: { ...soiling, lossPerDay: to } }),
        )),
    ...(availability === undefined
      ? []
      : step(collector, "availability", "Share in use", availability, 1, shareStep, "1", false, (to) => ({
          availability: to,
        }))),
  ];
}

function pipeImprovements(collector: Collector): Improvement[] {
  const { pipes } = collector;
  if (pipes === undefined) return [];
  const { insulation_W_mK } = pipes;
  return step(
    collector,
    "pipeInsulation",
    "Conductivity of the pipes' insulation",
    insulation_W_mK,
    0,
    relativeStep * insulation_W_mK,
    "W/(m·K)",
    false,
    (to) => ({ pipes: { ...pipes, insulation_W_mK: to } }),
  );
}

/** Every coefficient of a loss times a factor; null where the study has none to scale, or nothing is lost. */
function lossScaled(heatLoss: HeatLoss, factor: number): HeatLoss | null {
  switch (heatLoss.by) {
    case "iso-9806": {
      const { a1_W_m2K, a2_W_m2K2, a3_J_m3K, a4, a7_s_m, a8_W_m2K4 } = heatLoss;
      const times = (value: number | undefined) => (value === undefined ? undefined : value * factor);
      const scaled = {
        ...heatLoss,
        a1_W_m2K: a1_W_m2K * factor,
        a2_W_m2K2: a2_W_m2K2 * factor,
        ...given({
          a3_J_m3K: times(a3_J_m3K),
          a4: times(a4),
          a7_s_m: times(a7_s_m),
          a8_W_m2K4: times(a8_W_m2K4),
        }),
      };
      return a1_W_m2K > 0 || a2_W_m2K2 > 0 || (a8_W_m2K4 ?? 0) > 0 ? scaled : null;
    }
    case "receiver-tube":
      if (heatLoss.linear_W_mK === 0 && heatLoss.quartic_W_mK4 === 0) return null;
      return {
        ...heatLoss,
        linear_W_mK: heatLoss.linear_W_mK * factor,
        quartic_W_mK4: heatLoss.quartic_W_mK4 * factor,
      };
    case "computed":
    case "evacuated-tube":
      return null;
  }
}

function given<T extends object>(values: T): { [K in keyof T]?: NonNullable<T[K]> } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: NonNullable<T[K]>;
  };
}
