import type { FastifyInstance, FastifyReply } from "fastify";
import { collectorLevel } from "../../core/collector/network-levels.ts";
import { collectorFromRecord, collectorRecords } from "../../core/collector/records.ts";
import type { Outcome } from "../../core/problem.ts";
import type { Study } from "../../core/study/schema/study.ts";
import type { KeptStudy } from "../../store/study-store.ts";
import type { RouteContext } from "../build-app.ts";
import { addItem, removeItem } from "../forms/change-items.ts";
import { anchorOf } from "../forms/form-field.ts";
import { freeId } from "../forms/starting-values.ts";
import { isItemList } from "../forms/study-paths.ts";
import { HttpFault } from "../plugins/errors.ts";
import { formOf, lastValue } from "../plugins/form-body.ts";
import { faultsOf, refuse } from "./edit.ts";
import { findStudy } from "./find-study.ts";

/** Adding and removing networks, loads, collectors, stores, step-downs, chillers and backups. */
export function itemRoutes(app: FastifyInstance, context: RouteContext): void {
  app.post("/studies/:studyId/items/:list", async (request, reply) => {
    const { list } = request.params as { list: string };
    if (!isItemList(list)) throw new HttpFault(404, "A study has no such list.");
    const kept = await findStudy(request, context);
    const kind = lastValue(formOf(request.body), "kind");
    const outcome = addItem(
      kept.study,
      list,
      kind,
      list === "collectors" ? recordFor(kept.study, kind) : undefined,
    );
    const changed: Outcome<Study> = outcome.ok ? { ...outcome, value: outcome.value.study } : outcome;
    const anchor = outcome.ok ? anchorOf(`${list}/${outcome.value.index}`) : list;
    return store(reply, context, kept, changed, anchor);
  });

  app.post("/studies/:studyId/items/:list/:itemId/remove", async (request, reply) => {
    const { list, itemId } = request.params as { list: string; itemId: string };
    if (!isItemList(list)) throw new HttpFault(404, "A study has no such list.");
    const kept = await findStudy(request, context);
    return store(reply, context, kept, removeItem(kept.study, list, itemId), list);
  });
}

/** A collector of the library on every network of the study that it can reach. */
function recordFor(study: Study, recordId: string) {
  const record = collectorRecords.find(({ id }) => id === recordId);
  if (record === undefined) return undefined;
  const reached = study.networks.filter(
    (network) => collectorLevel(network).collectorOut_C <= record.body.highestOutlet_C,
  );
  const networks = (reached.length > 0 ? reached : study.networks.slice(0, 1)).map(({ id }) => id);
  const { collector, origins } = collectorFromRecord(recordId, {
    id: freeId(study, recordId),
    networks,
  });
  return { item: collector, origins };
}

async function store(
  reply: FastifyReply,
  context: RouteContext,
  kept: KeptStudy,
  changed: Outcome<Study>,
  anchor: string,
) {
  const problems = changed.ok ? faultsOf(changed.value, kept.study, context) : changed.problems;
  if (!changed.ok || problems.length > 0) return refuse(reply, context, kept, new Map(), problems);
  await context.services.store.save(kept.id, kept.revision, changed.value);
  return reply.redirect(`/studies/${kept.id}#${anchor}`, 303);
}
