import { Readable } from "node:stream";
import type { FastifyInstance, FastifyReply } from "fastify";
import type { RouteContext } from "../build-app.ts";
import { HttpFault } from "../plugins/errors.ts";
import { documentOf, findStudy } from "./find-study.ts";

/** The files of a study: what was put in, what was found, and the summary. */
export function downloadRoutes(app: FastifyInstance, context: RouteContext): void {
  const { services } = context;

  app.get("/studies/:studyId/study.json", async (request, reply) => {
    const kept = await findStudy(request, context);
    return send(reply, "study.json", "application/json", `${JSON.stringify(kept.study, null, 2)}\n`);
  });

  app.get("/studies/:studyId/files/:index", async (request, reply) => {
    const kept = await findStudy(request, context);
    const { index } = request.params as { index: string };
    const file = [...kept.files][Number(index)];
    if (file === undefined) throw new HttpFault(404, "The study has no such file.");
    const name = file[0].split(/[\\/]/).at(-1) ?? "file";
    return send(reply, name, "application/octet-stream", Buffer.from(file[1]));
  });

  app.get("/studies/:studyId/result.json", async (request, reply) => {
    const kept = await findStudy(request, context);
    const answer = await services.store.readAnswer(kept.id);
    if (answer === null) throw new HttpFault(404, "This study has no answer yet.");
    return send(
      reply,
      "result.json",
      "application/json",
      `${JSON.stringify(answer.sized.result, null, 2)}\n`,
    );
  });

  app.get("/studies/:studyId/hours.csv", async (request, reply) => {
    const document = await documentOf(await findStudy(request, context), context);
    if (document.sized === null) throw new HttpFault(404, "This study has no answer yet.");
    return send(reply, "hours.csv", "text/csv; charset=utf-8", services.hoursCsv(document));
  });

  app.get("/studies/:studyId/curve.json", async (request, reply) => {
    const kept = await findStudy(request, context);
    const curve = await services.store.readCurve(kept.id);
    if (curve === null) throw new HttpFault(404, "The area curve of this study was not drawn yet.");
    return send(reply, "curve.json", "application/json", `${JSON.stringify(curve.curve, null, 2)}\n`);
  });

  app.get("/studies/:studyId/curve.csv", async (request, reply) => {
    const document = await documentOf(await findStudy(request, context), context);
    if (document.curve === null) throw new HttpFault(404, "The area curve of this study was not drawn yet.");
    return send(reply, "curve.csv", "text/csv; charset=utf-8", services.curveCsv(document));
  });

  app.get("/studies/:studyId/robust.json", async (request, reply) => {
    const kept = await findStudy(request, context);
    const robust = await services.store.readRobust(kept.id);
    if (robust === null) throw new HttpFault(404, "This study was not sized for several years yet.");
    return send(reply, "robust.json", "application/json", `${JSON.stringify(robust.robust, null, 2)}\n`);
  });

  app.get("/studies/:studyId/program.mps", async (request, reply) => {
    const document = await documentOf(await findStudy(request, context), context);
    return send(
      reply,
      "program.mps",
      "text/plain; charset=utf-8",
      Readable.from(services.programMps(document.resolved)),
    );
  });

  app.get("/studies/:studyId/summary.html", async (request, reply) => {
    const kept = await findStudy(request, context);
    const document = await documentOf(kept, context);
    if (document.sized === null) throw new HttpFault(404, "This study has no answer yet; size it first.");
    const download = (request.query as Record<string, unknown>).download !== undefined;
    // The summary is one file that carries its own style; it runs no script and loads nothing.
    reply.header(
      "content-security-policy",
      "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    );
    if (download) reply.header("content-disposition", 'attachment; filename="summary.html"');
    return reply
      .type("text/html; charset=utf-8")
      .send(services.renderSummary(document, { study: kept.study, files: kept.files }));
  });
}

function send(reply: FastifyReply, name: string, type: string, body: string | Buffer | Readable) {
  const plain = name.replace(/[^A-Za-z0-9._-]/g, "_");
  return reply
    .header(
      "content-disposition",
      `attachment; filename="${plain}"; filename*=UTF-8''${encodeURIComponent(name)}`,
    )
    .type(type)
    .send(body);
}
