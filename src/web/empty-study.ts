import { currentFormatVersion, type Study } from "../core/study/schema/study.ts";
import { startingItem } from "./forms/starting-values.ts";

/** A study to begin from: one heat network, one load, one boiler, no weather yet; every value assumed. */
export function emptyStudy(): Study {
  const bare: Study = {
    formatVersion: currentFormatVersion,
    title: "New study",
    site: {
      name: "New site",
      latitude_deg: 0,
      longitude_deg: 0,
      elevation_m: 0,
      utcOffset_h: 0,
      timeZone: "Etc/GMT",
      calendarYear: 2026,
    },
    weather: { file: "" },
    networks: [],
    calendars: [],
    loads: [],
    collectors: [],
    stores: [],
    stepDowns: [],
    chillers: [],
    backups: [],
    electricity: { price_per_kWh: 0.1, escalation_per_year: 0 },
    money: {
      currency: "XTS",
      realDiscountRate: 0.06,
      years: 20,
      carbonPrice_per_t: 0,
      carbonEscalation_per_year: 0,
    },
    limits: {},
  };
  const withNetwork = { ...bare, networks: [startingItem(bare, "networks", "")!] };
  const withLoad = { ...withNetwork, loads: [startingItem(withNetwork, "loads", "process-heat")!] };
  const backups = [startingItem(withLoad, "backups", "")!];
  const source = "Starting value of this program's form, not of your site.";
  const paths = ["site", "electricity", "money", "networks/network", "loads/process-heat", "backups/backup"];
  return {
    ...withLoad,
    backups,
    origins: paths.map((path) => ({ path, status: "assumption" as const, source })),
  };
}
