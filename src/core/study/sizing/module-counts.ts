import type { PlantModel } from "../plant-model.ts";

/** Fields up to which every way of rounding them down and up is tried. */
const allWaysUpTo = 2;
/** Share of a module that a solver may leave beside whole ones. */
const trace = 1e-6;

/**
 * New apertures in whole modules that are worth comparing, the nearest counts first, each once. With one
 * or two fields that come in modules, every way of rounding them down and up; with more, all to the nearest,
 * all down, all up, and the nearest with one field rounded the other way. A collector's fields stay within
 * its bounds together.
 *
 * @param fields_m2 new aperture of each field as the program found it
 * @param modules_m2 aperture of one module by field; 0 where it does not come in modules
 */
export function candidateFields(
  model: Pick<PlantModel, "study" | "fields">,
  fields_m2: Float64Array,
  modules_m2: readonly number[],
): Float64Array[] {
  const between = modules_m2.flatMap((module_m2, f) =>
    module_m2 > 0 && countOf(fields_m2[f] / module_m2, false) !== countOf(fields_m2[f] / module_m2, true)
      ? [f]
      : [],
  );
  const nearest = modules_m2.map((module_m2, f) => (fields_m2[f] / (module_m2 || 1)) % 1 >= 0.5);
  const flipped = (which: number) => nearest.map((up, f) => (which === f ? !up : up));
  const ways =
    between.length <= allWaysUpTo
      ? [nearest, ...between.map(flipped), nearest.map((up) => !up)]
      : [nearest, nearest.map(() => false), nearest.map(() => true), ...between.map(flipped)];
  const candidates: Float64Array[] = [];
  for (const ups of ways) {
    const rounded = roundedFields(model, fields_m2, modules_m2, ups);
    if (!candidates.some((other) => other.every((area, f) => area === rounded[f]))) candidates.push(rounded);
  }
  return candidates;
}

/** New aperture of each field in whole modules, up where `ups` says so, the sum of a collector's fields within its bounds. */
export function roundedFields(
  { study, fields }: Pick<PlantModel, "study" | "fields">,
  fields_m2: Float64Array,
  modules_m2: readonly number[],
  ups: readonly boolean[],
): Float64Array {
  const counts = fields_m2.map((area, f) =>
    modules_m2[f] > 0 ? countOf(area / modules_m2[f], ups[f] === true) : 0,
  );
  for (const { id, size, module_m2 } of study.collectors) {
    if (module_m2 === undefined) continue;
    const own = fields.flatMap(({ collector }, f) => (collector.id === id ? [f] : []));
    const { least, most } = boundsOf(size);
    const total = () => own.reduce((all, f) => all + counts[f] * module_m2, 0);
    const roundedUp_m2 = (f: number) => counts[f] * module_m2 - fields_m2[f];
    const slack = trace * module_m2;
    while (total() > most + slack) {
      const most_up = own.filter((f) => counts[f] > 0).sort((a, b) => roundedUp_m2(b) - roundedUp_m2(a))[0];
      if (most_up === undefined) break;
      counts[most_up] -= 1;
    }
    while (own.length > 0 && total() < least - slack) {
      counts[own.sort((a, b) => roundedUp_m2(a) - roundedUp_m2(b))[0]!] += 1;
    }
  }
  return fields_m2.map((area, f) => (modules_m2[f] > 0 ? counts[f] * modules_m2[f] : area));
}

function countOf(modules: number, up: boolean): number {
  const down = Math.floor(modules);
  return up && modules - down > trace ? down + 1 : down;
}

function boundsOf(size: {
  readonly choice: string;
  readonly least?: number;
  readonly most?: number;
  readonly fixed?: number;
}) {
  if (size.choice === "fixed") return { least: size.fixed ?? 0, most: size.fixed ?? 0 };
  if (size.choice === "bounded")
    return { least: size.least ?? 0, most: size.most ?? Number.POSITIVE_INFINITY };
  return { least: 0, most: Number.POSITIVE_INFINITY };
}
