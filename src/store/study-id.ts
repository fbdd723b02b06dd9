import { randomBytes } from "node:crypto";

/** What a study's id looks like; anything else never becomes a path. */
export const studyIdPattern = /^[a-z0-9](?:[a-z0-9-]{0,58}[a-z0-9])?$/;

/** A new id: the title's letters and digits for the reader, six random characters against clashes. */
export function newStudyId(title: string): string {
  const slug = title
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 40)
    .replace(/-+$/, "");
  return `${slug === "" ? "study" : slug}-${randomBytes(3).toString("hex")}`;
}
