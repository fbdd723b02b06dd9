import { mkdir, readdir, readFile, rename, rm } from "node:fs/promises";
import { join } from "node:path";
import writeFileAtomic from "write-file-atomic";
import type { SizedStudy, StudyBundle } from "../app/types.ts";
import type { AreaCurve, Result } from "../core/study/result.ts";
import type { RobustAnswer } from "../core/study/robust/robust-answer.ts";
import type { Study } from "../core/study/schema/study.ts";
import { contentHash } from "./content-hash.ts";
import { answerFingerprint, curveFingerprint, robustFingerprint } from "./fingerprint.ts";
import { packHours, unpackHours } from "./hours-file.ts";
import { PendingUploads } from "./pending-uploads.ts";
import { newStudyId, studyIdPattern } from "./study-id.ts";

/** One line of the list of studies. */
export interface StudyEntry {
  readonly id: string;
  readonly title: string;
  readonly site: string;
  readonly changedAt: string;
}

/** A study as it is kept. `revision` changes with every write of the study or its files. */
export interface KeptStudy extends StudyBundle {
  readonly id: string;
  readonly revision: string;
  /** Fingerprint that an answer of just this study and these files carries. */
  readonly fingerprint: string;
  readonly curveFingerprint: string;
  readonly robustFingerprint: string;
}

/** An answer with the fingerprint of what it was made from: stale where the study's is another. */
export interface KeptAnswer {
  readonly fingerprint: string;
  readonly sized: SizedStudy;
}
export interface KeptCurve {
  readonly fingerprint: string;
  readonly curve: AreaCurve;
}

/** Sizes for several possible years. */
export interface KeptRobust {
  readonly fingerprint: string;
  readonly robust: RobustAnswer;
}

interface FileEntry {
  readonly name: string;
  readonly sha256: string;
}

export type SaveOutcome =
  | { readonly saved: true; readonly revision: string }
  /** Somebody else wrote since `basis` was read; nothing was stored. */
  | { readonly saved: false };

/**
 * Studies as plain files under one folder. Every write goes to a temporary name, is flushed and then
 * renamed, so a reader sees the old or the new, never half. Names given by a user are never paths:
 * uploads are kept by content hash and looked up through files.json. Writes to one study are queued.
 */
export class StudyStore {
  readonly #root: string;
  readonly #now: () => Date;
  readonly #queues = new Map<string, Promise<unknown>>();

  constructor(options: { readonly root: string; readonly now?: () => Date }) {
    this.#root = options.root;
    this.#now = options.now ?? (() => new Date());
  }

  async list(): Promise<StudyEntry[]> {
    const names = await readdir(this.#root).catch(missing([] as string[]));
    const entries: StudyEntry[] = [];
    for (const id of names.filter((name) => studyIdPattern.test(name)).sort()) {
      const bytes = await readFile(this.#path(id, "study.json"), "utf8").catch(missing(null));
      const meta = await readFile(this.#path(id, "meta.json"), "utf8").catch(missing(null));
      if (bytes === null) continue;
      const study = JSON.parse(bytes) as Study;
      const changedAt = meta === null ? "" : (JSON.parse(meta) as { changedAt: string }).changedAt;
      entries.push({ id, title: study.title, site: study.site.name, changedAt });
    }
    return entries.sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1));
  }

  /** Keeps a new study with its files; returns the id made for it. */
  async create(bundle: StudyBundle): Promise<string> {
    const id = newStudyId(bundle.study.title);
    await this.#queued(id, async () => {
      await mkdir(this.#path(id, "files"), { recursive: true });
      await this.#writeFiles(id, bundle.files);
      await this.#writeStudy(id, bundle.study);
    });
    return id;
  }

