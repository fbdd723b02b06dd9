/** A weather year on the study's clock: 8760 hourly means, interval 0 is 1 January 00:00–01:00 standard time. */
export interface WeatherYear {
  /** What it was read from or made by, for the reader. */
  readonly description: string;
  /** Global horizontal irradiance, W/m². */
  readonly ghi_W_m2: Float64Array;
  /** Direct normal irradiance, W/m². */
  readonly dni_W_m2: Float64Array;
  /** Diffuse horizontal irradiance, W/m². */
  readonly dhi_W_m2: Float64Array;
  /** Dry-bulb temperature, °C. */
  readonly ambient_C: Float64Array;
  /** Relative humidity, 0 to 1. */
  readonly humidity_share: Float64Array;
  /** Wind at 10 m, m/s. */
  readonly wind_m_s: Float64Array;
  /** Station pressure, Pa. */
  readonly pressure_Pa: Float64Array;
  /** What the file says of its station; a plain CSV may say nothing. */
  readonly station: WeatherStation | null;
  /** What a made-up year was made from; left out of measured and typical years. */
  readonly madeFrom?: WeatherMaking;
  /** What estimated beam and diffuse where only global light was known; left out where they were. */
  readonly beamEstimatedBy?: DiffuseModel;
}

/** How the diffuse share of an hour follows from its global light: docs/methods/decomposition.md. */
export type DiffuseModel = "erbs" | "persistence";

/** How a year that nobody measured came about. */
export type WeatherMaking = "monthly-means" | "clear-sky";

export interface WeatherStation {
  readonly name: string;
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  readonly elevation_m: number;
  readonly utcOffset_h: number;
}
