import { extraterrestrialHorizontal_W_m2 } from "../../../core/sun/extraterrestrial.ts";
import type { SunYear } from "../../../core/sun/sun-year.ts";
import type { WeatherCheck, WeatherToCheck } from "../check-weather.ts";
import { weatherProblem } from "../weather-problems.ts";

/** Morning fog and afternoon cloud move the centre by less; common practice, no source. */
const fault_h = 0.75;
const finding_h = 0.4;
const seasonFault_h = 0.75;
/** A single absurd value must not move the centre of a year. */
const mostLight_W_m2 = 1500;

/** Whether the file's day is centred where the sun's is. */
export function checkClock(input: WeatherToCheck): WeatherCheck {
  const whole = checkYearsClock(input);
  return whole.problems.length > 0 ? whole : withSeasons(whole, input);
}

/** A clock that is put forward in summer shows as two shifts an hour apart. */
function withSeasons(whole: WeatherCheck, { weather, sun, site, file }: WeatherToCheck): WeatherCheck {
  const shift_h = (days: (day: number) => boolean) =>
    clockShift_h(weather.ghi_W_m2, sun, site.latitude_deg, days);
  const summer_h = shift_h((day) => day >= 105 && day < 288);
  const winter_h = shift_h((day) => day < 75 || day >= 319);
  const apart_h = Math.abs(summer_h - winter_h);
  if (!(apart_h >= seasonFault_h)) return whole;
  return {
    problems: [
      weatherProblem(
        file,
        "WEATHER_CLOCK_SEASONS",
        `The radiation's centre moves by ${apart_h.toFixed(1)} h against the sun between winter and summer, as if the clock were put forward in one of them; less than ${seasonFault_h} h is allowed. Write the file in standard time all year.`,
      ),
    ],
    findings: whole.findings,
  };
}

function checkYearsClock({ weather, sun, site, file }: WeatherToCheck): WeatherCheck {
  const shift_h = clockShift_h(weather.ghi_W_m2, sun, site.latitude_deg);
  if (!(Math.abs(shift_h) > finding_h)) return { problems: [], findings: [] };
  const told =
    `The year's radiation is centred ${Math.abs(shift_h).toFixed(1)} h ${shift_h > 0 ? "after" : "before"} the sun's noon at the site; ` +
    `the file looks shifted by about ${Math.max(1, Math.round(Math.abs(shift_h)))} h`;
  if (Math.abs(shift_h) >= fault_h)
    return {
      problems: [
        weatherProblem(
          file,
          "WEATHER_CLOCK_SHIFT",
          `${told}; less than ${fault_h} h is allowed. Check the longitude, the UTC offset, and whether times mark the start or the end of the hour.`,
        ),
      ],
      findings: [],
    };
  return {
    problems: [],
    findings: [
      weatherProblem(file, "WEATHER_CLOCK_SHIFT", `${told}, unless mornings and afternoons differ so much.`),
    ],
  };
}

/**
 * Hours by which the daily centre of the radiation lies after that of the radiation above the air,
 * a mean over the days weighted by their radiation. Days are counted from one solar midnight to the next,
 * so that a clock far from the sun's does not cut them.
 *
 * @param isCounted which days of the year, from 0, the mean is over
 */
export function clockShift_h(
  ghi_W_m2: Float64Array,
  sun: SunYear,
  latitude_deg: number,
  isCounted: (day: number) => boolean = () => true,
): number {
  const above = extraterrestrialHorizontal_W_m2(sun, latitude_deg);
  const n = ghi_W_m2.length;
  let noonHour = 12;
  for (let hour = 0; hour < 24; hour += 1)
    if (Math.abs(sun.hourAngle_deg[hour]!) < Math.abs(sun.hourAngle_deg[noonHour]!)) noonHour = hour;
  let weighted = 0;
  let weight = 0;
  for (let day = 0; day < 365; day += 1) {
    if (!isCounted(day)) continue;
    let [light, lightTime, sky, skyTime] = [0, 0, 0, 0];
    for (let k = -12; k < 12; k += 1) {
      const hour = (day * 24 + noonHour + k + n) % n;
      if (Number.isNaN(ghi_W_m2[hour])) continue;
      const ghi = Math.min(Math.max(0, ghi_W_m2[hour]!), mostLight_W_m2);
      light += ghi;
      lightTime += ghi * k;
      sky += above[hour]!;
      skyTime += above[hour]! * k;
    }
    if (light <= 0 || sky <= 0) continue;
    weighted += lightTime - (light * skyTime) / sky;
    weight += light;
  }
  return weighted / weight;
}
