import { type Static, type TObject, type TSchema, Type } from "typebox";

/** What a quantity may be. `unit` is shown beside the input and in docs/study-reference.md. */
interface QuantityOptions {
  readonly least?: number;
  readonly most?: number;
  /** The value must lie above this. */
  readonly above?: number;
  readonly description?: string;
}

/** A number with a name and a unit; "1" is dimensionless, shares run 0 to 1. */
export function quantity(title: string, unit: string, options: QuantityOptions = {}) {
  const { least, most, above, description } = options;
  return Type.Number({
    title,
    unit,
    ...(least === undefined ? {} : { minimum: least }),
    ...(most === undefined ? {} : { maximum: most }),
    ...(above === undefined ? {} : { exclusiveMinimum: above }),
    ...(description === undefined ? {} : { description }),
  });
}

export function share(title: string, description?: string) {
  return quantity(title, "1", { least: 0, most: 1, ...(description === undefined ? {} : { description }) });
}

export function text(title: string, most = 200, description?: string) {
  return Type.String({ title, maxLength: most, ...(description === undefined ? {} : { description }) });
}

const idPattern = "^[a-z][a-z0-9-]{0,39}$";

/** The name by which other parts of the study, result.json and hours.csv refer to an item. */
export const Id = Type.String({
  title: "Id",
  pattern: idPattern,
  description: "Lower-case letters, digits and hyphens, starting with a letter; unique in the study.",
});

/** The id of another item of the study, which the title names. */
export function idOf(title: string) {
  return Type.String({ title, pattern: idPattern, description: "By its id in the study." });
}

/** An object that refuses properties it does not know. */
export function record<P extends Record<string, TSchema>>(
  title: string,
  properties: P,
  description?: string,
) {
  return Type.Object(properties, {
    title,
    additionalProperties: false,
    ...(description === undefined ? {} : { description }),
  });
}

type StaticUnion<T extends readonly TSchema[]> = T[number] extends infer S
  ? S extends TSchema
    ? Static<S>
    : never
  : never;

/**
 * One of several objects told apart by a literal property. Written as `oneOf` with `discriminator`,
 * so that a fault is reported for the variant that was meant and not for all of them.
 */
export function tagged<const T extends readonly TObject[]>(tag: string, title: string, variants: T) {
  return Type.Unsafe<StaticUnion<T>>({
    title,
    type: "object",
    required: [tag],
    discriminator: { propertyName: tag },
    oneOf: variants,
  });
}

/** How much new plant the program may build, beside what exists, in the item's own unit. */
export const Size = record(
  "Size of new plant",
  {
    choice: Type.Enum(["free", "bounded", "fixed"], { title: "Size is" }),
    least: Type.Optional(quantity("At least", "item's unit", { least: 0 })),
    most: Type.Optional(quantity("At most", "item's unit", { least: 0 })),
    fixed: Type.Optional(quantity("Exactly", "item's unit", { least: 0 })),
  },
  "free: zero or more. bounded: between least (default 0) and most. fixed: exactly so much.",
);
export type Size = Static<typeof Size>;

/** A priced piece of the plant with its own life. */
export const Part = record("Part", {
  name: text("Part", 80),
  price_per_unit: quantity("Price", "currency per m², kWh or kW of the item", { least: 0 }),
  life_years: quantity("Life", "years", { above: 0, most: 100 }),
  upkeep_per_unit_year: quantity("Upkeep", "currency per unit and year", { least: 0 }),
  fixedPrice: Type.Optional(
    quantity("Price whatever the size", "currency", {
      least: 0,
      description:
        "Paid once if any of the item is built new, and again at the end of its life; 0 if left out.",
    }),
  ),
  fixedUpkeep_per_year: Type.Optional(
    quantity("Upkeep whatever the size", "currency per year", { least: 0, description: "0 if left out." }),
  ),
  scaleExponent: Type.Optional(
    quantity("Scale exponent", "1", {
      above: 0,
      most: 1,
      description:
        "The price of the whole grows with size to this power; the price above is that of a unit at the reference size. 1 if left out.",
    }),
  ),
  referenceSize: Type.Optional(
    quantity("Size at which the price holds", "item's unit", {
      above: 0,
      description: "Needed with a scale exponent.",
    }),
  ),
});
export type Part = Static<typeof Part>;
export const Parts = Type.Array(Part, { title: "Parts", maxItems: 30 });
