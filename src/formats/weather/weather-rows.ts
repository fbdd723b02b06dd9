import type { Problem } from "../../core/problem.ts";
import type { DiffuseModel, WeatherMaking, WeatherStation } from "../../core/weather.ts";

export const weatherQuantities = ["ghi", "dni", "dhi", "ambient", "wind", "humidity", "pressure"] as const;
export type WeatherQuantity = (typeof weatherQuantities)[number];

/** A column as read, already in the core's units: W/m², °C, m/s, share, Pa. NaN is missing. */
export interface WeatherColumn {
  readonly title: string;
  readonly values: Float64Array;
}

/** What a reader of one format makes of a file, row by row as they stand. All arrays are as long as `line`. */
export interface WeatherRows {
  readonly description: string;
  readonly station: WeatherStation | null;
  readonly madeFrom?: WeatherMaking;
  readonly beamEstimatedBy?: DiffuseModel;
  /** File line of each row, from 1. */
  readonly line: Int32Array;
  /** Date and hour at the start of the interval, in the station's standard time; month 0: not understood. */
  readonly month: Uint8Array;
  readonly day: Uint8Array;
  readonly hour: Uint8Array;
  /** Calendar year at the start of the interval, 0 where not understood; left out where the format tells none. */
  readonly year?: Int16Array;
  readonly columns: Readonly<Partial<Record<WeatherQuantity, WeatherColumn>>>;
  readonly problems: readonly Problem[];
  readonly findings: readonly Problem[];
}

/** Names of the quantities for sentences. */
export const quantityNames: Readonly<Record<WeatherQuantity, string>> = {
  ghi: "global horizontal radiation",
  dni: "direct normal radiation",
  dhi: "diffuse horizontal radiation",
  ambient: "temperature",
  wind: "wind speed",
  humidity: "relative humidity",
  pressure: "pressure",
};
