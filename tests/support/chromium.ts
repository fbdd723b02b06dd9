import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";

/** A Chromium on this machine: NOONKEEP_CHROMIUM, else the first on the search path; null where there is none. */
export function chromiumPath(): string | null {
  const given = process.env.NOONKEEP_CHROMIUM;
  if (given !== undefined) return given;
  const names = ["chromium", "chromium-browser", "google-chrome", "chrome"];
  const folders = (process.env.PATH ?? "").split(delimiter);
  for (const name of names)
    for (const folder of folders) {
      const path = join(folder, name);
      if (folder !== "" && existsSync(path)) return path;
    }
  return null;
}
