import type { Load } from "../../study/schema/study.ts";
import { loadProfile } from "./load-profile.ts";

/** A place in a load that names a calendar. */
export interface CalendarName {
  /** Below the load, e.g. `heat_kW/calendar`. */
  readonly path: string;
  readonly id: string;
  /** What holds the name as its `calendar`. */
  readonly holder: { readonly calendar?: string | undefined };
}

/** Every calendar that a load goes by, or that its file is said to follow. */
export function calendarsOf(load: Load): CalendarName[] {
  const profile = loadProfile(load);
  if (profile === null) return [];
  const { rate, property } = profile;
  if (rate.from === "calendar" || rate.from === "bills")
    return [{ path: `${property}/calendar`, id: rate.calendar, holder: rate }];
  if (rate.from !== "file" || rate.reading?.calendar === undefined) return [];
  return [{ path: `${property}/reading/calendar`, id: rate.reading.calendar, holder: rate.reading }];
}
