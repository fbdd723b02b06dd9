import { closeSync, mkdirSync, openSync, writeSync } from "node:fs";
import { join } from "node:path";
import writeFileAtomic from "write-file-atomic";

/** Writes files into a folder, which is made where it is missing; each file is whole or not there. */
export async function writeFiles(
  folder: string,
  files: Readonly<Record<string, string | Uint8Array>>,
): Promise<void> {
  mkdirSync(folder, { recursive: true });
  for (const [name, content] of Object.entries(files)) {
    await writeFileAtomic(join(folder, name), typeof content === "string" ? content : Buffer.from(content));
  }
}

/** Writes a long text piece by piece. */
export function writeChunks(path: string, chunks: Iterable<string>): void {
  const file = openSync(path, "w");
  try {
    for (const chunk of chunks) writeSync(file, chunk);
  } finally {
    closeSync(file);
  }
}
