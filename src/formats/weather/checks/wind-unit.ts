import type { Problem } from "../../../core/problem.ts";
import type { WeatherToCheck } from "../check-weather.ts";
import { weatherProblem } from "../weather-problems.ts";

/**
 * Yearly means at 10 m from which and to which wind is taken without a word. Above 7.0 m/s begins class 7, the
 * windiest of Elliott et al., Wind Energy Resource Atlas of the United States (1986; from memory): bare ridges and
 * coasts. Below 1 m/s: common practice, no source.
 */
const mostMean_m_s = 7;
const leastMean_m_s = 1;
/** Beaufort 12, a hurricane, begins here (World Meteorological Organization; from memory, sure). */
const hurricane_m_s = 32.7;

const units: readonly (readonly [string, number])[] = [
  ["km/h", 1 / 3.6],
  ["knots", 1852 / 3600],
  ["mph", 0.44704],
];

/** Wind that looks like km/h, knots or mph read as m/s, or like m/s read as one of these. */
export function checkWindUnit({ weather, file }: WeatherToCheck): Problem[] {
  const { wind_m_s } = weather;
  const mean_m_s = meanOf(wind_m_s);
  const most_m_s = wind_m_s.reduce((most, wind) => Math.max(most, wind), 0);
  const one = (value: number) => value.toFixed(1);
  const found = `The mean wind of the year is ${one(mean_m_s)} m/s and its strongest hour ${one(most_m_s)} m/s`;
  const told = (message: string) => [
    weatherProblem(file, "WEATHER_WIND_UNIT", `${found}; ${message}`, { column: "wind" }),
  ];
  if (mean_m_s > mostMean_m_s || most_m_s >= hurricane_m_s) {
    const rare = [
      ...(mean_m_s > mostMean_m_s ? [`a mean above ${mostMean_m_s} m/s at 10 m is rare on land`] : []),
      ...(most_m_s >= hurricane_m_s ? [`an hour from ${hurricane_m_s} m/s on is a hurricane`] : []),
    ].join(", and ");
    const others = units.map(([unit, factor]) => `${unit} (then the mean is ${one(mean_m_s * factor)} m/s)`);
    return told(
      `${rare}. Is the file's wind in ${others.join(", ")}? Then name that unit in the title of its column in a plain CSV: the hours in which mirrors are stowed hang on it.`,
    );
  }
  if (mean_m_s < leastMean_m_s)
    return told(
      `a mean below ${leastMean_m_s} m/s is rare at 10 m above open ground. Is it wind in m/s whose column names another unit, or measured low or between buildings? Storms in which mirrors must be stowed are then missing.`,
    );
  return [];
}

/** Whether the year's mean alone says that the unit is another; a single wild hour does not. */
export function isTooWindy(wind_m_s: Float64Array): boolean {
  return meanOf(wind_m_s) > mostMean_m_s;
}

function meanOf(values: Float64Array): number {
  const known = values.filter(Number.isFinite);
  return known.reduce((sum, value) => sum + value, 0) / known.length;
}
