import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";

/** The checkout's top folder. */
export const projectRoot = fileURLToPath(new URL("../..", import.meta.url));

/** Every file below a folder of the checkout whose name ends so, as paths from the checkout with slashes. */
export function filesBelow(folder: string, ending: string): string[] {
  return readdirSync(join(projectRoot, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map((entry) => relative(projectRoot, join(entry.parentPath, entry.name)).replaceAll("\\", "/"))
    .sort();
}

export function readText(path: string): string {
  return readFileSync(join(projectRoot, path), "utf8");
}
