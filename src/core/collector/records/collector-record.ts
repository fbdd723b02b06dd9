import type { Collector } from "../../study/schema/collector.ts";

/** A generic collector: everything but its id, its networks and how much of it there is. */
export type CollectorBody = Omit<Collector, "id" | "networks" | "size" | "existing_m2">;

/** Where a value of a record comes from. */
export interface RecordOrigin {
  readonly status: "assumption" | "published";
  readonly source: string;
}

/**
 * A collector of the library. `origins` is keyed by path in `body`, e.g. `optics/reflectance`; a key stands
 * for every value below it that has no nearer key, e.g. `storm` for both its values.
 */
export interface CollectorRecord {
  readonly id: string;
  readonly description: string;
  readonly body: CollectorBody;
  readonly origins: Readonly<Record<string, RecordOrigin>>;
}

export function published(source: string): RecordOrigin {
  return { status: "published", source };
}

export function toReplace(what: string): RecordOrigin {
  return { status: "assumption", source: `assumption to replace: ${what}` };
}

export function commonPractice(what: string): RecordOrigin {
  return { status: "assumption", source: `common practice, no source: ${what}` };
}
