import type { StudyCalendar } from "../../calendar.ts";
import { ModelError } from "../../errors.ts";
import { hoursPerYear } from "../../series.ts";
import type { Network } from "../../study/schema/study.ts";
import type { WeatherYear } from "../../weather.ts";

/** What a load needs beside itself to become hourly figures. */
export interface LoadInputs {
  /** 8760 rates in the profile's unit; null for loads without a profile. */
  readonly profile: Float64Array | null;
  /** The network that the load hangs on; null for cooling. */
  readonly network: Network | null;
  readonly calendar: StudyCalendar;
  readonly weather: WeatherYear;
  readonly elevation_m: number;
}

/** The load's profile. @throws ModelError SERIES_LENGTH where it is missing or not a year */
export function profileOf(id: string, profile: Float64Array | null): Float64Array {
  if (profile === null || profile.length !== hoursPerYear)
    throw new ModelError("SERIES_LENGTH", `${profile?.length ?? "no"} hours of profile for load ${id}`);
  return profile;
}

/** The load's network. @throws ModelError UNKNOWN_ID where it is missing */
export function networkOf(id: string, network: Network | null): Network {
  if (network === null) throw new ModelError("UNKNOWN_ID", `no network for load ${id}`);
  return network;
}
