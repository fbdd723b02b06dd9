import type { Study } from "../../core/study/schema/study.ts";
import { describeValues } from "./describe-value.ts";

/** Values of one thing that share status and source. */
export interface AssumptionRow {
  readonly values: string;
  readonly status: string;
  readonly source: string;
}

export interface AssumptionGroup {
  readonly owner: string;
  readonly rows: readonly AssumptionRow[];
}

const statusWords = {
  assumption: "assumed",
  published: "published",
  confirmed: "confirmed",
} as const;

/** Every value of the study that has an origin, by the thing it belongs to. */
export function assumptionGroups(study: Study): AssumptionGroup[] {
  const owners = new Map<string, Map<string, GatheredRow>>();
  for (const { path, status, source } of study.origins ?? []) {
    const described = describeValues(study, path);
    const shown =
      described.length > 0 ? described : [{ owner: "Other", title: path, value: "not in the study" }];
    const words = status === "assumption" ? source.replace(/^assumption to replace:\s*/i, "") : source;
    for (const { owner, title, value } of shown) {
      const rows = owners.get(owner) ?? new Map<string, GatheredRow>();
      owners.set(owner, rows);
      const key = `${status}\n${words}`;
      const row = rows.get(key) ?? { values: [], status: statusWords[status], source: words };
      rows.set(key, row);
      row.values.push({ title, value });
    }
  }
  return [...owners].map(([owner, rows]) => ({
    owner,
    rows: [...rows.values()].map((row) => ({ ...row, values: inWords(row.values) })),
  }));
}

interface GatheredRow {
  readonly values: { readonly title: string; readonly value: string }[];
  readonly status: string;
  readonly source: string;
}

/** "Film: price 2.5, life 2 years": what several values share at the head of their titles stands once. */
function inWords(values: GatheredRow["values"]): string {
  let last = "";
  const pieces = values.map(({ title, value }) => {
    const at = title.lastIndexOf(": ");
    const head = at < 0 ? title : title.slice(0, at);
    const shown = at >= 0 && head === last ? title.slice(at + 2) : title;
    last = head;
    return /^[\d−]/.test(value) ? `${shown} ${value}` : `${shown}: ${value}`;
  });
  return pieces.join("; ");
}
