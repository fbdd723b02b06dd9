import type { WeatherYear } from "../../../../src/core/weather.ts";
import { type Direction, sunApart } from "./sun-apart.ts";

/** What the beam meets in an hour: shares, and the modifier. */
export interface Beam {
  readonly cosine: number;
  readonly ends: number;
  readonly rows: number;
  readonly K: number;
}

/** A collector in plain numbers, its geometry as a function of the sun. */
export interface ByHand {
  readonly beam: (sun: Direction) => Beam;
  /** Tilt of the aperture where it uses diffuse light. */
  readonly diffuse?: { readonly Kd: number; readonly tilt_deg: number };
  readonly eta0: number;
  readonly state: number;
  readonly cleanOn: (day: number) => number;
  readonly loss: (excess_K: number) => number;
  readonly a5_Wh: number;
  readonly stow: number;
  readonly back: number;
  readonly wait_h: number;
  readonly leastLight: number;
  readonly out: readonly number[];
  readonly inUse: number;
}

export type Line = keyof ReturnType<typeof noLines>;

const noLines = () => ({
  beamOnAperture: 0,
  diffuseOnAperture: 0,
  useful: 0,
  cosine: 0,
  outage: 0,
  storm: 0,
  endLoss: 0,
  rowShading: 0,
  dirt: 0,
  modifier: 0,
  optical: 0,
  ageing: 0,
  tooWeak: 0,
  heatLoss: 0,
  warmUp: 0,
});

/**
 * A year hour by hour from the equations of docs/methods/collector.md (Duffie & Beckman sec. 1.7, 2.15 and 6.12; ISO
 * 9806:2017 cl. 24), with nothing of the program: each line of the loss waterfall in kWh per m², and the hours stowed.
 */
export function yearByHand(c: ByHand, weather: WeatherYear, mean_C: number) {
  const suns = sunApart();
  const sums = noLines();
  const stowed = stowedByHand(weather.wind_m_s, c);
  const slope = ((c.diffuse?.tilt_deg ?? 0) * Math.PI) / 180;
  let body_C = weather.ambient_C[0]!;
  for (let hour = 0; hour < 8760; hour += 1) {
    const day = Math.floor(hour / 24);
    const dni = weather.dni_W_m2[hour]!;
    const sun = suns[hour]!;
    const at = sun === null ? null : c.beam(sun);
    const beam = at === null ? 0 : dni * at.cosine;
    const sky = (weather.dhi_W_m2[hour]! * (1 + Math.cos(slope))) / 2;
    const ground = (0.2 * weather.ghi_W_m2[hour]! * (1 - Math.cos(slope))) / 2;
    const diffuse = c.diffuse === undefined ? 0 : sky + ground;
    const light = beam + diffuse;
    sums.beamOnAperture += beam;
    sums.diffuseOnAperture += diffuse;
    sums.cosine += dni - beam;
    let absorbed = 0;
    if (c.out.includes(day)) sums.outage += light;
    else if (stowed[hour]) {
      sums.outage += (1 - c.inUse) * light;
      sums.storm += c.inUse * light;
    } else {
      sums.outage += (1 - c.inUse) * light;
      let left = light;
      const lose = (line: Line, to: number) => {
        sums[line] += c.inUse * (left - to);
        left = to;
      };
      const { ends, rows, K } = at ?? { ends: 1, rows: 1, K: 1 };
      const clean = c.cleanOn(day);
      lose("endLoss", beam * ends + diffuse);
      lose("rowShading", beam * ends * rows + diffuse);
      lose("dirt", left * clean);
      lose("modifier", (beam * ends * rows * K + diffuse * (c.diffuse?.Kd ?? 0)) * clean);
      lose("optical", left * c.eta0);
      lose("ageing", left * c.state);
      absorbed = left;
    }
    const excess = mean_C - weather.ambient_C[hour]!;
    const loss = Math.max(0, c.loss(excess));
    if (light >= c.leastLight && absorbed > loss) {
      const debt = c.a5_Wh * Math.max(0, mean_C - body_C);
      const warming = Math.min(debt, absorbed - loss);
      body_C = warming < debt ? body_C + warming / c.a5_Wh : mean_C;
      sums.useful += c.inUse * (absorbed - loss - warming);
      sums.warmUp += c.inUse * warming;
      sums.heatLoss += c.inUse * loss;
    } else {
      sums[light < c.leastLight ? "tooWeak" : "heatLoss"] += c.inUse * absorbed;
      const U = loss / excess;
      const rest = mean_C - excess + absorbed / U;
      body_C = rest + (body_C - rest) * Math.exp(-U / c.a5_Wh);
    }
  }
  for (const line of Object.keys(sums) as Line[]) sums[line] /= 1000;
  return { lines: sums, stowedHours: stowed.filter(Boolean).length };
}

/** Once round the year, from an hour that is surely up: after as many quiet hours as the collector waits. */
function stowedByHand(wind_m_s: Float64Array, { stow, back, wait_h }: ByHand): boolean[] {
  const stowed = Array.from(wind_m_s, () => false);
  let calm = 0;
  let begin = 0;
  for (; calm <= wait_h; begin += 1) calm = wind_m_s[begin]! <= back ? calm + 1 : 0;
  let down = false;
  let quiet_h = 0;
  for (let step = 0; step < 8760; step += 1) {
    const hour = (begin + step) % 8760;
    if (wind_m_s[hour]! > (down ? back : stow)) {
      down = true;
      quiet_h = 0;
      stowed[hour] = true;
    } else if (down) {
      quiet_h += 1;
      stowed[hour] = quiet_h <= wait_h;
      down = quiet_h < wait_h;
    }
  }
  return stowed;
}
