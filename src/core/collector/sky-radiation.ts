import { kelvinAtZero_C, stefanBoltzmann_W_m2K4 } from "../units.ts";
import type { WeatherYear } from "../weather.ts";

/**
 * Dew point, °C, from air temperature and relative humidity: Magnus formula with the constants of Alduchov &
 * Eskridge, J. Appl. Meteorology 35 (1996), over water; humidity below 1 % counts as 1 %.
 */
export function dewPoint_C(ambient_C: number, humidity_share: number): number {
  const share = humidity_share < 0.01 ? 0.01 : Math.min(1, humidity_share);
  const gamma = Math.log(share) + (17.625 * ambient_C) / (243.04 + ambient_C);
  return (243.04 * gamma) / (17.625 - gamma);
}

/**
 * Emissivity of a clear sky over a horizontal plane: 0.711 + 0.56·(Td/100) + 0.73·(Td/100)² +
 * 0.013·cos(2πt/24) + 0.00012·(p − 1000), dew point in °C, t hours from midnight, p in hPa; Martin & Berdahl,
 * Solar Energy 33 (1984) (from memory). Clouds, which make the sky warmer, are left out.
 */
export function skyEmissivity(dew_C: number, hour: number, pressure_Pa: number): number {
  const dew = dew_C / 100;
  const night = 0.013 * Math.cos((2 * Math.PI * hour) / 24);
  return 0.711 + 0.56 * dew + 0.73 * dew * dew + night + 0.00012 * (pressure_Pa / 100 - 1000);
}

/** Heat radiation of the clear sky less that of the air as a black body, E_L − σ·Ta⁴, W/m² by the hour; below 0. */
export function skyExcess_W_m2({ ambient_C, humidity_share, pressure_Pa }: WeatherYear): Float64Array {
  return ambient_C.map((air_C, i) => {
    const dew_C = dewPoint_C(air_C, humidity_share[i]!);
    const emissivity = skyEmissivity(dew_C, (i % 24) + 0.5, pressure_Pa[i]!);
    return (emissivity - 1) * stefanBoltzmann_W_m2K4 * (air_C + kelvinAtZero_C) ** 4;
  });
}
