import type { FastifyInstance } from "fastify";
import type { RouteContext } from "../build-app.ts";
import type { Task } from "../jobs/jobs.ts";
import { HttpFault } from "../plugins/errors.ts";
import { formOf, lastValue } from "../plugins/form-body.ts";
import { findStudy } from "./find-study.ts";

const tasksOf: Readonly<Record<string, readonly Task[]>> = {
  quick: ["typical-days"],
  full: ["full-year", "two-day"],
  second: ["second-opinion", "two-day"],
  twoDay: ["two-day"],
  curve: ["curve"],
};

/** Long work of a study: start it, see how far it is, stop it. */
export function workRoutes(app: FastifyInstance, context: RouteContext): void {
  const { jobs } = context;

  app.post("/studies/:studyId/progress", async (request, reply) => {
    const kept = await findStudy(request, context);
    const tasks = tasksOf[lastValue(formOf(request.body), "do")];
    if (tasks === undefined) throw new HttpFault(400, "There is no such piece of work.");
    const answer = await context.services.store.readAnswer(kept.id);
    // Curve and two-day plan are of an optimum, so there must be one of the study as it is now.
    const fresh = answer?.fingerprint === kept.fingerprint;
    const needsAnswer = tasks[0] === "curve" || tasks[0] === "two-day";
    jobs.start(kept.id, needsAnswer && !fresh ? ["full-year", ...tasks] : tasks);
    return reply.redirect(`/studies/${kept.id}/progress`, 303);
  });

  app.post("/studies/:studyId/progress/stop", async (request, reply) => {
    const kept = await findStudy(request, context);
    jobs.stop(kept.id);
    return reply.redirect(`/studies/${kept.id}/progress`, 303);
  });

  app.get("/studies/:studyId/progress", async (request, reply) => {
    const kept = await findStudy(request, context);
    const job = jobs.of(kept.id);
    if (job === null || job.state === "done") return reply.redirect(`/studies/${kept.id}#answer`, 303);
    return reply.viewAsync("pages/work.ejs", {
      title: kept.study.title,
      studyId: kept.id,
      job,
      running: jobs.isRunning(kept.id),
    });
  });

  app.get("/studies/:studyId/progress.json", async (request) => {
    const kept = await findStudy(request, context);
    return { running: jobs.isRunning(kept.id), job: jobs.of(kept.id) };
  });
}
