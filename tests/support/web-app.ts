import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { loadSolvers } from "../../src/solver/solvers.ts";
import { StudyStore } from "../../src/store/study-store.ts";
import { buildApp } from "../../src/web/build-app.ts";
import { workOn } from "../../src/web/jobs/work-on.ts";
import { realServices } from "../../src/web/real-services.ts";
import type { Services } from "../../src/web/services.ts";

/** The real application over an empty folder; long work runs in this thread unless a test gives its own. */
export async function webApp(own: Partial<Services> = {}, options: { requestsPerMinute?: number } = {}) {
  const root = await mkdtemp(join(tmpdir(), "noonkeep-web-"));
  const store = new StudyStore({ root });
  const doWork: Services["doWork"] = async (work, { onProgress, onCurve, signal }) =>
    workOn(work, { solvers: await loadSolvers(), onProgress, onCurve, shouldStop: () => signal.aborted });
  const services = { ...realServices({ store, doWork, today: () => "2026-11-25" }), ...own };
  const { app, jobs } = await buildApp({ services, ...options });
  return { app, jobs, store, root, services };
}

/** A form as a browser sends it. */
export function form(fields: Readonly<Record<string, string>>) {
  return {
    payload: new URLSearchParams(fields).toString(),
    headers: { "content-type": "application/x-www-form-urlencoded" },
  };
}

/** A form with files as a browser sends it. */
export function upload(
  files: readonly { readonly field: string; readonly name: string; readonly text: string | Buffer }[],
) {
  const boundary = "----noonkeep-test";
  const parts = files.map(({ field, name, text }) =>
    Buffer.concat([
      Buffer.from(
        `--${boundary}\r\ncontent-disposition: form-data; name="${field}"; filename="${name}"\r\ncontent-type: application/octet-stream\r\n\r\n`,
      ),
      Buffer.from(text),
      Buffer.from("\r\n"),
    ]),
  );
  return {
    payload: Buffer.concat([...parts, Buffer.from(`--${boundary}--\r\n`)]),
    headers: { "content-type": `multipart/form-data; boundary=${boundary}` },
  };
}

/** A year of hourly figures as a CSV that a factory might have. */
export function profileCsv(value: (hour: number) => number): string {
  const start = Date.UTC(2025, 0, 1);
  const rows = Array.from({ length: 8760 }, (_, hour) => {
    const stamp = new Date(start + hour * 3_600_000).toISOString().slice(0, 16).replace("T", " ");
    return `${stamp},${value(hour)}`;
  });
  return `time,heat [kW]\n${rows.join("\n")}\n`;
}
