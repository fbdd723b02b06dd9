import { collectorRecordsPage } from "../core/collector/records-page.ts";
import { errorsPage } from "./errors-page.ts";
import { studyReference } from "./study-reference.ts";

/** A page of docs that is made from the source; `path` counts from the checkout. */
export interface GeneratedPage {
  readonly path: string;
  readonly text: string;
}

/** Every page that `npm run docs` writes and that a test holds fresh. */
export function generatedPages(): GeneratedPage[] {
  return [
    { path: "docs/errors.md", text: errorsPage() },
    { path: "docs/study-reference.md", text: studyReference() },
    { path: "docs/methods/collector-records.md", text: collectorRecordsPage() },
  ];
}
