import { anchorOf, type FormField } from "./form-field.ts";

/** What most studies leave out stands together, under a title of its own. */
export function withGathered(fields: readonly FormField[], path: string): FormField[] {
  return gatherings.reduce<FormField[]>(
    (left, { key, title, help, keys }) => {
      const isOf = ({ path: own }: FormField) => keys.includes(own.split("/").at(-1)!);
      const gathered = left.filter(isOf);
      if (gathered.length === 0) return left;
      const group: FormField = {
        kind: "group",
        path: `${path}/${key}`,
        anchor: anchorOf(`${path}/${key}`),
        title,
        help,
        problems: [],
        optional: false,
        folded: gathered.every((field) => field.kind === "input" && field.value === ""),
        fields: gathered,
      };
      const at = left.findIndex(isOf);
      return [...left.slice(0, at).filter((f) => !isOf(f)), group, ...left.slice(at).filter((f) => !isOf(f))];
    },
    [...fields],
  );
}

const gatherings: readonly {
  readonly key: string;
  readonly title: string;
  readonly help: string;
  readonly keys: readonly string[];
}[] = [
  {
    key: "how-it-is-run",
    title: "How it must be run",
    help: "Rules that only the controllers of the section Without foresight keep; the sizing is without them.",
    keys: ["leastLoadShare", "startUp_h", "leastPower_kW", "contentDeadBand"],
  },
  {
    key: "prices-by-the-hour",
    title: "Price by hour, month or year",
    help: "Where the price is not the same in every hour of the period; a file of prices replaces factors by hour and month.",
    keys: ["hourFactors", "monthFactors", "priceFile", "yearFactors"],
  },
];
