import { loadProfile } from "../demand/loads/load-profile.ts";
import type { Study } from "./schema/study.ts";

/** A place in the study that names a calendar. */
export interface CalendarName {
  /** E.g. `loads/0/heat_kW/calendar`. */
  readonly path: string;
  readonly id: string;
  /** Name of the load or backup that goes by it. */
  readonly user: string;
  /** What holds the id as its `calendar`. */
  readonly holder: { readonly calendar?: string | undefined };
}

/** Every place at which a load or a backup names the calendar that it goes by, or that its file should follow. */
export function namedCalendars({ loads, backups }: Pick<Study, "loads" | "backups">): CalendarName[] {
  const ofLoads = loads.flatMap((load, i): CalendarName[] => {
    const profile = loadProfile(load);
    if (profile === null) return [];
    const { rate, property } = profile;
    const path = `loads/${i}/${property}`;
    if (rate.from === "calendar" || rate.from === "bills")
      return [{ path: `${path}/calendar`, id: rate.calendar, user: load.name, holder: rate }];
    if (rate.from !== "file" || rate.reading?.calendar === undefined) return [];
    return [
      { path: `${path}/reading/calendar`, id: rate.reading.calendar, user: load.name, holder: rate.reading },
    ];
  });
  const ofBackups = backups.flatMap((backup, i): CalendarName[] =>
    backup.calendar === undefined
      ? []
      : [{ path: `backups/${i}/calendar`, id: backup.calendar, user: backup.name, holder: backup }],
  );
  return [...ofLoads, ...ofBackups];
}
