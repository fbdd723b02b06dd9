import {
  areaCurve,
  type Chart,
  type ChartFrame,
  carpet,
  cashFlow,
  collectorMatch,
  compositeCurves,
  demandProfile,
  duration,
  efficiencyByConcentration,
  faultStrip,
  filmLife,
  grandComposite,
  type LossPanel,
  loadDuration,
  lossWaterfall,
  marginalCost,
  monthlyWeather,
  months,
  weekSlice,
  weeks,
} from "../../src/charts/index.ts";
import type { NetworkHours } from "../../src/core/dispatch/hourly-result.ts";
import type { AreaCurve, CurvePoint } from "../../src/core/study/result.ts";

/** Every chart drawn from invented figures of a rough but plausible plant. */
export const sampleCharts: readonly { readonly name: string; readonly draw: (frame: ChartFrame) => Chart }[] =
  [
    { name: "monthly-weather", draw: (frame) => monthlyWeather(sampleWeather(), frame) },
    {
      name: "carpet-sun",
      draw: (frame) =>
        carpet({ name: "Direct normal irradiance", values: sun(), unit: "W/m²", scale: "sun" }, frame),
    },
    {
      name: "carpet-load",
      draw: (frame) =>
        carpet({ name: "Heat demand", values: sampleNetwork().demand_kW, unit: "kW", scale: "load" }, frame),
    },
    {
      name: "profile",
      draw: (frame) => demandProfile({ values: sampleNetwork().demand_kW, weekday, hour, unit: "kW" }, frame),
    },
    {
      name: "fault",
      draw: (frame) =>
        faultStrip(
          {
            values: sampleNetwork().demand_kW,
            unit: "kW",
            from: 2000,
            to: 2030,
            sentence: "31 h stand still.",
          },
          frame,
        ),
    },
    { name: "duration-one", draw: (frame) => loadDuration({ demand_kW: sampleNetwork().demand_kW }, frame) },
    { name: "match", draw: (frame) => collectorMatch(sampleMatch(), frame) },
    { name: "losses", draw: (frame) => lossWaterfall(sampleLosses(), frame) },
    {
      name: "losses-one",
      draw: (frame) => lossWaterfall(sampleLosses().slice(0, 1), frame),
    },
    { name: "composite", draw: (frame) => compositeCurves(sampleStreams, frame) },
    { name: "grand-composite", draw: (frame) => grandComposite(sampleStreams, frame) },
    {
      name: "concentration",
      draw: (frame) => efficiencyByConcentration(sampleConcentration(), frame),
    },
    {
      name: "wind-hours",
      draw: (frame) =>
        duration(
          {
            name: "Wind",
            unit: "m/s",
            values: Float64Array.from(
              { length: 8760 },
              (_, hour) => 4 + 3 * Math.sin(hour / 30) + 5 * Math.sin(hour) ** 8,
            ),
            limits: [
              { name: "Inflated film dish", at: 10 },
              { name: "Inflated film trough", at: 10.5 },
            ],
          },
          frame,
        ),
    },
    { name: "film-life", draw: (frame) => filmLife(sampleFilmLife(), "XTS", frame) },
    { name: "months", draw: (frame) => months(sampleMonths(), frame) },
    { name: "weeks", draw: (frame) => weeks(sampleWeeks(), frame) },
    { name: "duration", draw: (frame) => loadDuration(sampleNetwork(), frame) },
    {
      name: "carpet-backup",
      draw: (frame) =>
        carpet(
          { name: "Backup heat", values: sampleNetwork().backup_kW, unit: "kW", scale: "backup" },
          frame,
        ),
    },
    {
      name: "carpet-content",
      draw: (frame) =>
        carpet(
          { name: "Store content", values: sampleNetwork().content_kWh, unit: "kWh", scale: "content" },
          frame,
        ),
    },
    { name: "curve", draw: (frame) => areaCurve(sampleCurve(), "XTS", frame) },
    { name: "marginal", draw: (frame) => marginalCost(sampleMarginal(), frame) },
    { name: "cash", draw: (frame) => cashFlow(sampleCash(), "XTS", frame) },
  ];

