import rateLimit from "@fastify/rate-limit";
import fastify, { type FastifyInstance } from "fastify";
import { ChartCache } from "./document/chart-cache.ts";
import { Jobs } from "./jobs/jobs.ts";
import { errorPages } from "./plugins/errors.ts";
import { formBody } from "./plugins/form-body.ts";
import { security } from "./plugins/security.ts";
import { uploads } from "./plugins/uploads.ts";
import { views } from "./plugins/views.ts";
import { ResolvedCache } from "./resolved-cache.ts";
import { demandRoutes } from "./routes/demand.ts";
import { downloadRoutes } from "./routes/downloads.ts";
import { editRoutes } from "./routes/edit.ts";
import { itemRoutes } from "./routes/items.ts";
import { streamRoutes } from "./routes/streams.ts";
import { studiesRoutes } from "./routes/studies.ts";
import { studyRoutes } from "./routes/study.ts";
import { weatherRoutes } from "./routes/weather.ts";
import { weatherMeansRoutes } from "./routes/weather-means.ts";
import { weatherSheetRoutes } from "./routes/weather-sheet.ts";
import { workRoutes } from "./routes/work.ts";
import type { Services } from "./services.ts";

export interface AppOptions {
  readonly services: Services;
  readonly logger?: boolean;
  /** Host names under which the program answers, besides this machine's own. */
  readonly hosts?: readonly string[];
  readonly requestsPerMinute?: number;
}

/** What every route gets. */
export interface RouteContext {
  readonly services: Services;
  readonly jobs: Jobs;
  readonly resolved: ResolvedCache;
  readonly charts: ChartCache;
}

/** The web application, the same for the server and for tests. */
export async function buildApp(
  options: AppOptions,
): Promise<{ readonly app: FastifyInstance; readonly jobs: Jobs }> {
  const { services } = options;
  const app: FastifyInstance = fastify({
    logger: options.logger ?? false,
    bodyLimit: 2_000_000,
    routerOptions: { maxParamLength: 80 },
  });
  await views(app);
  errorPages(app);
  await security(app, {
    hosts: new Set(["localhost", "127.0.0.1", "[::1]", ...(options.hosts ?? [])]),
  });
  await app.register(rateLimit, { max: options.requestsPerMinute ?? 900, timeWindow: "1 minute" });
  formBody(app);
  await uploads(app);

  const jobs = new Jobs({
    store: services.store,
    doWork: services.doWork,
    onFault: (error) => app.log.error({ err: error }, "fault in long work"),
  });
  const context: RouteContext = {
    services,
    jobs,
    resolved: new ResolvedCache(services.resolveStudy),
    charts: new ChartCache(),
  };
  app.addHook("onClose", async () => jobs.stopAll());

  studiesRoutes(app, context);
  studyRoutes(app, context);
  editRoutes(app, context);
  itemRoutes(app, context);
  streamRoutes(app, context);
  demandRoutes(app, context);
  weatherSheetRoutes(app, context);
  weatherRoutes(app, context);
  weatherMeansRoutes(app, context);
  workRoutes(app, context);
  downloadRoutes(app, context);
  return { app, jobs };
}
