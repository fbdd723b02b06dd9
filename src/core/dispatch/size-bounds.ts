import type { DispatchCase, NewSizes, SizeCase } from "./case.ts";
import type { Formulation } from "./formulate.ts";
import type { LpSession } from "./program.ts";

/**
 * Holds every size column of a session at a value; the size's own bounds do not count. With
 * `boilersFree` the backups keep their own bounds.
 */
export function holdSizes(
  session: LpSession,
  formulation: Formulation,
  sizes: NewSizes,
  { boilersFree = false }: { readonly boilersFree?: boolean } = {},
): void {
  const values = valuesOf(sizes);
  setSizes(session, formulation, (least, most, family, index) => {
    if (boilersFree && family === "backups") return [least, most];
    const value = Math.max(0, values[family][index]);
    return [value, value];
  });
}

/** Gives every size column of a session its own bounds back. */
export function freeSizes(session: LpSession, formulation: Formulation): void {
  setSizes(session, formulation, (least, most) => [least, most]);
}

type SizeFamily = keyof Formulation["layout"]["sizes"];

/** Column, bounds and value of every size. */
function eachSize(
  { layout }: Formulation,
  problem: DispatchCase,
  visit: (column: number, least: number, most: number, family: SizeFamily, index: number) => void,
): void {
  const { sizes } = layout;
  problem.fields.forEach((field, f) => {
    visit(sizes.fields[f], field.least_m2, field.most_m2, "fields", f);
  });
  const sizesOf = (items: readonly { readonly size: SizeCase }[]) => items.map(({ size }) => size);
  const lists: [SizeFamily, readonly (SizeCase | null)[]][] = [
    ["stores", sizesOf(problem.stores)],
    ["chargers", problem.stores.map(({ charger }) => charger)],
    ["stepDowns", sizesOf(problem.stepDowns)],
    ["chillers", sizesOf(problem.chillers)],
    ["backups", sizesOf(problem.backups)],
  ];
  for (const [family, items] of lists) {
    items.forEach((size, i) => {
      if (size !== null) visit(sizes[family][i], size.least, size.most, family, i);
    });
  }
}

const valuesOf = (sizes: NewSizes): Record<SizeFamily, Float64Array> => ({
  fields: sizes.fields_m2,
  stores: sizes.stores_kWh,
  chargers: sizes.chargers_kW,
  stepDowns: sizes.stepDowns_kW,
  chillers: sizes.chillers_kW,
  backups: sizes.backups_kW,
});

function setSizes(
  session: LpSession,
  formulation: Formulation,
  boundsOf: (least: number, most: number, family: SizeFamily, index: number) => readonly [number, number],
): void {
  const columns: number[] = [];
  const lower: number[] = [];
  const upper: number[] = [];
  eachSize(formulation, formulation.problem, (column, least, most, family, index) => {
    if (column < 0) return;
    const [from, to] = boundsOf(least, most, family, index);
    columns.push(column);
    lower.push(from);
    upper.push(to);
  });
  session.setColumnBounds(Int32Array.from(columns), Float64Array.from(lower), Float64Array.from(upper));
}
