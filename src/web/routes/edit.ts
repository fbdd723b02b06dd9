import type { FastifyInstance, FastifyReply } from "fastify";
import { filesOf } from "../../app/study-files.ts";
import type { Problem } from "../../core/problem.ts";
import type { Study } from "../../core/study/schema/study.ts";
import type { KeptStudy } from "../../store/study-store.ts";
import type { RouteContext } from "../build-app.ts";
import { documentPage } from "../document/document-page.ts";
import { applyFields, type FormEntries } from "../forms/apply-fields.ts";
import { anchorOf } from "../forms/form-field.ts";
import { formOf, lastValue } from "../plugins/form-body.ts";
import { readUpload } from "../plugins/uploads.ts";
import { findStudy } from "./find-study.ts";

const meanwhile: Problem = {
  code: "FORM_CHANGED_MEANWHILE",
  message:
    "The study was changed elsewhere since this page was shown. What you typed is kept below; look at it and save again.",
  place: {},
};

/** Changes to the inputs of a study, where they stand. */
export function editRoutes(app: FastifyInstance, context: RouteContext): void {
  const { services } = context;

  app.post("/studies/:studyId/edit", async (request, reply) => {
    const kept = await findStudy(request, context);
    const form = formOf(request.body);
    if (lastValue(form, "revision") !== kept.revision) return refuse(reply, context, kept, form, [meanwhile]);
    const applied = applyFields(kept.study, form);
    const problems = [...applied.problems, ...faultsOf(applied.study, kept.study, context)];
    if (problems.length > 0) return refuse(reply, context, kept, form, onceEach(problems));
    const outcome = await services.store.save(kept.id, kept.revision, applied.study);
    if (!outcome.saved) return refuse(reply, context, kept, form, [meanwhile]);
    return reply.redirect(`/studies/${kept.id}#${safeAnchor(lastValue(form, "at"))}`, 303);
  });

  app.post("/studies/:studyId/study.json", async (request, reply) => {
    const kept = await findStudy(request, context);
    const { files } = await readUpload(request);
    const main = files.find(({ field }) => field === "study");
    const empty = { code: "FORM_EMPTY", message: "Choose a study.json before you press Replace.", place: {} };
    if (main === undefined) return refuse(reply, context, kept, new Map(), [empty]);
    const read = services.readStudy(main.bytes.toString("utf8"));
    if (!read.ok) {
      const told = read.problems.map((p) => ({ ...p, place: { file: main.name, ...p.place } }));
      return refuse(reply, context, kept, new Map(), told);
    }
    const added = new Map<string, Uint8Array>();
    for (const { file: name } of filesOf(read.value)) {
      const file = files.find((one) => one.field === "files" && one.name === name.split("/").at(-1));
      if (file !== undefined) added.set(name, file.bytes);
    }
    await services.store.save(kept.id, kept.revision, read.value, added);
    return reply.redirect(`/studies/${kept.id}`, 303);
  });
}

/** Faults of a changed study that the study did not already have without its weather. */
export function faultsOf(study: Study, before: Study, { services }: RouteContext): readonly Problem[] {
  const outcome = services.readStudy(JSON.stringify(study));
  if (outcome.ok) return [];
  // The reader of these sentences typed into a form: only the path says where.
  const inForm = ({ place: { path }, ...problem }: Problem): Problem => ({
    ...problem,
    place: path === undefined ? {} : { path },
  });
  const earlier = services.readStudy(JSON.stringify(before));
  const known = new Set(
    earlier.ok ? [] : earlier.problems.map((p) => `${p.code} ${p.place.path} ${p.message}`),
  );
  return outcome.problems.filter((p) => !known.has(`${p.code} ${p.place.path} ${p.message}`)).map(inForm);
}

/** The document again, with what was typed and every fault; nothing is stored. */
export async function refuse(
  reply: FastifyReply,
  context: RouteContext,
  kept: KeptStudy,
  form: FormEntries,
  problems: readonly Problem[],
) {
  const typed = new Map(
    [...form].filter(([name]) => !name.includes(":") && name !== "revision" && name !== "at"),
  );
  return reply.code(422).viewAsync("pages/study.ejs", await documentPage(kept, context, { typed, problems }));
}

/** One fault for each place: the form's own first, since it saw what was typed. */
function onceEach(problems: readonly Problem[]): Problem[] {
  const seen = new Set<string>();
  return problems.filter(({ place, message }) => {
    const key = place.path ?? message;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

function safeAnchor(text: string): string {
  return anchorOf("").concat(text).startsWith("at-") && /^[A-Za-z0-9-]{1,120}$/.test(text) ? text : "works";
}
