import type { Study } from "../../core/study/schema/study.ts";
import type { Choice } from "./form-field.ts";
import type { SchemaNode } from "./schema-node.ts";
import { weekdays, wordFor } from "./words.ts";

/**
 * What an input may be chosen from: the values of an enumeration, or, where the value names another
 * item of the study, the items there are. Empty where the value is free.
 */
export function choicesFor(
  study: Study,
  fileNames: readonly string[],
  node: SchemaNode,
  path: string,
): Choice[] {
  if (node.enum !== undefined)
    return node.enum.map((value) => ({ value: String(value), label: wordFor(value) }));
  const keys = path.split("/");
  const key = keys.at(-1)!;
  const list = keys[0]!;
  if (key === "network" || key === "networks" || (list === "stepDowns" && (key === "from" || key === "to"))) {
    if (keys.length > 1) return study.networks.map(({ id, name }) => ({ value: id, label: name }));
  }
  if (key === "load" && keys.length === 3) {
    return study.loads
      .filter(({ kind }) => kind === "cooling")
      .map(({ id, name }) => ({ value: id, label: name }));
  }
  if (key === "calendar" && (list === "loads" || list === "backups"))
    return study.calendars.map(({ id, name }) => ({ value: id, label: name }));
  if (list === "money" && (key === "indexFuel" || key === "of")) {
    const backups = study.backups.map(({ id, name }) => ({ value: id, label: name }));
    if (key === "indexFuel") return backups;
    return [...backups, ...["electricity", "carbon"].map((value) => ({ value, label: value }))];
  }
  if (key === "weekdays") return weekdays.map((label, index) => ({ value: String(index + 1), label }));
  if (key === "file" || key === "priceFile" || key === "weatherFile")
    return fileNames.map((name) => ({ value: name, label: name }));
  if (key === "filmPart" && list === "collectors") {
    const parts = study.collectors[Number(keys[1])]?.parts ?? [];
    return parts.map(({ name }) => ({ value: name, label: name }));
  }
  return [];
}
