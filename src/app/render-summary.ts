import { fileURLToPath } from "node:url";
import ejs from "ejs";
import { type SummaryDocument, summaryView } from "./summary/summary-view.ts";

/** The page's own template; it includes the others and the style sheets by their place beside it. */
const template = fileURLToPath(new URL("../../views/summary/summary.ejs", import.meta.url));
const page = '<%- include("summary.ejs", view) %>';

/**
 * The client's summary of a study as one HTML file that loads nothing and runs no script; the study
 * and its files are inside.
 */
export function renderSummary(document: SummaryDocument): string {
  const html = ejs.render(page, { view: summaryView(document) }, { filename: template, cache: false });
  return html.replace(/\n\s*\n+/g, "\n");
}
