import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { generatedPages } from "./generated-pages.ts";

/** Writes every generated page of docs; run by `npm run docs` from dist/docs. */
for (const { path, text } of generatedPages()) {
  const target = fileURLToPath(new URL(`../../${path}`, import.meta.url));
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, text);
}
