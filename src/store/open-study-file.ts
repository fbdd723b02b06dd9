import { readFileSync } from "node:fs";
import { dirname, resolve } from "node:path";
import { filesOf } from "../app/study-files.ts";
import type { StudyBundle } from "../app/types.ts";
import { found, type Outcome, type Problem, refused } from "../core/problem.ts";
import type { Study } from "../core/study/schema/study.ts";
import { readStudyJson } from "../formats/study-json.ts";
import { extractStudy } from "../formats/summary-study.ts";

export const openStudyProblems = {
  STUDY_UNREADABLE: "The study's file cannot be read.",
  STUDY_FILE_UNREADABLE: "A file that the study names cannot be read.",
} as const;

/**
 * Opens a study from a study.json or from a summary that this program wrote. A relative path in a
 * study means relative to that study's own file.
 */
export function openStudyFile(path: string): Outcome<StudyBundle> {
  const opened = textOf(path);
  if (!opened.ok) return opened;
  const text = opened.value;
  if (looksLikeHtml(text)) return extractStudy(text);
  const read = readStudyJson(text, path);
  if (!read.ok) return read;

  const problems: Problem[] = [];
  const files = new Map<string, Uint8Array>();
  for (const { file, path: place } of filesOf(read.value)) {
    try {
      files.set(file, readFileSync(resolve(dirname(path), file)));
    } catch (error) {
      problems.push({
        code: "STUDY_FILE_UNREADABLE",
        message: `The file "${file}" cannot be read (${reasonOf(error)}); its path is taken from the study's own folder.`,
        place: { file: path, path: place },
      });
    }
  }
  return problems.length > 0 ? refused(problems) : found({ study: read.value, files }, read.findings);
}

/** A study without the files that it names, which need not be there. */
export function openStudyAlone(path: string): Outcome<Study> {
  const opened = textOf(path);
  if (!opened.ok) return opened;
  if (!looksLikeHtml(opened.value)) return readStudyJson(opened.value, path);
  const bundle = extractStudy(opened.value);
  return bundle.ok ? found(bundle.value.study, bundle.findings) : bundle;
}

function textOf(path: string): Outcome<string> {
  try {
    return found(readFileSync(path, "utf8"));
  } catch (error) {
    return refused([
      {
        code: "STUDY_UNREADABLE",
        message: `The file cannot be read (${reasonOf(error)}); give a study.json or a summary.html that exists.`,
        place: { file: path },
      },
    ]);
  }
}

const looksLikeHtml = (text: string) => /^\s*(<!--|<!doctype html|<html)/i.test(text.slice(0, 500));

function reasonOf(error: unknown): string {
  const code = (error as { code?: string }).code;
  if (code === "ENOENT") return "there is no such file";
  if (code === "EISDIR") return "it is a folder";
  if (code === "EACCES") return "no permission";
  return code ?? "unknown reason";
}
