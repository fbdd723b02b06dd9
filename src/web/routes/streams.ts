import type { FastifyInstance } from "fastify";
import type { RouteContext } from "../build-app.ts";
import { takeStreams } from "../forms/take-streams.ts";
import { formOf, lastValue } from "../plugins/form-body.ts";
import { faultsOf, refuse } from "./edit.ts";
import { findStudy } from "./find-study.ts";

/** The least heating of the process streams becomes loads of the study. */
export function streamRoutes(app: FastifyInstance, context: RouteContext): void {
  app.post("/studies/:studyId/streams/loads", async (request, reply) => {
    const kept = await findStudy(request, context);
    const changed = takeStreams(kept.study, lastValue(formOf(request.body), "like"));
    const problems = changed.ok ? faultsOf(changed.value, kept.study, context) : changed.problems;
    if (!changed.ok || problems.length > 0) return refuse(reply, context, kept, new Map(), problems);
    await context.services.store.save(kept.id, kept.revision, changed.value);
    return reply.redirect(`/studies/${kept.id}#loads`, 303);
  });
}
