import { readFileSync, writeFileSync } from "node:fs";
import { type Chart, forBothWidths } from "../../src/charts/index.ts";
import { sampleCharts } from "./sample-charts.ts";

/** Writes every chart, drawn from invented figures, into one page to look at: `npx tsx tests/support/chart-gallery.ts out.html`. */
function gallery(): string {
  const palette = readFileSync(new URL("../../views/assets/palette.css", import.meta.url), "utf8");
  const figure = (chart: Chart) =>
    `<figure><figcaption>${chart.title}</figcaption>${chart.svg}<p>${chart.reading}</p></figure>`;
  const charts = sampleCharts.map(({ name, draw }) => figure(forBothWidths({ prefix: name }, draw)));
  return `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Charts</title><style>${palette}
body{background:var(--ground);color:var(--ink);font:17px/1.55 Charter,Georgia,serif;max-width:42.5rem;margin:2rem auto;padding:0 1rem}
figure{margin:3.5rem 0}figcaption{font-size:1.2rem;margin-bottom:1rem}.chart{font-family:system-ui,sans-serif}figure p{margin-top:.6rem;color:var(--ink-soft);font-size:.95rem}
</style>${charts.join("\n")}</html>`;
}

const target = process.argv[2];
if (target === undefined) throw new Error("name the file to write");
writeFileSync(target, gallery());