  /** Null where there is no such study. */
  async read(id: string): Promise<KeptStudy | null> {
    if (!studyIdPattern.test(id)) return null;
    const text = await readFile(this.#path(id, "study.json"), "utf8").catch(missing(null));
    if (text === null) return null;
    const study = JSON.parse(text) as Study;
    const entries = await this.#fileEntries(id);
    const files = new Map<string, Uint8Array>();
    for (const { name, sha256 } of entries) files.set(name, await readFile(this.#path(id, "files", sha256)));
    const hashes = new Map(entries.map(({ name, sha256 }) => [name, sha256]));
    return {
      id,
      study,
      files,
      revision: contentHash(JSON.stringify([text, entries])).slice(0, 16),
      fingerprint: answerFingerprint(study, hashes),
      curveFingerprint: curveFingerprint(study, hashes),
      robustFingerprint: robustFingerprint(study, hashes),
    };
  }

  /** Replaces the study, and adds or replaces `files`, if nobody wrote since `basis` was read. */
  save(
    id: string,
    basis: string,
    study: Study,
    files: ReadonlyMap<string, Uint8Array> = new Map(),
  ): Promise<SaveOutcome> {
    return this.#queued(id, async () => {
      const kept = await this.read(id);
      if (kept === null || kept.revision !== basis) return { saved: false };
      await this.#keepRevision(id, kept);
      await this.#writeFiles(id, files);
      await this.#writeStudy(id, study);
      const after = await this.read(id);
      return after === null ? { saved: false } : { saved: true, revision: after.revision };
    });
  }

  async remove(id: string): Promise<void> {
    if (!studyIdPattern.test(id)) return;
    await this.#queued(id, () => rm(this.#path(id), { recursive: true, force: true }));
  }

  /** Keeps an answer: all of it under a new name first, then the pointer to it. */
  saveAnswer(id: string, fingerprint: string, sized: SizedStudy): Promise<void> {
    return this.#queued(id, async () => {
      const folder = `answer-${this.#now().getTime().toString(36)}-${fingerprint.slice(0, 8)}`;
      await mkdir(this.#path(id, folder), { recursive: true });
      const { header, columns } = packHours(sized.hours);
      await writeFileAtomic(this.#path(id, folder, "hours.bin"), Buffer.from(columns));
      await writeFileAtomic(this.#path(id, folder, "hours.json"), header);
      await writeFileAtomic(
        this.#path(id, folder, "result.json"),
        `${JSON.stringify(sized.result, null, 2)}\n`,
      );
      await writeFileAtomic(this.#path(id, "answer.json"), JSON.stringify({ fingerprint, folder }));
      for (const name of await readdir(this.#path(id))) {
        if (name.startsWith("answer-") && name !== folder) {
          await rm(this.#path(id, name), { recursive: true, force: true });
        }
      }
    });
  }

  async readAnswer(id: string): Promise<KeptAnswer | null> {
    if (!studyIdPattern.test(id)) return null;
    const pointer = await readFile(this.#path(id, "answer.json"), "utf8").catch(missing(null));
    if (pointer === null) return null;
    const { fingerprint, folder } = JSON.parse(pointer) as { fingerprint: string; folder: string };
    const [result, header, columns] = await Promise.all([
      readFile(this.#path(id, folder, "result.json"), "utf8"),
      readFile(this.#path(id, folder, "hours.json"), "utf8"),
      readFile(this.#path(id, folder, "hours.bin")),
    ]);
    return {
      fingerprint,
      sized: { result: JSON.parse(result) as Result, hours: unpackHours(header, columns) },
    };
  }

  saveCurve(id: string, fingerprint: string, curve: AreaCurve): Promise<void> {
    return this.#queued(id, () =>
      writeFileAtomic(this.#path(id, "curve.json"), JSON.stringify({ fingerprint, curve })),
    );
  }

  async readCurve(id: string): Promise<KeptCurve | null> {
    if (!studyIdPattern.test(id)) return null;
    const text = await readFile(this.#path(id, "curve.json"), "utf8").catch(missing(null));
    if (text === null) return null;
    const kept = JSON.parse(text) as KeptCurve;
    // Curves of before the replay have other points; they are drawn again rather than guessed at.
    return kept.curve.optimumReplay === undefined ? null : kept;
  }

  saveRobust(id: string, fingerprint: string, robust: RobustAnswer): Promise<void> {
    return this.#queued(id, () =>
      writeFileAtomic(this.#path(id, "robust.json"), JSON.stringify({ fingerprint, robust })),
    );
  }

  async readRobust(id: string): Promise<KeptRobust | null> {
    if (!studyIdPattern.test(id)) return null;
    const text = await readFile(this.#path(id, "robust.json"), "utf8").catch(missing(null));
    return text === null ? null : (JSON.parse(text) as KeptRobust);
  }

  /** Uploads of one study that wait for the user's word. */
  pending(id: string): PendingUploads {
    if (!studyIdPattern.test(id)) throw new RangeError("not a study id");
    return new PendingUploads(this.#path(id, "pending"), this.#now);
  }

  #path(id: string, ...parts: string[]): string {
    return join(this.#root, id, ...parts);
  }

  /** files.json: which content each name in the study stands for. */
  async #fileEntries(id: string): Promise<FileEntry[]> {
    const text = await readFile(this.#path(id, "files.json"), "utf8").catch(missing("[]"));
    return JSON.parse(text) as FileEntry[];
  }

  async #writeFiles(id: string, files: ReadonlyMap<string, Uint8Array>): Promise<void> {
    if (files.size === 0) return;
    const names = new Map((await this.#fileEntries(id)).map(({ name, sha256 }) => [name, sha256]));
    for (const [name, bytes] of files) {
      const sha256 = contentHash(bytes);
      await writeFileAtomic(this.#path(id, "files", sha256), Buffer.from(bytes));
      names.set(name, sha256);
    }
    const entries: FileEntry[] = [...names].map(([name, sha256]) => ({ name, sha256 }));
    await writeFileAtomic(this.#path(id, "files.json"), `${JSON.stringify(entries, null, 2)}\n`);
  }

  async #writeStudy(id: string, study: Study): Promise<void> {
    await writeFileAtomic(this.#path(id, "study.json"), `${JSON.stringify(study, null, 2)}\n`);
    await writeFileAtomic(
      this.#path(id, "meta.json"),
      JSON.stringify({ changedAt: this.#now().toISOString() }),
    );
  }

  async #keepRevision(id: string, kept: KeptStudy): Promise<void> {
    await mkdir(this.#path(id, "revisions"), { recursive: true });
    const stamp = this.#now().toISOString().replaceAll(":", "-");
    const temporary = this.#path(id, "revisions", `.${kept.revision}.tmp`);
    await writeFileAtomic(temporary, `${JSON.stringify(kept.study, null, 2)}\n`);
    await rename(temporary, this.#path(id, "revisions", `${stamp}-${kept.revision}.json`));
  }

  #queued<T>(id: string, work: () => Promise<T>): Promise<T> {
    const before = this.#queues.get(id) ?? Promise.resolve();
    const mine = before.then(work, work);
    const settled = mine.then(
      () => undefined,
      () => undefined,
    );
    this.#queues.set(id, settled);
    void settled.then(() => {
      if (this.#queues.get(id) === settled) this.#queues.delete(id);
    });
    return mine;
  }
}

/** Turns "there is no such file" into a value; any other failure stays one. */
function missing<T>(value: T): (error: NodeJS.ErrnoException) => T {
  return (error) => {
    if (error.code === "ENOENT" || error.code === "ENOTDIR") return value;
    throw error;
  };
}
