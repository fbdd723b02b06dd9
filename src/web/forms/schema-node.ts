/** The parts of JSON Schema that the study's schema uses, as read by the form. */
export interface SchemaNode {
  readonly type?: string;
  readonly title?: string;
  readonly description?: string;
  readonly unit?: string;
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly required?: readonly string[];
  readonly items?: SchemaNode;
  readonly discriminator?: { readonly propertyName: string };
  readonly oneOf?: readonly SchemaNode[];
}

/** The variant of a tagged union that a value is, by its tag; the node itself where it is none. */
export function variantOf(node: SchemaNode, value: unknown): SchemaNode | null {
  if (node.oneOf === undefined || node.discriminator === undefined) return node;
  const tag = node.discriminator.propertyName;
  const meant = isObject(value) ? value[tag] : undefined;
  return node.oneOf.find((variant) => variant.properties?.[tag]?.const === meant) ?? null;
}

/** Schema and value one step down a path; null where the schema has no such place. */
export function stepInto(
  node: SchemaNode,
  value: unknown,
  key: string,
): { node: SchemaNode; value: unknown } | null {
  if (node.type === "array" && node.items !== undefined) {
    if (!/^\d{1,3}$/.test(key)) return null;
    return { node: node.items, value: Array.isArray(value) ? value[Number(key)] : undefined };
  }
  const variant = variantOf(node, value);
  if (variant?.properties === undefined || !Object.hasOwn(variant.properties, key)) return null;
  return { node: variant.properties[key]!, value: isObject(value) ? value[key] : undefined };
}

/** Schema at a path of the study; null where there is none. */
export function schemaAt(root: SchemaNode, study: unknown, path: string): SchemaNode | null {
  let place: { node: SchemaNode; value: unknown } | null = { node: root, value: study };
  for (const key of path.split("/")) {
    place = stepInto(place.node, place.value, key);
    if (place === null) return null;
  }
  return place.node;
}

export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** True for an object schema and for a tagged union of objects. */
export function isGroup(node: SchemaNode): boolean {
  return node.type === "object";
}

/** True for a list whose entries are objects. */
export function isRows(node: SchemaNode): boolean {
  return node.type === "array" && node.items !== undefined && isGroup(node.items);
}