const year = (of: (index: number) => number) => Float64Array.from({ length: 8760 }, (_, index) => of(index));
const weekday = Uint8Array.from({ length: 8760 }, (_, index) => ((Math.floor(index / 24) + 3) % 7) + 1);
const hour = Uint8Array.from({ length: 8760 }, (_, index) => index % 24);
/** A repeatable rough noise, 0 to 1. */
const noise = (seed: number) => {
  const value = Math.sin(seed * 12.9898) * 43758.5453;
  return value - Math.floor(value);
};

function sun(): Float64Array {
  return year((index) => {
    const day = Math.floor(index / 24);
    const season = Math.cos(((day - 172) / 365) * 2 * Math.PI);
    const half = 6 + 1.6 * season;
    const angle = ((index % 24) + 0.5 - 12) / half;
    if (Math.abs(angle) >= 1) return 0;
    const clear = noise(day) > 0.28 + 0.12 * season * -1 ? 1 : noise(day + 0.5) * 0.5;
    return 930 * clear * Math.cos((angle * Math.PI) / 2) ** 0.4 * (1 + 0.05 * season);
  });
}

export function sampleNetwork(): NetworkHours {
  const beam = sun();
  const demand_kW = year((index) => {
    const shift = hour[index]! >= 6 && hour[index]! < 22 ? 1 : 0.35;
    return weekday[index] === 7 ? 180 : weekday[index] === 6 ? 320 * shift : 640 * shift + 60 * noise(index);
  });
  const zeros = () => new Float64Array(8760);
  const [solar, backup, charge, discharge, spill, content] = [
    zeros(),
    zeros(),
    zeros(),
    zeros(),
    zeros(),
    zeros(),
  ];
  let held = 0;
  for (let index = 0; index < 8760; index += 1) {
    const made = Math.max(0, beam[index]! - 120) * 2.1;
    const direct = Math.min(made, demand_kW[index]!);
    charge[index] = Math.min(made - direct, 4200 - held);
    spill[index] = made - direct - charge[index]!;
    discharge[index] = Math.min(held, demand_kW[index]! - direct);
    held = (held + charge[index]! - discharge[index]!) * 0.998;
    content[index] = held;
    solar[index] = direct + charge[index]!;
    backup[index] = demand_kW[index]! - direct - discharge[index]!;
  }
  return {
    id: "hot",
    demand_kW,
    solar_kW: solar,
    backup_kW: backup,
    charge_kW: charge,
    discharge_kW: discharge,
    stepIn_kW: zeros(),
    stepOut_kW: zeros(),
    spill_kW: spill,
    unmet_kW: zeros(),
    content_kWh: content,
    marginal_per_kWh: year((index) => (backup[index]! > 0 ? 0.061 : 0.012)),
  };
}

function sampleWeeks() {
  const network = sampleNetwork();
  return [
    weekSlice(network, { name: "A week in June", firstHour: 24 * 165, firstWeekday: weekday[24 * 165]! }),
    weekSlice(network, { name: "A week in December", firstHour: 24 * 340, firstWeekday: weekday[24 * 340]! }),
  ];
}

export function sampleMonths() {
  return Array.from({ length: 12 }, (_, index) => {
    const season = 0.5 - 0.5 * Math.cos(((index + 0.5) / 12) * 2 * Math.PI);
    const demand_kWh = 310_000 + 20_000 * noise(index);
    const direct_kWh = demand_kWh * (0.18 + 0.3 * season);
    const fromStore_kWh = demand_kWh * (0.05 + 0.22 * season);
    return {
      month: index + 1,
      demand_kWh,
      direct_kWh,
      fromStore_kWh,
      backup_kWh: demand_kWh - direct_kWh - fromStore_kWh,
      spill_kWh: 60_000 * season ** 3,
    };
  });
}

export function sampleWeather() {
  const season = Array.from({ length: 12 }, (_, index) => -Math.cos(((index + 0.5) / 12) * 2 * Math.PI));
  return {
    dni_kWh_m2: season.map((value, index) => 155 + 45 * value + 14 * noise(index)),
    ghi_kWh_m2: season.map((value) => 150 + 72 * value),
    dhi_kWh_m2: season.map((value) => 55 + 15 * value),
    ambient_C: season.map((value) => 18 + 9 * value),
  };
}

