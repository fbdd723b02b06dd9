import type { Problem } from "../problem.ts";
import type { Collector } from "../study/schema/collector.ts";
import { rimConcentration, secondLawConcentration } from "./concentration-limit.ts";
import { filmAgeingFaults } from "./film-ageing-faults.ts";
import { moduleFaults } from "./module-faults.ts";
import { mountFaults } from "./mount-faults.ts";
import { testReportFaults } from "./test-report-faults.ts";
import { useFaults } from "./use-faults.ts";

/** What can be wrong with a collector beyond what the schema sees. */
export const collectorProblems = {
  COLLECTOR_FILM_PART: "filmPart must name one of the collector's parts.",
  COLLECTOR_MODIFIER_LENGTH: "A modifier table needs one value for every angle.",
  COLLECTOR_MODIFIER_ORDER: "The angles of a modifier table must rise.",
  COLLECTOR_AGEING_LOST: "Ageing must leave some optical efficiency at the end of the film's life.",
  COLLECTOR_CONCENTRATION:
    "A mirror cannot concentrate beyond the second law, nor beyond what its rim angle allows.",
} as const;

/** Every fault of one collector; `path` is its place in the study, e.g. `collectors/0`. */
export function collectorFaults(collector: Collector, path: string): Problem[] {
  const problems: Problem[] = [];
  const fault = (code: keyof typeof collectorProblems, field: string, message: string) =>
    problems.push({ code, message, place: { path: `${path}/${field}` } });
  const film = collector.parts.find((part) => part.name === collector.filmPart);
  if (collector.filmPart !== undefined && film === undefined) {
    const names = collector.parts.map((part) => part.name).join(", ") || "none";
    fault(
      "COLLECTOR_FILM_PART",
      "filmPart",
      `No part is called "${collector.filmPart}"; the parts are: ${names}.`,
    );
  }
  if (film !== undefined) {
    const { transmittanceLost_per_year = 0, reflectanceLost_per_year = 0 } = collector.filmAgeing ?? {};
    for (const [field, lost_per_year] of [
      ["ageing_per_year", collector.ageing_per_year],
      ["filmAgeing/transmittanceLost_per_year", transmittanceLost_per_year],
      ["filmAgeing/reflectanceLost_per_year", reflectanceLost_per_year],
    ] as const) {
      if (lost_per_year * film.life_years < 1) continue;
      fault(
        "COLLECTOR_AGEING_LOST",
        field,
        `Ageing of ${lost_per_year} a year over a film life of ${film.life_years} years leaves no light; ` +
          "their product must stay below 1.",
      );
    }
  }
  problems.push(...filmAgeingFaults(collector, film?.life_years, path));
  problems.push(
    ...concentrationFaults(collector, path),
    ...receiverConcentrationFaults(collector, path),
    ...mountFaults(collector, path),
    ...useFaults(collector, path),
    ...moduleFaults(collector, path),
    ...testReportFaults(collector, path),
  );
  if (collector.modifier.type === "table") {
    const { angles_deg, longitudinal, transversal } = collector.modifier;
    for (const [name, values] of Object.entries({ longitudinal, transversal })) {
      if (values !== undefined && values.length !== angles_deg.length) {
        fault(
          "COLLECTOR_MODIFIER_LENGTH",
          `modifier/${name}`,
          `The ${name} modifier has ${values.length} values for ${angles_deg.length} angles; one for each is needed.`,
        );
      }
    }
    const turn = angles_deg.findIndex((angle, i) => i > 0 && !(angle > angles_deg[i - 1]!));
    if (turn > 0) {
      fault(
        "COLLECTOR_MODIFIER_ORDER",
        `modifier/angles_deg/${turn}`,
        `Angle ${angles_deg[turn]}° follows ${angles_deg[turn - 1]}°; angles must rise.`,
      );
    }
  }
  return problems;
}

/** A computed heat loss names a concentration of its own, whatever the optics are. */
function receiverConcentrationFaults({ heatLoss, mount }: Collector, path: string): Problem[] {
  if (heatLoss.by !== "computed") return [];
  const followsInTwo = mount.type === "two-axes" || mount.type === "vertical-axis-tilting";
  const inOnePlane = heatLoss.receiver === "bare-tube" || !followsInTwo;
  const most = secondLawConcentration(inOnePlane ? "trough" : "dish");
  if (heatLoss.concentration <= most) return [];
  const why = heatLoss.receiver === "bare-tube" ? "on a tube" : "on this mount";
  return [
    {
      code: "COLLECTOR_CONCENTRATION",
      message: `No mirror concentrates ${heatLoss.concentration} times ${inOnePlane ? why : "on a receiver"}: the second law allows ${Math.floor(most)} from a sun of 4.65 mrad.`,
      place: { path: `${path}/heatLoss/concentration` },
    },
  ];
}

function concentrationFaults({ optics }: Collector, path: string): Problem[] {
  if (optics.by !== "shape") return [];
  const problems: Problem[] = [];
  const fault = (code: keyof typeof collectorProblems, field: string, message: string) =>
    problems.push({ code, message, place: { path: `${path}/${field}` } });
  const { shape, concentration, rimAngle_deg } = optics;
  const byLaw = secondLawConcentration(shape);
  const byRim = rimConcentration(optics);
  if (concentration > byLaw) {
    fault(
      "COLLECTOR_CONCENTRATION",
      "optics/concentration",
      `A ${shape} cannot concentrate ${concentration} times: the second law allows ${Math.floor(byLaw)} from a sun of 4.65 mrad.`,
    );
  } else if (concentration > byRim) {
    fault(
      "COLLECTOR_CONCENTRATION",
      "optics/concentration",
      `A ${shape} with a rim angle of ${rimAngle_deg}° cannot concentrate ${concentration} times: ` +
        `beyond ${Math.floor(byRim)} its receiver is smaller than the image of the sun.`,
    );
  }
  return problems;
}
