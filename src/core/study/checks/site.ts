import { IANAZone } from "luxon";
import { isTimeZone } from "../../calendar.ts";
import type { Problem } from "../../problem.ts";
import type { Site } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

/** The time zone exists and its standard time is the site's UTC offset. */
export function checkSite(site: Site): Problem[] {
  if (!isTimeZone(site.timeZone))
    return [
      fault(
        "STUDY_TIME_ZONE",
        "site/timeZone",
        `"${site.timeZone}" is not an IANA time zone; a name such as Africa/Cairo or Etc/GMT-3 is needed.`,
      ),
    ];
  const standard_h = Math.min(...zoneOffsets_h(site));
  if (Math.abs(standard_h - site.utcOffset_h) < 1e-6) return [];
  return [
    fault(
      "STUDY_UTC_OFFSET",
      "site/utcOffset_h",
      `Standard time is given as ${site.utcOffset_h} h ahead of UTC, and ${site.timeZone} has ${standard_h} h in ${site.calendarYear}; they must be the same.`,
    ),
  ];
}

/** Whether the factory's clock changes in the study's year. */
export function changesClock(site: Site): boolean {
  return isTimeZone(site.timeZone) && new Set(zoneOffsets_h(site)).size > 1;
}

/** The zone's offsets through the year, by the half month; standard time is the least. */
function zoneOffsets_h(site: Site): number[] {
  const zone = IANAZone.create(site.timeZone);
  return Array.from({ length: 24 }, (_, half) => {
    const day = half % 2 === 0 ? 1 : 15;
    return zone.offset(Date.UTC(site.calendarYear, Math.floor(half / 2), day, 12)) / 60;
  });
}