export function sampleCurve(): AreaCurve {
  const point = (aperture_m2: number, factor: number): CurvePoint => {
    const store_kWh = aperture_m2 * 0.9 * factor;
    const most = 0.32 + 0.3 * (1 - Math.exp(-factor * 1.4));
    const solarFraction = most * (1 - Math.exp(-aperture_m2 / (2600 + 900 * factor)));
    const fuelCostAvoided = solarFraction * 240_000;
    const annualCost = 240_000 - fuelCostAvoided + aperture_m2 * 11 + store_kWh * 2.2;
    return {
      by: "replay",
      aperture_m2,
      store_kWh,
      solarFraction,
      fuelCostAvoided,
      annualCost,
      spilled_kWh: aperture_m2 * 40,
      unmet_kWh: 0,
    };
  };
  const areas = Array.from({ length: 13 }, (_, index) => index * 500);
  const foreseen = (area: number, factor: number): CurvePoint => {
    const { solarFraction, fuelCostAvoided, annualCost, ...same } = point(area, factor);
    const more = 0.03 * solarFraction * 240_000;
    return {
      ...same,
      by: "lp",
      solarFraction: 1.03 * solarFraction,
      fuelCostAvoided: fuelCostAvoided + more,
      annualCost: annualCost - more,
    };
  };
  return {
    optimum: foreseen(3300, 1),
    optimumReplay: point(3300, 1),
    chosen: point(4000, 1),
    chosenBound: foreseen(4000, 1),
    lines: [0, 0.5, 1, 2].map((storeFactor) => ({
      storeFactor,
      storePerAperture_kWh_m2: 0.9 * storeFactor,
      points: areas.map((area) => point(area, storeFactor)),
    })),
    bound: [1000, 2500, 4500].map((area) => ({
      ...foreseen(area, 1.2),
      annualCost: foreseen(area, 1).annualCost - 2500,
    })),
    boundAt_m2: [1000, 2500, 4500],
    split: [],
    remarks: [],
  };
}

export function sampleMatch() {
  const networks = [
    ["Dryers", 68],
    ["Desalination", 84],
    ["Chiller", 96],
    ["Process steam", 178],
  ] as const;
  const collectors = [
    ["Film trough", 1150, 1.7],
    ["Flat plate", 1300, 7.5],
    ["Evacuated tube", 1080, 2.6],
  ] as const;
  return collectors.flatMap(([collector, base, slope]) =>
    networks.map(([network, mean]) => ({
      collector,
      network,
      meanFluid_C: mean,
      possible: !(collector === "Flat plate" && mean > 120),
      remark:
        collector === "Flat plate" && mean > 120
          ? "The highest outlet lies below what the network needs."
          : "",
      useful_kWh_per_m2: Math.max(0, base - slope * (mean - 25) - 0.004 * (mean - 25) ** 2),
      cost_per_kWh: 0.02,
      reachableShare: 0.5,
      beam_kWh_per_m2: 1900,
      runningHours: 3000,
      stowedHours: 40,
    })),
  );
}

export function sampleMarginal() {
  const shape = (base: number, dip: number) =>
    year((index) => {
      const day = Math.floor(index / 24);
      const season = 0.6 - 0.4 * Math.cos((day / 365) * 2 * Math.PI);
      const noon = Math.exp(-(((index % 24) - 12.5) ** 2) / 14);
      return base - dip * noon * season;
    });
  return {
    currency: "XTS",
    networks: [
      { name: "Steam 180 °C", marginal_per_kWh: shape(0.068, 0.045) },
      { name: "Hot water 90 °C", marginal_per_kWh: shape(0.06, 0.055) },
    ],
  };
}

export function sampleCash() {
  let cumulative = 0;
  return Array.from({ length: 21 }, (_, index) => {
    const capital = index === 0 ? 620_000 : 0;
    const replacements = index > 0 && index < 20 && index % 2 === 0 ? (index === 10 ? 95_000 : 38_000) : 0;
    const upkeep = index === 0 ? 0 : 14_000;
    const avoided = index === 0 ? 0 : 125_000 * 1.015 ** index;
    const residual = index === 20 ? 40_000 : 0;
    const net = avoided + residual - capital - replacements - upkeep;
    cumulative += net;
    return { year: index, capital, replacements, upkeep, avoided, residual, net, cumulative };
  });
}

