import type { Origin, Study } from "../../core/study/schema/study.ts";
import { isObject } from "./schema-node.ts";

/** Lists of the study whose entries have an id. */
export const itemLists = [
  "networks",
  "calendars",
  "loads",
  "collectors",
  "stores",
  "stepDowns",
  "chillers",
  "backups",
] as const;
export type ItemList = (typeof itemLists)[number];

export function isItemList(name: string): name is ItemList {
  return (itemLists as readonly string[]).includes(name);
}

/** `collectors/0/cleanliness` → `collectors/film-dish/cleanliness`; entries without an id keep their place. */
export function withIds(study: Study, path: string): string {
  let value: unknown = study;
  const keys: string[] = [];
  for (const key of path.split("/")) {
    const entry: unknown = Array.isArray(value)
      ? value[Number(key)]
      : isObject(value)
        ? value[key]
        : undefined;
    keys.push(Array.isArray(value) && isObject(entry) && typeof entry.id === "string" ? entry.id : key);
    value = entry;
  }
  return keys.join("/");
}

/** The reverse of withIds; a name serves as well as an id, and a key that names nothing is left as it is. */
export function withIndexes(study: Study, path: string): string {
  let value: unknown = study;
  const keys: string[] = [];
  for (const key of path.split("/")) {
    let place = key;
    if (Array.isArray(value)) {
      const index = value.findIndex((entry) => nameOf(entry, "") === key);
      if (index >= 0) place = String(index);
    }
    keys.push(place);
    value = Array.isArray(value) ? value[Number(place)] : isObject(value) ? value[place] : undefined;
  }
  return keys.join("/");
}

/** Where the value at a path comes from: its own entry, or else that of the nearest group around it. */
export function originOf(study: Study, path: string): Origin | null {
  const byPath = new Map((study.origins ?? []).map((origin) => [withIndexes(study, origin.path), origin]));
  return originAmong(byPath, path);
}

/** As originOf, for many paths of one study: `byPath` holds origins by index path. */
export function originAmong(byPath: ReadonlyMap<string, Origin>, path: string): Origin | null {
  const keys = path.split("/");
  for (let length = keys.length; length > 0; length -= 1) {
    const origin = byPath.get(keys.slice(0, length).join("/"));
    if (origin !== undefined) return origin;
  }
  return null;
}

function nameOf(entry: unknown, otherwise: string): string {
  if (!isObject(entry)) return otherwise;
  if (typeof entry.id === "string") return entry.id;
  return typeof entry.name === "string" ? entry.name : otherwise;
}
