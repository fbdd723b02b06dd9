import { monthLength_days } from "../calendar.ts";
import { dot, hoursPerYear, sum } from "../series.ts";
import type { Collector } from "../study/schema/collector.ts";
import { endLoss } from "../sun/end-loss.ts";
import { aim } from "../sun/mounts.ts";
import { skyView } from "../sun/radiation.ts";
import { rowShading } from "../sun/row-shading.ts";
import type { SunYear } from "../sun/sun-year.ts";
import type { WeatherYear } from "../weather.ts";
import { dailyCleanliness } from "./daily-cleanliness.ts";
import { incidenceModifier } from "./incidence-modifier.ts";
import { needsFocus } from "./needs-focus.ts";
import { opticalEfficiency } from "./optical-efficiency.ts";
import { outageDays } from "./outage-days.ts";
import { stowedHours } from "./stowed-hours.ts";

/** Reflectance of the ground for collectors that use diffuse light; the usual value for bare ground, D&B sec. 2.15. */
export const groundAlbedo = 0.2;

/** Light lost on the way into the absorber, kWh per m² of aperture and year, in the order of the chain. */
export interface OpticalLosses {
  /** DNI that passes the aperture because it does not face the sun, or has lost its focus at a limit of its mount. */
  readonly cosine: number;
  /** Light on the aperture in planned outages, and on the share of the field that is under repair. */
  readonly outage: number;
  /** Light on the aperture while stowed, outside planned outages. */
  readonly storm: number;
  readonly endLoss: number;
  readonly rowShading: number;
  readonly dirt: number;
  /** Incidence angle and diffuse modifier; below 0 where a modifier lies above 1. */
  readonly modifier: number;
  /** 1 − η0. */
  readonly optical: number;
  readonly ageing: number;
}

/** The film's state on each day: one for the whole year, or one for each month. */
function dailyState(state: number | Float64Array): Float64Array {
  const days = new Float64Array(365);
  if (typeof state === "number") return days.fill(state);
  let day = 0;
  for (let month = 1; month <= 12; month += 1) {
    const next = day + monthLength_days(month);
    days.fill(state[month - 1]!, day, next);
    day = next;
  }
  return days;
}

/** The light of a year down to the absorber, per m² of aperture; losses are of the whole field. */
export interface AbsorbedYear {
  /** Of the share of the field that is in use. */
  readonly absorbed_W_m2: Float64Array;
  /** Beam and, for collectors that use it, diffuse light on the aperture, unshaded. */
  readonly onAperture_W_m2: Float64Array;
  readonly dni_kWh_per_m2: number;
  /** DNI·cos θ·K on its way to the receiver, W/m²; null where no heat loss asks for it. */
  readonly receiverBeam_W_m2: Float64Array | null;
  readonly beamOnAperture_kWh_per_m2: number;
  /** 0 where the collector uses beam only. */
  readonly diffuseOnAperture_kWh_per_m2: number;
  /** Of the share of the field that is in use. */
  readonly absorbed_kWh_per_m2: number;
  /** 1 in hours stowed. */
  readonly stowed: Uint8Array;
  /** 1 on days of planned outage, by day. */
  readonly outageDays: Uint8Array;
  readonly stowedHours: number;
  readonly stowedSunlitHours: number;
  readonly losses: OpticalLosses;
}

/**
 * DNI·cos θ·(end loss)·(unshaded share)·cleanliness·K(θ)·η0·state, plus diffuse light on the aperture
 * ·cleanliness·Kd·η0·state where Kd is above 0; 0 while stowed and in planned outages. Diffuse: evenly bright sky and ground of
 * `groundAlbedo` (Liu & Jordan, D&B eq. 2.15.1), not shaded by rows.
 *
 * @param state optical efficiency over that of a new film, 0 to 1; one for the year or twelve, one a month
 * @throws ModelError OUT_OF_RANGE from ground cover or end loss
 */
