import multipart from "@fastify/multipart";
import type { FastifyInstance, FastifyRequest } from "fastify";

export const largestUpload_bytes = 20_000_000;

export async function uploads(app: FastifyInstance): Promise<void> {
  await app.register(multipart, {
    throwFileSizeLimit: true,
    limits: { fileSize: largestUpload_bytes, files: 60, fields: 200, fieldSize: 100_000, parts: 260 },
  });
}

export interface UploadedForm {
  readonly files: readonly { readonly field: string; readonly name: string; readonly bytes: Buffer }[];
  readonly fields: ReadonlyMap<string, string>;
}

/**
 * Everything in a form with files; empty file inputs are left out. A name keeps only its last part:
 * it is shown and looked up, never used as a path.
 */
export async function readUpload(request: FastifyRequest): Promise<UploadedForm> {
  const files: { field: string; name: string; bytes: Buffer }[] = [];
  const fields = new Map<string, string>();
  for await (const part of request.parts()) {
    if (part.type === "field") {
      fields.set(part.fieldname, String(part.value));
      continue;
    }
    const bytes = await part.toBuffer();
    const name = plainName(part.filename);
    if (bytes.length > 0 || name !== "") files.push({ field: part.fieldname, name, bytes });
  }
  return { files, fields };
}

/** The last part of a file name, without control characters, at most 120 characters. */
export function plainName(name: string): string {
  const last = name.split(/[\\/]/).at(-1) ?? "";
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out
  return last.replace(/[\u0000-\u001f\u007f]/g, "").slice(-120);
}
