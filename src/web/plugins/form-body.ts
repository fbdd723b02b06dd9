import type { FastifyInstance } from "fastify";
import type { FormEntries } from "../forms/apply-fields.ts";

/** Reads a form that was sent without files into its names and values, in order. */
export function formBody(app: FastifyInstance): void {
  app.addContentTypeParser(
    "application/x-www-form-urlencoded",
    { parseAs: "string", bodyLimit: 2_000_000 },
    (_request, body, done) => done(null, entriesOf(new URLSearchParams(body as string))),
  );
}

function entriesOf(parameters: URLSearchParams): FormEntries {
  const entries = new Map<string, string[]>();
  for (const [name, value] of parameters) {
    const values = entries.get(name);
    if (values === undefined) entries.set(name, [value]);
    else values.push(value);
  }
  return entries;
}

/** The form of a request; empty where it carried none. */
export function formOf(body: unknown): FormEntries {
  return body instanceof Map ? (body as FormEntries) : new Map();
}

/** The last value of a name; empty where there is none. */
export function lastValue(form: FormEntries, name: string): string {
  return form.get(name)?.at(-1) ?? "";
}
