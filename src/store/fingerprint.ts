import type { Study } from "../core/study/schema/study.ts";
import { contentHash } from "./content-hash.ts";

/**
 * Hash of everything an answer is made from: the study and its files' contents. Words that change no
 * figure (title, client, author, note, where values come from) are left out, and so is the point that
 * is only compared on the area curve.
 */
export function answerFingerprint(study: Study, fileHashes: ReadonlyMap<string, string>): string {
  const { title: _title, client: _client, author: _author, note: _note, ...rest } = study;
  const { origins: _origins, chosenPoint: _chosenPoint, ...figures } = rest;
  return contentHash(JSON.stringify([sorted(figures), [...fileHashes].sort()]));
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
