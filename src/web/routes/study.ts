import type { FastifyInstance } from "fastify";
import type { RouteContext } from "../build-app.ts";
import { documentPage } from "../document/document-page.ts";
import { findStudy } from "./find-study.ts";

/** A study as a document. */
export function studyRoutes(app: FastifyInstance, context: RouteContext): void {
  app.get("/studies/:studyId", async (request, reply) => {
    const kept = await findStudy(request, context);
    return reply.viewAsync("pages/study.ejs", await documentPage(kept, context));
  });
}
