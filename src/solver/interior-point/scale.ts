import type { Staircase } from "./staircase.ts";

/** scaled A = rowScale · A · columnScale, by slot; values are also divided by the usual sizes. */
export interface Scaling {
  readonly column: Float64Array;
  readonly row: Float64Array;
  readonly limit: Float64Array;
  readonly size: Float64Array;
  readonly long: Float64Array;
  readonly rhs: number;
  readonly cost: number;
}

const passes = 4;
/**
 * Tie-breaks are up to half of the costs by number and penalties up to a third, so that the price of
 * something bought lies at this rank.
 */
const usualShare = 0.6;
/** As many values are looked at for a usual size. */
const sample = 20_000;

/**
 * Brings coefficients, right-hand sides and costs near 1, in place. Interior rows and columns of
 * blocks share out the square roots of their largest entries (Ruiz 2001), alike in all blocks; a limit
 * follows its column, a size its largest coefficient in a limit, a long row its largest entry.
 */
export function scaleStaircase(stairs: Staircase): Scaling {
  const { template, sizes, long: longRows } = stairs;
  const { columns: n, rows: m } = template;
  const most = largest(stairs);
  const column = new Float64Array(n).fill(1);
  const row = new Float64Array(m).fill(1);
  for (let pass = 0; pass < passes; pass += 1) {
    const columnMost = new Float64Array(n);
    const rowMost = new Float64Array(m);
    const meet = (i: number, j: number, value: number) => {
      const size = value * row[i] * column[j];
      rowMost[i] = Math.max(rowMost[i], size);
      columnMost[j] = Math.max(columnMost[j], size);
    };
    template.own.forEach((item, i) => {
      meet(item.row, item.column, most.own[i]);
    });
    template.back.forEach((item, i) => {
      meet(item.row, item.column, most.back[i]);
    });
    for (let j = 0; j < n; j += 1) if (columnMost[j] > 0) column[j] /= Math.sqrt(columnMost[j]);
    for (let i = 0; i < m; i += 1) if (rowMost[i] > 0) row[i] /= Math.sqrt(rowMost[i]);
  }
  const limit = Float64Array.from(template.limit, (item) => 1 / column[item.column]);

  const size = new Float64Array(sizes).fill(1);
  const sizeMost = new Float64Array(sizes);
  template.limit.forEach(({ terms }, l) => {
    terms.forEach((term, i) => {
      sizeMost[term.size] = Math.max(sizeMost[term.size], most.limit[l][i] * limit[l]);
    });
  });
  for (const [i, item] of template.direct.entries()) {
    const carried = template.carried[item.carried];
    if (carried.kind !== "size") continue;
    sizeMost[carried.size] = Math.max(sizeMost[carried.size], most.direct[i] * row[item.row]);
  }
  for (let z = 0; z < sizes; z += 1) {
    if (sizeMost[z] === 0) {
      for (let y = 0; y < longRows; y += 1)
        sizeMost[z] = Math.max(sizeMost[z], Math.abs(stairs.corner[y * sizes + z]));
    }
    if (sizeMost[z] > 0) size[z] = 1 / sizeMost[z];
  }
  const long = new Float64Array(longRows).fill(1);
  const longMost = new Float64Array(longRows);
  template.long.forEach((item, i) => {
    longMost[item.row] = Math.max(longMost[item.row], most.long[i] * column[item.column]);
  });
  for (let y = 0; y < longRows; y += 1) {
    for (let z = 0; z < sizes; z += 1)
      longMost[y] = Math.max(longMost[y], Math.abs(stairs.corner[y * sizes + z]) * size[z]);
    if (longMost[y] > 0) long[y] = 1 / longMost[y];
  }
  const isBlocked = stairs.blocks > 0;
  const rhs = isBlocked
    ? usualSize([[stairs.rhs, m, row], ...limitSides(stairs, limit)])
    : usualSize([[stairs.longRhs, longRows, long]]);
  const costPlaces = Float64Array.from({ length: stairs.strides.cost }, () => 1);
  template.cost.forEach((at, j) => {
    if (at >= 0) costPlaces[at] = column[j];
  });
  const cost = isBlocked
    ? usualSize([[stairs.cost, stairs.strides.cost, costPlaces]])
    : usualSize([[stairs.sizeCost, sizes, size]]);
  const scaling = { column, row, limit, size, long, rhs, cost };
  apply(stairs, scaling, costPlaces);
  return scaling;
}

