import type { FastifyError, FastifyInstance } from "fastify";

/** A refusal whose sentence may be shown to the reader. */
export class HttpFault extends Error {
  override readonly name = "HttpFault";
  readonly statusCode: number;
  constructor(statusCode: number, message: string) {
    super(message);
    this.statusCode = statusCode;
  }
}

declare module "fastify" {
  interface FastifyInstance {
    httpFault(statusCode: number, sentence: string): HttpFault;
  }
}

/** What to tell the reader; anything not listed is a fault of ours and told without its details. */
const sentences: Readonly<Record<number, string>> = {
  400: "The request could not be understood.",
  404: "There is nothing at this address.",
  406: "A form with a file was expected.",
  413: "The upload is larger than is allowed: 20 MB for a file, 60 files at once.",
  415: "This kind of content is not taken here.",
  429: "Too many requests at once. Wait a minute and try again.",
};

/** Error pages: calm words for the reader, the details only for the log. */
export function errorPages(app: FastifyInstance): void {
  app.decorate("httpFault", (statusCode: number, sentence: string) => new HttpFault(statusCode, sentence));
  app.setNotFoundHandler(async (_request, reply) =>
    reply.code(404).viewAsync("pages/error.ejs", { title: "Not found", sentence: sentences[404], code: 404 }),
  );
  app.setErrorHandler(async (error: FastifyError, request, reply) => {
    const code = error.statusCode !== undefined && error.statusCode >= 400 ? error.statusCode : 500;
    if (code >= 500) request.log.error({ err: error }, "fault while answering");
    const sentence =
      error instanceof HttpFault
        ? error.message
        : (sentences[code] ??
          (code >= 500
            ? "Something went wrong inside the program. Your study is as it was before; the log has the details."
            : sentences[400]));
    return reply.code(code).viewAsync("pages/error.ejs", {
      title: code >= 500 ? "A fault of this program" : "Not done",
      sentence,
      code,
    });
  });
}
