/** What is read of a schema to speak of it. */
export interface SchemaNode {
  readonly type?: string;
  readonly title?: string;
  readonly description?: string;
  readonly unit?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly required?: readonly string[];
  readonly items?: SchemaNode;
  readonly oneOf?: readonly SchemaNode[];
  readonly discriminator?: { readonly propertyName: string };
}

/** A unit as it follows a number; nothing for dimensionless, and where the owner of the value says the unit. */
export function unitOf({ unit }: SchemaNode): string {
  return unit === undefined || unit === "1" || unit.endsWith("'s unit") ? "" : ` ${unit}`;
}

/** What a schema allows, as it stands in "…; 20 to 600 °C is allowed". */
export function allowed(schema: SchemaNode): string {
  if (schema.const !== undefined) return JSON.stringify(schema.const);
  if (schema.enum !== undefined) return listed(schema.enum.map((choice) => JSON.stringify(choice)));
  if (schema.type === "number" || schema.type === "integer") return `${numberKind(schema)}${rangeOf(schema)}`;
  if (schema.type === "string")
    return `text${schema.maxLength === undefined ? "" : ` of up to ${schema.maxLength} characters`}`;
  if (schema.type === "boolean") return "true or false";
  if (schema.type === "array") return `a list${lengthOf(schema)}`;
  return "an object";
}

function numberKind(schema: SchemaNode): string {
  return schema.type === "integer" ? "a whole number" : "a number";
}

/** " from 20 to 600 °C", " above 0 m", or the unit alone. */
function rangeOf(schema: SchemaNode): string {
  const { minimum, maximum, exclusiveMinimum } = schema;
  const unit = unitOf(schema);
  if (exclusiveMinimum !== undefined)
    return ` above ${exclusiveMinimum}${maximum === undefined ? "" : ` and up to ${maximum}`}${unit}`;
  if (minimum !== undefined && maximum !== undefined) return ` from ${minimum} to ${maximum}${unit}`;
  if (minimum !== undefined) return ` of ${minimum}${unit} or more`;
  if (maximum !== undefined) return ` of ${maximum}${unit} or less`;
  return unit === "" ? "" : ` in${unit}`;
}

function lengthOf({ minItems, maxItems }: SchemaNode): string {
  if (minItems !== undefined && minItems === maxItems) return ` of ${minItems}`;
  if (minItems !== undefined && maxItems !== undefined) return ` of ${minItems} to ${maxItems}`;
  if (maxItems !== undefined) return ` of up to ${maxItems}`;
  return minItems === undefined ? "" : ` of ${minItems} or more`;
}

export function listed(words: readonly string[]): string {
  if (words.length <= 1) return words.join("");
  return `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}
