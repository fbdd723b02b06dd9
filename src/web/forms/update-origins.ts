import type { Origin, Study } from "../../core/study/schema/study.ts";
import type { FormEntries } from "./apply-fields.ts";
import { originAmong, withIds, withIndexes } from "./study-paths.ts";

export interface OriginChanges {
  /** Paths of values that the user changed. */
  readonly changed: readonly string[];
  /** Paths of groups that were filled with starting values. */
  readonly assumed: readonly string[];
  /** Paths of rows that were taken out, the last first. */
  readonly dropped: readonly string[];
  /** The form: its `confirm:PATH` entries mark values as confirmed. */
  readonly entries: FormEntries;
}

/** Brings the list of origins up to date: a changed value is the user's own from now on. */
export function updateOrigins(before: Study, study: Study, changes: OriginChanges): void {
  const origins = new Map((before.origins ?? []).map((origin) => [withIndexes(before, origin.path), origin]));
  for (const path of changes.changed) origins.delete(path);
  for (const path of changes.assumed) {
    for (const key of [...origins.keys()]) if (key.startsWith(`${path}/`)) origins.delete(key);
    const source = "Starting value of this program's form, not of your equipment.";
    origins.set(path, { path, status: "assumption", source });
  }
  for (const path of changes.changed) {
    // Its group is assumed still, this value no longer.
    if (originAmong(origins, path)?.status === "assumption") {
      origins.set(path, { path, status: "confirmed", source: "Entered in the study." });
    }
  }
  for (const name of changes.entries.keys()) {
    if (name.startsWith("confirm-under:")) confirmUnder(origins, name.slice("confirm-under:".length));
    if (!name.startsWith("confirm:")) continue;
    const path = name.slice("confirm:".length);
    const origin = originAmong(origins, path);
    if (origin !== null) origins.set(path, { path, status: "confirmed", source: origin.source });
  }
  const kept = changes.dropped.reduce(withoutRow, origins);
  if (kept.size === 0 && before.origins === undefined) return;
  (study as { origins?: Origin[] }).origins = [...kept].map(([path, origin]) => ({
    ...origin,
    path: withIds(study, path),
  }));
}

/** Confirms every assumption about a thing: its own, and those of its values. */
function confirmUnder(origins: Map<string, Origin>, path: string): void {
  for (const [key, origin] of origins) {
    if (origin.status !== "assumption" || (key !== path && !key.startsWith(`${path}/`))) continue;
    origins.set(key, { ...origin, status: "confirmed" });
  }
}

/** Origins by path after a row was taken out: those of later rows move up. */
function withoutRow(origins: ReadonlyMap<string, Origin>, row: string): Map<string, Origin> {
  const cut = row.lastIndexOf("/") + 1;
  const list = row.slice(0, cut);
  const gone = Number(row.slice(cut));
  const moved = new Map<string, Origin>();
  for (const [path, origin] of origins) {
    const keys = path.startsWith(list) ? path.slice(list.length).split("/") : [];
    const place = Number(keys[0]);
    if (keys.length === 0 || place < gone) moved.set(path, origin);
    else if (place > gone) moved.set(`${list}${[place - 1, ...keys.slice(1)].join("/")}`, origin);
  }
  return moved;
}
