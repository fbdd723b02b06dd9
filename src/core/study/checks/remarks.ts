import { ages } from "../../collector/film-state.ts";
import { canServe, collectorLevel } from "../../collector/network-levels.ts";
import type { Problem } from "../../problem.ts";
import type { Study } from "../schema/study.ts";
import { backupRemarks } from "./backups.ts";
import { calendarRemarks } from "./calendars.ts";
import { desalinationRemarks } from "./desalination-remarks.ts";
import { dryingRemarks } from "./drying-remarks.ts";
import { sizeRemarks } from "./sizes.ts";
import { steamRemarks } from "./steam-remarks.ts";
import { fault } from "./study-problems.ts";

/** Remarks on a study without faults: what a careful reader would ask about. */
export function remarks(study: Study): Problem[] {
  return [
    ...networkRemarks(study),
    ...calendarRemarks(study),
    ...collectorRemarks(study),
    ...sizeRemarks(study),
    ...steamRemarks(study),
    ...desalinationRemarks(study),
    ...dryingRemarks(study),
    ...backupRemarks(study),
    ...electricityRemarks(study),
  ];
}

function networkRemarks(study: Study): Problem[] {
  return study.networks.flatMap((network, i) => {
    const found: Problem[] = [];
    const path = `networks/${i}`;
    if (!study.backups.some((backup) => backup.network === network.id))
      found.push(
        fault(
          "REMARK_NO_BACKUP",
          path,
          `The network "${network.id}" has no backup of its own; where sun, store and step-down do not suffice, its heat stays unmet.`,
        ),
      );
    const drawn =
      study.loads.some((load) => load.kind !== "cooling" && load.network === network.id) ||
      study.chillers.some((chiller) => chiller.network === network.id) ||
      study.stepDowns.some((step) => step.from === network.id);
    if (!drawn)
      found.push(fault("REMARK_IDLE_NETWORK", path, `Nothing draws heat from the network "${network.id}".`));
    const { collectorOut_C } = collectorLevel(network);
    if (network.carrier === "water" && collectorOut_C > 100)
      found.push(
        fault(
          "REMARK_PRESSURE",
          path,
          `Water of up to ${collectorOut_C} °C in the network "${network.id}" is under pressure; local codes for pressure equipment apply.`,
        ),
      );
    return found;
  });
}

function collectorRemarks(study: Study): Problem[] {
  if (study.collectors.length === 0)
    return [
      fault("REMARK_NO_COLLECTOR", "collectors", "The study has no collector, so there is no solar heat."),
    ];
  return study.collectors.flatMap((collector, i) => {
    const found: Problem[] = [];
    const levels = study.networks.filter(({ id }) => collector.networks.includes(id)).map(collectorLevel);
    if (levels.every((level) => !canServe(collector, level).possible))
      found.push(
        fault(
          "REMARK_COLLECTOR_TOO_COOL",
          `collectors/${i}/highestOutlet_C`,
          `"${collector.id}" reaches ${collector.highestOutlet_C} °C, and its networks need ${levels.map((level) => level.collectorOut_C).join(", ")} °C; it cannot serve any of them.`,
        ),
      );
    const { optics, heatLoss, testReport } = collector;
    if (testReport !== undefined) {
      const beyond = study.networks.flatMap((network) => {
        const level = collectorLevel(network);
        const used = collector.networks.includes(network.id) && canServe(collector, level).possible;
        return used && level.meanFluid_C > testReport.highestTested_C ? [level.meanFluid_C] : [];
      });
      if (beyond.length > 0)
        found.push(
          fault(
            "REMARK_BEYOND_TEST",
            `collectors/${i}/testReport/highestTested_C`,
            `"${collector.id}" was tested up to a mean fluid temperature of ${testReport.highestTested_C} °C and is to run at ${beyond.join(", ")} °C; its loss there is extrapolated, and only a test at that temperature tells it.`,
          ),
        );
    }
    if (
      optics.by === "shape" &&
      heatLoss.by === "computed" &&
      Math.abs(heatLoss.concentration / optics.concentration - 1) > 0.01
    )
      found.push(
        fault(
          "REMARK_CONCENTRATIONS",
          `collectors/${i}/heatLoss/concentration`,
          `The optics of "${collector.id}" concentrate ${optics.concentration} times and its heat loss counts ${heatLoss.concentration} times; one receiver has one concentration.`,
        ),
      );
    if (ages(collector) && collector.filmPart === undefined)
      found.push(
        fault(
          "REMARK_AGEING",
          `collectors/${i}/filmPart`,
          `"${collector.id}" ages and names no film part; it ages through the life of its longest-lived part.`,
        ),
      );
    return found;
  });
}

function electricityRemarks({ electricity }: Study): Problem[] {
  if (electricity.co2_kg_per_kWh !== undefined) return [];
  return [
    fault(
      "REMARK_ELECTRICITY_CO2",
      "electricity/co2_kg_per_kWh",
      "Electricity has no CO2 factor; its emissions are left out.",
    ),
  ];
}