/** Largest entry of each place of the template. */
function largest({ template, constants, varying, back, direct, strides }: Staircase) {
  const over = (values: Float64Array, stride: number) => {
    const result = new Float64Array(stride);
    for (let start = 0; start < values.length; start += stride) {
      for (let i = 0; i < stride; i += 1) {
        const value = Math.abs(values[start + i]);
        if (value > result[i]) result[i] = value;
      }
    }
    return result;
  };
  const varied = strides.varying > 0 ? over(varying, strides.varying) : new Float64Array(0);
  const size = ({ varies, at }: { readonly varies: boolean; readonly at: number }) =>
    varies ? varied[at] : Math.abs(constants[at]);
  return {
    own: template.own.map(({ value }) => size(value)),
    limit: template.limit.map(({ terms }) => terms.map(({ value }) => size(value))),
    long: template.long.map(({ value }) => size(value)),
    back: strides.back > 0 ? over(back, strides.back) : new Float64Array(0),
    direct: strides.direct > 0 ? over(direct, strides.direct) : new Float64Array(0),
  };
}

function apply(stairs: Staircase, scaling: Scaling, costPlaces: Float64Array): void {
  const { template, constants, strides, sizes, long: longRows } = stairs;
  const { column, row, limit, size, long, rhs, cost } = scaling;
  const varyingScale = new Float64Array(strides.varying);
  const scaleAt = ({ varies, at }: { readonly varies: boolean; readonly at: number }, by: number) => {
    if (varies) varyingScale[at] = by;
    else constants[at] *= by;
  };
  for (const item of template.own) scaleAt(item.value, row[item.row] * column[item.column]);
  template.limit.forEach(({ terms, rhs: side }, l) => {
    scaleAt(side, limit[l] / rhs);
    for (const term of terms) scaleAt(term.value, limit[l] * size[term.size]);
  });
  for (const item of template.long) scaleAt(item.value, long[item.row] * column[item.column]);
  scaleStrided(stairs.varying, varyingScale);
  scaleStrided(
    stairs.back,
    Float64Array.from(template.back, (item) => row[item.row] * column[item.column]),
  );
  scaleStrided(
    stairs.direct,
    Float64Array.from(template.direct, (item) => {
      const carried = template.carried[item.carried];
      if (carried.kind === "size") return row[item.row] * size[carried.size];
      // A link stands for the column that it closes.
      const closed = template.back.find((entry) => entry.row === item.row);
      return row[item.row] * column[closed?.column ?? 0];
    }),
  );
  scaleStrided(
    stairs.cost,
    costPlaces.map((value) => value / cost),
  );
  scaleStrided(
    stairs.rhs,
    row.map((value) => value / rhs),
  );
  for (let z = 0; z < sizes; z += 1) {
    stairs.sizeCost[z] *= size[z] / cost;
    stairs.sizeWidth[z] /= size[z] * rhs;
    for (let y = 0; y < longRows; y += 1) stairs.corner[y * sizes + z] *= long[y] * size[z];
  }
  for (let y = 0; y < longRows; y += 1) {
    stairs.longRhs[y] *= long[y] / rhs;
    stairs.longSlack[y] *= long[y] / rhs;
  }
}

function scaleStrided(values: Float64Array, by: Float64Array): void {
  const stride = by.length;
  for (let start = 0; start < values.length; start += stride) {
    // Zeros are left alone: pages never written take no memory.
    for (let i = 0; i < stride; i += 1) if (values[start + i] !== 0) values[start + i] *= by[i];
  }
}

/** Right-hand sides of limits: those that vary where they stand, the others as often as blocks, at most. */
function limitSides({ template, constants, varying, strides, blocks }: Staircase, limit: Float64Array) {
  const scale = new Float64Array(strides.varying);
  const lists: [Float64Array, number, Float64Array][] = [];
  template.limit.forEach(({ rhs }, l) => {
    if (rhs.varies) scale[rhs.at] = limit[l];
    else if (constants[rhs.at] !== 0)
      lists.push([
        new Float64Array(Math.min(blocks, sample)).fill(constants[rhs.at]),
        1,
        Float64Array.of(limit[l]),
      ]);
  });
  if (strides.varying > 0) lists.push([varying, strides.varying, scale]);
  return lists;
}

/** A size that most of the non-zero values are near or below; 1 if all are zero. */
function usualSize(lists: readonly (readonly [Float64Array, number, Float64Array])[]): number {
  const sizes: number[] = [];
  for (const [values, stride, scale] of lists) {
    const step = Math.max(1, Math.floor(values.length / sample));
    // A step that shares no factor with the stride meets every place.
    const skip = stride > 1 && step % stride === 0 ? step + 1 : step;
    for (let i = 0; i < values.length; i += skip) {
      const value = Math.abs(values[i] * scale[i % stride]);
      if (value > 0) sizes.push(value);
    }
  }
  if (sizes.length === 0) return 1;
  return Float64Array.from(sizes).sort()[Math.floor(usualShare * sizes.length)];
}