/** One collector on three networks, the last not built; every chain adds up. */
export function sampleLosses(): LossPanel[] {
  const panels = [
    ["Dryers", 68, 60, 45],
    ["Hot water", 96, 90, 4],
    ["Process steam", 178, 215, null],
  ] as const;
  return panels.map(([name, meanFluid_C, heatLoss, spilled]) => {
    const losses = {
      cosine: 290,
      outage: 18,
      storm: 31,
      endLoss: 6,
      rowShading: 55,
      dirt: 88,
      modifier: 73,
      optical: 461.5 + heatLoss / 9,
      ageing: 64,
      tooWeak: 12,
      heatLoss,
      warmUp: heatLoss / 12,
      frost: 1,
      pipes: 8,
      pipeWarmUp: 4,
    };
    const useful = 1960 - Object.values(losses).reduce((sum, loss) => sum + loss, 0);
    return {
      name,
      meanFluid_C,
      chain: {
        beam_kWh_per_m2: 1960,
        diffuse_kWh_per_m2: 0,
        useful_kWh_per_m2: useful,
        spilled_kWh_per_m2: spilled ?? 0,
        used_kWh_per_m2: spilled === null ? null : useful - spilled,
        losses,
      },
    };
  });
}

export function sampleConcentration() {
  const concentration = Array.from({ length: 40 }, (_, index) => 5 * 10 ** (index / 20));
  return [150, 250, 350].flatMap((meanFluid_C) =>
    [2, 5, 10].map((slopeError_mrad) => {
      const of = (ratio: number) =>
        0.78 * Math.exp(-((ratio * slopeError_mrad) ** 1.5) / 9000) -
        (0.0011 * (meanFluid_C - 20) ** 1.3) / ratio ** 0.9;
      const efficiency = concentration.map(of);
      const at = efficiency.indexOf(Math.max(...efficiency));
      return {
        meanFluid_C,
        slopeError_mrad,
        concentration,
        efficiency,
        best: { concentration: concentration[at]!, efficiency: efficiency[at]! },
      };
    }),
  );
}

export function sampleFilmLife() {
  const life_years = Array.from({ length: 20 }, (_, index) => 0.5 + index / 2);
  const curves = [3, 6, 12].map((filmPrice_per_m2) => {
    const cost_per_kWh = life_years.map(
      (life) => (14 + filmPrice_per_m2 / life) / (820 * (1 - 0.02 * life - 0.002 * life ** 2)),
    );
    const least = Math.min(...cost_per_kWh);
    return {
      filmPrice_per_m2,
      cost_per_kWh,
      best: { life_years: life_years[cost_per_kWh.indexOf(least)]!, cost_per_kWh: least },
    };
  });
  return { life_years, curves };
}

/** Curves of the four-stream example of tests/core/pinch. */
const sampleStreams = {
  hot: [
    { temperature_C: 30, heat_kW: 0 },
    { temperature_C: 60, heat_kW: 45 },
    { temperature_C: 150, heat_kW: 450 },
    { temperature_C: 170, heat_kW: 510 },
  ],
  cold: [
    { temperature_C: 20, heat_kW: 60 },
    { temperature_C: 80, heat_kW: 180 },
    { temperature_C: 135, heat_kW: 510 },
    { temperature_C: 140, heat_kW: 530 },
  ],
  heating_kW: 20,
  cooling_kW: 60,
  pinches_C: [85],
  cascade: [
    [165, 20],
    [145, 80],
    [140, 82.5],
    [85, 0],
    [55, 75],
    [25, 60],
  ].map(([shifted_C, heat_kW]) => ({ shifted_C: shifted_C!, heat_kW: heat_kW! })),
  networks: [
    { name: "Hot water", shifted_C: 90, heat_kW: 7.5 },
    { name: "Steam", shifted_C: 160, heat_kW: 12.5 },
  ],
  beyond_kW: 0,
};
