import { filesOf, type NamedFile } from "../app/study-files.ts";
import type { Study } from "../core/study/schema/study.ts";
import { contentHash } from "./content-hash.ts";

/**
 * Hash of everything an answer is made from: the study and the contents of the files that it names.
 * Words that change no figure (title, client, author, note, where values come from) are left out, and so
 * are the point that is only compared on the area curve, the possible years with their files, the
 * process streams and the ranges of uncertain inputs.
 */
export function answerFingerprint(study: Study, fileHashes: ReadonlyMap<string, string>): string {
  const { title: _title, client: _client, author: _author, note: _note, ...rest } = study;
  const { origins: _origins, chosenPoint: _chosenPoint, futures: _futures, ...plant } = rest;
  const { streams: _streams, pinch: _pinch, sureness: _sureness, ...figures } = plant;
  const { futures: _, ...own } = study;
  return contentHash(JSON.stringify([sorted(figures), hashesOf(filesOf(own), fileHashes)]));
}

/** As answerFingerprint, and the possible years with their weather files as well. */
export function robustFingerprint(study: Study, fileHashes: ReadonlyMap<string, string>): string {
  const named = hashesOf(filesOf(study), fileHashes);
  return contentHash(
    JSON.stringify([answerFingerprint(study, fileHashes), sorted(study.futures ?? null), named]),
  );
}

/** As robustFingerprint, and the ranges of uncertain inputs as well. */
export function surenessFingerprint(study: Study, fileHashes: ReadonlyMap<string, string>): string {
  return contentHash(JSON.stringify([robustFingerprint(study, fileHashes), sorted(study.sureness ?? null)]));
}

/** Names and contents of files, by name. */
function hashesOf(named: readonly NamedFile[], fileHashes: ReadonlyMap<string, string>) {
  const names = new Set(named.map(({ file }) => file));
  return [...fileHashes].filter(([name]) => names.has(name)).sort();
}

/** As answerFingerprint, and the chosen point as well. */
export function curveFingerprint(study: Study, fileHashes: ReadonlyMap<string, string>): string {
  return contentHash(
    JSON.stringify([answerFingerprint(study, fileHashes), sorted(study.chosenPoint ?? null)]),
  );
}

/** The same value with the properties of every object in alphabetical order. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, entry]) => [key, sorted(entry)]),
  );
}
