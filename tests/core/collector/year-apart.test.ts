import { describe, expect, it } from "vitest";
import { collectorYear } from "../../../src/core/collector/collector-year.ts";
import type { Collector } from "../../../src/core/study/schema/study.ts";
import { roundGridByHand } from "./apart/round-grid-by-hand.ts";
import { type ByHand, type Line, yearByHand } from "./apart/year-by-hand.ts";
import { desert, desertSun, hasPhoenix, ofRecord, phoenix } from "./support.ts";

/** North–south axis; end loss 1 − f·tan θ/L, shade cos ρ/g, b0 modifier. */
const troughByHand: ByHand = {
  beam: ([east, north, up]) => {
    const cosine = Math.hypot(east, up);
    return {
      cosine,
      ends: Math.max(0, 1 - (1 * Math.abs(north)) / cosine / 50),
      rows: Math.min(1, up / cosine / 0.4),
      K: Math.max(0, 1 - 0.1 * (1 / cosine - 1)),
    };
  },
  eta0: 0.92 * 0.88 * 0.88 * 0.9,
  state: 1 - 0.05,
  cleanOn: () => 0.93,
  loss: (excess) => 0.4 * excess + 0.0008 * excess ** 2,
  a5_Wh: 4 / 3.6,
  stow: 13,
  back: 13,
  wait_h: 2,
  leastLight: 0,
  out: [],
  inUse: 1,
};

/** 20 to 31 December is days 353 to 364, and three days more. */
const overNewYear = [353, 354, 355, 356, 357, 358, 359, 360, 361, 362, 363, 364, 0, 1, 2];
const worked: Partial<Collector> = {
  storm: { stowWind_m_s: 9, returnWind_m_s: 6, backAfter_h: 2 },
  soiling: { lossPerDay: 0.004, washEvery_days: 20 },
  outages: [
    { fromMonth: 12, fromDay: 20, days: 15 },
    { fromMonth: 3, fromDay: 1, days: 5 },
  ],
  availability: 0.96,
  leastIrradiance_W_m2: 250,
};
const workedByHand: Partial<ByHand> = {
  stow: 9,
  back: 6,
  leastLight: 250,
  out: [...overNewYear, 59, 60, 61, 62, 63],
  inUse: 0.96,
};

const dishRows = hasPhoenix ? roundGridByHand(0.25) : () => 1;
const dishByHand: ByHand = {
  ...troughByHand,
  beam: ([, , up]) => ({ cosine: 1, ends: 1, rows: dishRows(up), K: 1 }),
  eta0: 0.92 ** 2 * 0.88 * 0.9 * 0.92,
  loss: (excess) => 0.2 * excess + 5e-10 * excess ** 4,
  a5_Wh: 3 / 3.6,
  stow: 12,
  back: 12,
};

/** A plate that leans by 25° to the south-west; its table is that of a glass cover with some structure along. */
const angles_deg = [20, 40, 60, 70];
const longitudinal = [1, 0.98, 0.9, 0.76];
const transversal = [1.01, 1.03, 0.95, 0.82];
const plate: Partial<Collector> = {
  mount: { type: "fixed", tilt_deg: 25, azimuth_deg: 215 },
  modifier: { type: "table", angles_deg, longitudinal, transversal },
};
const read = (values: readonly number[], angle: number): number => {
  const x = [0, ...angles_deg, 90];
  const y = [1, ...values, 0];
  const after = x.findIndex((each) => each > angle);
  if (after < 0) return 0;
  const share = (angle - x[after - 1]!) / (x[after]! - x[after - 1]!);
  return (1 - share) * y[after - 1]! + share * y[after]!;
};
const inDegrees = (radians: number) => (radians * 180) / Math.PI;
const [sin25, cos25, sin215, cos215] = [25, 215].flatMap((angle) => [
  Math.sin((angle * Math.PI) / 180),
  Math.cos((angle * Math.PI) / 180),
]) as [number, number, number, number];
const plateByHand: ByHand = {
  ...troughByHand,
  beam: ([east, north, up]) => {
    const toward = east * sin215 + north * cos215;
    const cosine = up * cos25 + toward * sin25;
    if (cosine <= 0) return { cosine: 0, ends: 1, rows: 1, K: 0 };
    const upSlope = Math.abs(up * sin25 - toward * cos25);
    const aside = Math.abs(east * cos215 - north * sin215);
    return {
      cosine,
      ends: 1,
      rows: Math.min(1, up / (0.5 * cosine)),
      K:
        read(longitudinal, inDegrees(Math.atan2(upSlope, cosine))) *
        read(transversal, inDegrees(Math.atan2(aside, cosine))),
    };
  },
  diffuse: { Kd: 0.91, tilt_deg: 25 },
  eta0: 0.8,
  state: 1,
  cleanOn: () => 0.96,
  loss: (excess) => 3.5 * excess + 0.015 * excess ** 2,
  a5_Wh: 7 / 3.6,
  stow: 40,
  back: 40,
  wait_h: 0,
};
const soiled = (clean: number) => (day: number) => clean * (1 - 0.004 * (day % 20));

const cases: readonly (readonly [string, Collector, ByHand, readonly number[]])[] = [
  ["a film trough", ofRecord("inflated-film-trough"), troughByHand, [100, 180, 240]],
  [
    "a film trough with soiling, a return wind, outages and least light",
    ofRecord("inflated-film-trough", worked),
    { ...troughByHand, ...workedByHand, cleanOn: soiled(0.93) },
    [100, 240],
  ],
  ["a film dish", ofRecord("inflated-film-dish"), dishByHand, [180, 350]],
  [
    "a film dish with soiling, a return wind, outages and least light",
    ofRecord("inflated-film-dish", worked),
    { ...dishByHand, ...workedByHand, cleanOn: soiled(0.93) },
    [350],
  ],
  ["a flat plate", ofRecord("flat-plate", plate), plateByHand, [45, 70]],
  [
    "a flat plate with soiling, a return wind, outages and least light",
    ofRecord("flat-plate", { ...plate, ...worked }),
    { ...plateByHand, ...workedByHand, wait_h: 2, cleanOn: soiled(0.96) },
    [70],
  ],
];

describe.skipIf(!hasPhoenix)("a year computed again apart (TMY3 of Phoenix, shared data)", () => {
  const runs = cases.flatMap(([name, own, apart, means_C]) =>
    means_C.map((mean_C) => [name, mean_C, own, apart] as const),
  );

  it.each(runs)("agrees on %s at %i °C within half a per cent, loss by loss", (_, mean_C, own, apart) => {
    const climate = { latitude_deg: desert.latitude_deg, sun: desertSun, weather: phoenix() };
    const levels = [{ collectorIn_C: mean_C - 10, collectorOut_C: mean_C + 10 }];
    const year = collectorYear(own, climate, levels);
    const { losses, useful_kWh_per_m2 } = year.levels[0]!;
    const { lines, stowedHours } = yearByHand(apart, phoenix(), mean_C);
    expect(lines.useful).toBeGreaterThan(0);
    expect(year.stowedHours).toBe(stowedHours);
    const program: Readonly<Record<Line, number>> = {
      ...losses,
      beamOnAperture: year.beamOnAperture_kWh_per_m2,
      diffuseOnAperture: year.diffuseOnAperture_kWh_per_m2,
      useful: useful_kWh_per_m2,
    };
    for (const line of Object.keys(lines) as Line[]) {
      const most = Math.max(0.005 * Math.abs(lines[line]), 1e-9);
      expect(Math.abs(program[line] - lines[line]), line).toBeLessThan(most);
    }
  });
});
