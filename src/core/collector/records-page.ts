import { collectorRecords, originOf, valuePaths } from "./records.ts";

/** docs/methods/collector-records.md: every value of the library's collectors with its origin, as Markdown. */
export function collectorRecordsPage(): string {
  const sections = collectorRecords.map((record) => {
    const rows = valuePaths(record.body).map((path) => {
      const origin = originOf(record, path);
      return `| \`${path}\` | ${valueAt(record.body, path)} | ${origin?.status ?? ""} | ${origin?.source ?? ""} |`;
    });
    return [
      `## ${record.body.name}`,
      "",
      `${record.description} Record \`${record.id}\`.`,
      "",
      "| value | is | status | origin |",
      "| --- | --- | --- | --- |",
      ...rows,
    ].join("\n");
  });
  return `${[
    "# Library of generic collectors",
    "Made from `src/core/collector/records/`; do not edit by hand. These collectors are no product: they let a " +
      "study begin. Replace every assumption by the maker's own figure before money is spent. Prices are in the " +
      "study's currency per m² of aperture; those marked in US dollars need converting.",
    ...sections,
  ].join("\n\n")}\n`;
}

function valueAt(body: unknown, path: string): string {
  const value = path.split("/").reduce<unknown>((item, key) => (item as Record<string, unknown>)[key], body);
  return Array.isArray(value) ? value.join(", ") : String(value);
}
