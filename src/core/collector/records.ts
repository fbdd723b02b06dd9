import { ModelError } from "../errors.ts";
import type { Collector } from "../study/schema/collector.ts";
import type { Origin } from "../study/schema/money.ts";
import type { CollectorRecord, RecordOrigin } from "./records/collector-record.ts";
import { evacuatedTube } from "./records/evacuated-tube.ts";
import { flatPlate } from "./records/flat-plate.ts";
import { glassMirrorTrough } from "./records/glass-mirror-trough.ts";
import { inflatedFilmDish } from "./records/inflated-film-dish.ts";
import { inflatedFilmTrough } from "./records/inflated-film-trough.ts";

/** The library of generic collectors, to start a study from; every figure is to be replaced by the maker's own. */
export const collectorRecords: readonly CollectorRecord[] = [
  inflatedFilmDish,
  inflatedFilmTrough,
  glassMirrorTrough,
  evacuatedTube,
  flatPlate,
];

/**
 * A new collector of a study from a record, of free size and with none existing, and where its values come
 * from, by paths of the study (`collectors/<id>/optics/reflectance`; parts by their place, `parts/0/life_years`).
 *
 * @throws ModelError UNKNOWN_ID where there is no such record
 */
export function collectorFromRecord(
  recordId: string,
  place: { readonly id: string; readonly networks: readonly string[] },
): { collector: Collector; origins: Origin[] } {
  const record = collectorRecords.find(({ id }) => id === recordId);
  if (record === undefined) throw new ModelError("UNKNOWN_ID", `collector record ${recordId}`);
  const body = structuredClone(record.body);
  const collector = {
    id: place.id,
    networks: [...place.networks],
    ...body,
    existing_m2: 0,
    size: { choice: "free" as const },
  };
  const origins = valuePaths(body).flatMap((path) => {
    const origin = originOf(record, path);
    return origin === undefined ? [] : [{ path: `collectors/${place.id}/${path}`, ...origin }];
  });
  return { collector, origins };
}

/** The nearest origin at or above a value's path. */
export function originOf(record: CollectorRecord, path: string): RecordOrigin | undefined {
  for (let key = path; key !== ""; key = key.slice(0, Math.max(0, key.lastIndexOf("/")))) {
    const origin = record.origins[key];
    if (origin !== undefined) return origin;
  }
  return undefined;
}

const labels = new Set(["name", "filmPart"]);

/** Paths of every value of a collector but its labels; a list of numbers is one value. */
export function valuePaths(value: unknown, path = ""): string[] {
  if (typeof value !== "object" || value === null) return [path];
  if (Array.isArray(value) && value.every((item) => typeof item === "number")) return [path];
  return Object.entries(value)
    .filter(([key]) => !labels.has(key))
    .flatMap(([key, item]) => valuePaths(item, path === "" ? key : `${path}/${key}`));
}
