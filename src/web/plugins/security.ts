import helmet from "@fastify/helmet";
import type { FastifyInstance } from "fastify";

/** Names under which a browser may ask for this program when it listens on this machine only. */
const localHosts: ReadonlySet<string> = new Set(["localhost", "127.0.0.1", "[::1]"]);

/**
 * Headers that let a page use only what this program serves, no inline style or script at all; a
 * refusal of posts that another site's page sends; and of requests under a foreign host name, so that
 * a name that resolves to this machine gives another site no way in.
 */
export async function security(
  app: FastifyInstance,
  { hosts = localHosts }: { hosts?: ReadonlySet<string> },
) {
  await app.register(helmet, {
    hsts: false,
    // "no-referrer" would make browsers send "Origin: null" with this program's own forms.
    referrerPolicy: { policy: "same-origin" },
    crossOriginEmbedderPolicy: false,
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        styleSrc: ["'self'"],
        scriptSrc: ["'self'"],
        imgSrc: ["'self'", "data:"],
        connectSrc: ["'self'"],
        fontSrc: ["'self'"],
        formAction: ["'self'"],
        baseUri: ["'none'"],
        frameAncestors: ["'none'"],
      },
    },
  });
  app.addHook("onRequest", async (request) => {
    const host = request.headers.host ?? "";
    if (!hosts.has(host.replace(/:\d+$/, "").toLowerCase()))
      throw app.httpFault(421, "This address is not served here.");
    if (request.method === "GET" || request.method === "HEAD") return;
    const site = request.headers["sec-fetch-site"];
    const { origin } = request.headers;
    // Browsers that tell the site are believed; of others the origin is compared.
    const foreign =
      site === undefined
        ? origin !== undefined && originHost(origin) !== host
        : site !== "same-origin" && site !== "none";
    if (foreign) throw app.httpFault(403, "This request came from another site's page and was refused.");
  });
}

function originHost(origin: string): string | null {
  try {
    return new URL(origin).host;
  } catch {
    return null;
  }
}
