import type { FastifyInstance } from "fastify";
import type { RouteContext } from "../build-app.ts";
import { curveChart } from "../document/document-charts.ts";
import type { JobView, Task } from "../jobs/jobs.ts";
import { HttpFault } from "../plugins/errors.ts";
import { formOf, lastValue } from "../plugins/form-body.ts";
import { findStudy } from "./find-study.ts";

const tasksOf: Readonly<Record<string, readonly Task[]>> = {
  quick: ["typical-days"],
  full: ["full-year", "two-day"],
  second: ["second-opinion", "two-day"],
  twoDay: ["two-day"],
  curve: ["curve"],
  robust: ["robust"],
};

const places: Readonly<Record<Task, string>> = {
  "typical-days": "answer",
  "full-year": "answer",
  "second-opinion": "proof",
  "two-day": "replay",
  curve: "curve",
  robust: "futures",
};

/** Section of the study's page that holds the outcome of a job. */
function placeOf(job: JobView | null): string {
  const task = job?.tasks.findLast((one) => one !== "two-day") ?? job?.tasks[0];
  return places[task ?? "full-year"];
}

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
    // A two-day plan that is still at work is of the same answer, so it goes on afterwards.
    const job = jobs.isRunning(kept.id) ? jobs.of(kept.id) : null;
    const leaves = tasks[0] === "curve" && job?.tasks.slice(job.done).includes("two-day") === true;
    const before: Task[] = needsAnswer && !fresh ? ["full-year"] : [];
    jobs.start(kept.id, [...before, ...tasks, ...(leaves ? (["two-day"] as const) : [])]);
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
    if (job === null || job.state === "done")
      return reply.redirect(`/studies/${kept.id}#${placeOf(job)}`, 303);
    // A curve is worth reading before the last point of its bound is there.
    const drawn = job.curvePoints > 0 ? await context.services.store.readCurve(kept.id) : null;
    return reply.viewAsync("pages/work.ejs", {
      title: kept.study.title,
      studyId: kept.id,
      job,
      place: placeOf(job),
      curve: drawn === null ? null : curveChart(kept.study, drawn.curve),
      running: jobs.isRunning(kept.id),
    });
  });

  app.get("/studies/:studyId/progress.json", async (request) => {
    const kept = await findStudy(request, context);
    return { running: jobs.isRunning(kept.id), job: jobs.of(kept.id) };
  });
}
