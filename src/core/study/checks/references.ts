import type { Problem } from "../../problem.ts";
import { namedCalendars } from "../named-calendars.ts";
import type { Study } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

const lists = [
  "networks",
  "calendars",
  "loads",
  "collectors",
  "stores",
  "stepDowns",
  "chillers",
  "backups",
] as const;

/** Ids used twice, and references that name nothing or the wrong kind. */
export function checkReferences(study: Study): Problem[] {
  const problems: Problem[] = [];
  const firstAt = new Map<string, string>();
  for (const list of lists)
    study[list].forEach((item, i) => {
      const path = `${list}/${i}/id`;
      const first = firstAt.get(item.id);
      if (first === undefined) firstAt.set(item.id, path);
      else
        problems.push(
          fault(
            "STUDY_ID_TWICE",
            path,
            `The id "${item.id}" is already that of ${first}; every id must be unique.`,
          ),
        );
    });

  const networks = study.networks.map(({ id }) => id);
  const coolingLoads = study.loads.filter(({ kind }) => kind === "cooling").map(({ id }) => id);
  const must = (id: string, ids: readonly string[], kind: string, path: string) => {
    if (ids.includes(id)) return;
    const known =
      ids.length === 0 ? "there is none" : `${ids.join(", ")} ${ids.length === 1 ? "is" : "are"} there`;
    const other = firstAt.get(id);
    const what = other === undefined ? "nothing in the study" : `the item at ${other.replace(/\/id$/, "")}`;
    problems.push(
      fault("STUDY_REFERENCE", path, `"${id}" is the id of ${what}; a ${kind} is needed, and ${known}.`),
    );
  };
  const calendars = study.calendars.map(({ id }) => id);
  const network = (id: string, path: string) => must(id, networks, "heat network", path);
  const cooling = (id: string, path: string) => must(id, coolingLoads, "cooling load", path);

  for (const { id, path } of namedCalendars(study)) must(id, calendars, "calendar", path);
  study.loads.forEach((load, i) => {
    if (load.kind !== "cooling") network(load.network, `loads/${i}/network`);
  });
  study.collectors.forEach((collector, i) => {
    collector.networks.forEach((id, j) => {
      const path = `collectors/${i}/networks/${j}`;
      network(id, path);
      if (collector.networks.indexOf(id) < j)
        problems.push(
          fault("STUDY_REFERENCE_TWICE", path, `The network "${id}" is named twice; once is allowed.`),
        );
    });
  });
  study.stores.forEach((store, i) => {
    if (store.network !== undefined) network(store.network, `stores/${i}/network`);
    if (store.load !== undefined) cooling(store.load, `stores/${i}/load`);
  });
  study.stepDowns.forEach((step, i) => {
    network(step.from, `stepDowns/${i}/from`);
    network(step.to, `stepDowns/${i}/to`);
  });
  study.chillers.forEach((chiller, i) => {
    cooling(chiller.load, `chillers/${i}/load`);
    network(chiller.network, `chillers/${i}/network`);
  });
  study.backups.forEach((backup, i) => {
    network(backup.network, `backups/${i}/network`);
  });
  return problems;
}
