import { randomBytes } from "node:crypto";
import { mkdir, readFile, rm } from "node:fs/promises";
import { join } from "node:path";
import writeFileAtomic from "write-file-atomic";

/** An upload that was looked at but not yet confirmed, kept so that another try needs no new upload. */
export interface PendingUpload {
  readonly token: string;
  readonly purpose: "demand" | "weather";
  /** The load it is for; empty for weather. */
  readonly target: string;
  readonly fileName: string;
  readonly at: string;
  readonly bytes: Uint8Array;
}

const tokenPattern = /^[0-9a-f]{16}$/;

/** The pending folder of one study: the bytes and a small note for each upload. */
export class PendingUploads {
  readonly #folder: string;
  readonly #now: () => Date;

  constructor(folder: string, now: () => Date) {
    this.#folder = folder;
    this.#now = now;
  }

  async keep(upload: Pick<PendingUpload, "purpose" | "target" | "fileName" | "bytes">): Promise<string> {
    const token = randomBytes(8).toString("hex");
    await mkdir(this.#folder, { recursive: true });
    await writeFileAtomic(join(this.#folder, `${token}.bytes`), Buffer.from(upload.bytes));
    const { purpose, target, fileName } = upload;
    const note = { token, purpose, target, fileName, at: this.#now().toISOString() };
    await writeFileAtomic(join(this.#folder, `${token}.json`), JSON.stringify(note));
    return token;
  }

  /** Null where there is none of that token. */
  async read(token: string): Promise<PendingUpload | null> {
    if (!tokenPattern.test(token)) return null;
    try {
      const note = JSON.parse(await readFile(join(this.#folder, `${token}.json`), "utf8"));
      return { ...note, bytes: await readFile(join(this.#folder, `${token}.bytes`)) };
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
      throw error;
    }
  }

  async drop(token: string): Promise<void> {
    if (!tokenPattern.test(token)) return;
    await rm(join(this.#folder, `${token}.json`), { force: true });
    await rm(join(this.#folder, `${token}.bytes`), { force: true });
  }
}
