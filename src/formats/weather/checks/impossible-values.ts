import type { Problem } from "../../../core/problem.ts";
import { sum } from "../../../core/series.ts";
import { extraterrestrialHorizontal_W_m2 } from "../../../core/sun/extraterrestrial.ts";
import type { WeatherToCheck } from "../check-weather.ts";
import { rowsInWords, weatherProblem } from "../weather-problems.ts";
import { quantityNames, type WeatherQuantity } from "../weather-rows.ts";

/**
 * Values that cannot be. Radiation is held against the physically possible limits of the Baseline Surface
 * Radiation Network (Long and Dutton 2002, from memory, sure): GHI 1.5·S·µ^1.2 + 100, DHI 0.95·S·µ^1.2 + 50,
 * DNI S, with S above the air and µ = cos θz; here with S·µ averaged over the hour and µ^0.2 taken as 1,
 * which only widens them.
 */
export function impossibleValues({ weather, sun, site, file, line }: WeatherToCheck): Problem[] {
  const above = extraterrestrialHorizontal_W_m2(sun, site.latitude_deg);
  const problems: Problem[] = [];
  const hold = (
    quantity: WeatherQuantity,
    values: Float64Array,
    unit: string,
    allowed: string,
    isPossible: (value: number, hour: number) => boolean,
    shown = (value: number) => Number(value.toPrecision(6)),
  ) => {
    const bad: number[] = [];
    for (let hour = 0; hour < values.length; hour += 1)
      if (!Number.isNaN(values[hour]) && !isPossible(values[hour]!, hour)) bad.push(hour);
    if (bad.length === 0) return;
    const worst = shown(values[bad[0]!]!);
    problems.push(
      weatherProblem(
        file,
        "WEATHER_IMPOSSIBLE",
        `The ${quantityNames[quantity]} is ${worst} ${unit}; ${allowed} is possible; values beyond stand ${rowsInWords(
          bad.map((hour) => line[hour]!),
        )}.`,
        { row: line[bad[0]!]!, column: quantity },
      ),
    );
  };
  hold(
    "ghi",
    weather.ghi_W_m2,
    "W/m²",
    "0 to 1.5 times the radiation above the air plus 100 W/m²",
    (value, hour) => value >= 0 && value <= 1.5 * above[hour]! + 100,
  );
  hold(
    "dni",
    weather.dni_W_m2,
    "W/m²",
    "0 to the radiation above the air (about 1320 to 1415 W/m²)",
    (value, hour) => value >= 0 && value <= sun.extraterrestrialNormal_W_m2[hour]!,
  );
  hold(
    "dhi",
    weather.dhi_W_m2,
    "W/m²",
    "0 to 0.95 times the radiation above the air plus 50 W/m²",
    (value, hour) => value >= 0 && value <= 0.95 * above[hour]! + 50,
  );
  hold("ambient", weather.ambient_C, "°C", "−90 to 60 °C", (value) => value >= -90 && value <= 60);
  hold("wind", weather.wind_m_s, "m/s", "0 to 75 m/s", (value) => value >= 0 && value <= 75);
  hold(
    "humidity",
    weather.humidity_share,
    "%",
    "0 to 110 %",
    (value) => value >= 0 && value <= 1,
    (value) => Number((value * 100).toPrecision(6)),
  );
  hold(
    "pressure",
    weather.pressure_Pa,
    "Pa",
    "30 000 to 110 000 Pa",
    (value) => value >= 30e3 && value <= 110e3,
  );

  if (!(sum(weather.ghi_W_m2) / 1000 >= leastYear_kWh_m2) && !weather.ghi_W_m2.some(Number.isNaN))
    problems.push(
      weatherProblem(
        file,
        "WEATHER_NO_LIGHT",
        `The year's global radiation is ${(sum(weather.ghi_W_m2) / 1000).toFixed(1)} kWh/m²; at least ${leastYear_kWh_m2} are expected anywhere, so the column or its unit is wrong.`,
        { column: "ghi" },
      ),
    );
  return problems;
}

/** The darkest inhabited places get about 700 kWh/m²; common practice, no source. */
const leastYear_kWh_m2 = 300;