export function absorbedYear(
  collector: Collector,
  climate: { readonly latitude_deg: number; readonly sun: SunYear; readonly weather: WeatherYear },
  state: number | Float64Array,
): AbsorbedYear {
  const { sun, weather } = climate;
  const aimed = aim(sun, collector.mount, climate.latitude_deg, {
    groundCover: collector.groundCover,
    needsFocus: needsFocus(collector),
  });
  const modify = incidenceModifier(collector.modifier, collector.optics);
  const eta0 = opticalEfficiency(collector.optics);
  const stowed = stowedHours(weather.wind_m_s, collector.storm);
  const ends = collector.endLoss
    ? endLoss(aimed.longitudinal_deg, collector.endLoss.focalLength_m, collector.endLoss.rowLength_m)
    : null;
  const rows = collector.rowShading ? rowShading(sun, aimed, collector.groundCover, collector.mount) : null;
  const Kd = collector.diffuseModifier;
  const cleanliness = dailyCleanliness(collector);
  const states = dailyState(state);
  const out = outageDays(collector.outages);
  const { availability = 1 } = collector;

  const absorbed_W_m2 = new Float64Array(hoursPerYear);
  const onAperture_W_m2 = new Float64Array(hoursPerYear);
  const receiverBeam_W_m2 =
    collector.heatLoss.by === "evacuated-tube" ? new Float64Array(hoursPerYear) : null;
  let diffuseAll = 0;
  let planned = 0;
  let inUse = 0;
  let storm = 0;
  let endLost = 0;
  let rowLost = 0;
  let dirt = 0;
  let modifierLost = 0;
  let optical = 0;
  let ageing = 0;
  let stowedTotal = 0;
  let stowedSunlit = 0;
  for (let i = 0; i < hoursPerYear; i += 1) {
    const cosine = aimed.cosIncidence[i]!;
    const beam = weather.dni_W_m2[i]! * cosine;
    let diffuse = 0;
    if (Kd > 0) {
      const sky = skyView(aimed.apertureTilt_deg[i]!);
      diffuse = weather.dhi_W_m2[i]! * sky + weather.ghi_W_m2[i]! * groundAlbedo * (1 - sky);
      diffuseAll += diffuse;
    }
    onAperture_W_m2[i] = beam + diffuse;
    if (stowed[i] === 1) {
      stowedTotal += 1;
      if (sun.sunlitShare[i]! > 0) stowedSunlit += 1;
    }
    const day = Math.floor(i / 24);
    if (out[day] === 1) {
      planned += beam + diffuse;
      continue;
    }
    inUse += beam + diffuse;
    if (stowed[i] === 1) {
      storm += beam + diffuse;
      continue;
    }
    if (beam === 0 && diffuse === 0) continue;
    const ended = ends === null ? beam : beam * ends[i]!;
    const lit = rows === null ? ended : ended * rows[i]!;
    const clean = cleanliness[day]!;
    const reaching = (lit + diffuse) * clean;
    const K =
      beam === 0
        ? 0
        : modify(aimed.incidence_deg[i]!, cosine, aimed.longitudinal_deg[i]!, aimed.transversal_deg[i]!);
    const modified = (lit * K + diffuse * Kd) * clean;
    if (receiverBeam_W_m2 !== null) receiverBeam_W_m2[i] = lit * K * clean;
    const converted = modified * eta0;
    const absorbed = converted * states[day]!;
    endLost += beam - ended;
    rowLost += ended - lit;
    dirt += lit + diffuse - reaching;
    modifierLost += reaching - modified;
    optical += modified - converted;
    ageing += converted - absorbed;
    absorbed_W_m2[i] = absorbed;
  }
  const dni = sum(weather.dni_W_m2) / 1000;
  const beamOnAperture = dot(weather.dni_W_m2, aimed.cosIncidence) / 1000;
  return {
    absorbed_W_m2,
    onAperture_W_m2,
    receiverBeam_W_m2,
    dni_kWh_per_m2: dni,
    beamOnAperture_kWh_per_m2: beamOnAperture,
    diffuseOnAperture_kWh_per_m2: diffuseAll / 1000,
    absorbed_kWh_per_m2: sum(absorbed_W_m2) / 1000,
    stowed,
    outageDays: out,
    stowedHours: stowedTotal,
    stowedSunlitHours: stowedSunlit,
    losses: {
      cosine: dni - beamOnAperture,
      outage: (planned + (1 - availability) * inUse) / 1000,
      storm: (availability * storm) / 1000,
      endLoss: (availability * endLost) / 1000,
      rowShading: (availability * rowLost) / 1000,
      dirt: (availability * dirt) / 1000,
      modifier: (availability * modifierLost) / 1000,
      optical: (availability * optical) / 1000,
      ageing: (availability * ageing) / 1000,
    },
  };
}
