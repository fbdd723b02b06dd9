import { fileURLToPath } from "node:url";
import fastifyStatic from "@fastify/static";
import view from "@fastify/view";
import ejs from "ejs";
import type { FastifyInstance } from "fastify";

const root = fileURLToPath(new URL("../../../views", import.meta.url));

/** Pages from views/ with escaped output, and the style sheets and script beside them. */
export async function views(app: FastifyInstance): Promise<void> {
  await app.register(view, {
    engine: { ejs },
    root,
    options: { cache: true, rmWhitespace: false },
    production: true,
  });
  await app.register(fastifyStatic, { root: `${root}/assets`, prefix: "/assets/", maxAge: 60_000 });
  app.get("/favicon.ico", async (_request, reply) => reply.redirect("/assets/mark.svg", 301));
}
