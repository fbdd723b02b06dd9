import type { FastifyInstance } from "fastify";
import { filesOf } from "../../app/study-files.ts";
import type { StudyBundle } from "../../app/types.ts";
import { found, type Outcome, type Problem, refused, tell } from "../../core/problem.ts";
import type { RouteContext } from "../build-app.ts";
import { emptyStudy } from "../empty-study.ts";
import { formOf, lastValue } from "../plugins/form-body.ts";
import { readUpload, type UploadedForm } from "../plugins/uploads.ts";
import type { Services } from "../services.ts";

/** The list of studies, and the ways to begin one. */
export function studiesRoutes(app: FastifyInstance, { services }: RouteContext): void {
  const { store } = services;
  const listPage = async (problems: readonly Problem[]) => ({
    title: "Studies",
    studies: await store.list(),
    problems: problems.map(tell),
  });

  app.get("/", async (_request, reply) => reply.viewAsync("pages/studies.ejs", await listPage([])));

  app.post("/studies", async (request, reply) => {
    const begin = lastValue(formOf(request.body), "begin");
    const bundle: StudyBundle =
      begin === "example" ? services.exampleBundle() : { study: emptyStudy(), files: new Map() };
    return reply.redirect(`/studies/${await store.create(bundle)}`, 303);
  });

  app.post("/studies/upload", async (request, reply) => {
    const outcome = openUpload(await readUpload(request), services);
    if (!outcome.ok) {
      return reply.code(422).viewAsync("pages/studies.ejs", await listPage(outcome.problems));
    }
    return reply.redirect(`/studies/${await store.create(outcome.value)}`, 303);
  });

  app.post<{ Params: { studyId: string } }>("/studies/:studyId/remove", async (request, reply) => {
    if (lastValue(formOf(request.body), "sure") === "yes") await store.remove(request.params.studyId);
    return reply.redirect("/", 303);
  });
}

/** A study.json with the files that it names, or a summary with the study inside. */
function openUpload({ files }: UploadedForm, services: Services): Outcome<StudyBundle> {
  const main = files.find(({ field }) => field === "study");
  if (main === undefined) {
    return refused([
      { code: "FORM_EMPTY", message: "Choose a study.json or a summary before you press Open.", place: {} },
    ]);
  }
  const text = main.bytes.toString("utf8");
  if (/^\s*</.test(text)) return services.openSummary(text);
  const study = services.readStudy(text);
  if (!study.ok)
    return refused(study.problems.map((p) => ({ ...p, place: { file: main.name, ...p.place } })));
  const kept = new Map<string, Uint8Array>();
  for (const { file: name } of filesOf(study.value)) {
    // A study names its files relative to itself; an upload carries only their last part.
    const last = name.split("/").at(-1);
    const file = files.find((one) => one.field === "files" && one.name === last);
    if (file !== undefined) kept.set(name, file.bytes);
  }
  return found({ study: study.value, files: kept }, study.findings);
}
