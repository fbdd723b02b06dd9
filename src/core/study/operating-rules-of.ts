import type { OperatingRules } from "../replay/operating-rules.ts";
import type { Study } from "./schema/study.ts";

const lastPlace = 21;

/** What the study says about running its equipment, in the order of the dispatch problem's lists. */
export function operatingRulesOf(study: Study): OperatingRules {
  // In the order of the water orders: those of hot water have no rules of their own.
  const water = study.loads.flatMap((load): { leastLoadShare?: number; startUp_h?: number }[] =>
    load.kind === "desalination" ? [load] : load.kind === "hot-water" ? [{}] : [],
  );
  const isOrdered = study.backups.some(({ order }) => order !== undefined);
  return {
    hotFirst: study.networks
      .map((_, k) => k)
      .sort((a, b) => study.networks[b].supply_C - study.networks[a].supply_C),
    backupLeastShare: study.backups.map((backup) => backup.leastLoadShare ?? 0),
    // Those without a place come after those that have one.
    backupOrder: study.backups.map(({ order }) => order ?? (isOrdered ? lastPlace : 0)),
    chillerLeastShare: study.chillers.map((chiller) => chiller.leastLoadShare ?? 0),
    chillerStartUp_h: study.chillers.map((chiller) => chiller.startUp_h ?? 0),
    waterLeastShare: water.map((load) => load.leastLoadShare ?? 0),
    waterStartUp_h: water.map((load) => load.startUp_h ?? 0),
    storeLeastPower_kW: study.stores.map((store) => store.leastPower_kW ?? 0),
    storeDeadBand: study.stores.map((store) => store.contentDeadBand ?? 0),
  };
}
