/** A unit of the schema's with what it is counted in: a price per unit of an item says which unit that is. */
export function unitOfItem(unit: string, keys: readonly string[]): string {
  const section = keys.includes("charging") ? "charging" : keys[0];
  const own = section === "collectors" ? "m²" : section === "stores" ? "kWh" : "kW";
  return unit
    .replace("per m², kWh or kW of the item", `per ${own}`)
    .replace("per unit and year", `per ${own} and year`)
    .replace("item's unit", own);
}
