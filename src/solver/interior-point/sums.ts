/**
 * A list of terms target ← target + value · weight(a) · weight(b), collected once and evaluated for
 * the weights of each iteration.
 */
export class Sums {
  private readonly target: number[] = [];
  private readonly first: number[] = [];
  private readonly second: number[] = [];
  private readonly value: number[] = [];
  private fixed: { target: Int32Array; first: Int32Array; second: Int32Array; value: Float64Array } | null =
    null;

  add(target: number, value: number, first: number, second = -1): void {
    this.target.push(target);
    this.value.push(value);
    this.first.push(first);
    this.second.push(second);
  }

  /** @param b its entry is taken as 1 for terms that have none */
  into(out: Float64Array, a: Float64Array, b: Float64Array): void {
    this.fixed ??= {
      target: Int32Array.from(this.target),
      first: Int32Array.from(this.first),
      second: Int32Array.from(this.second),
      value: Float64Array.from(this.value),
    };
    addTerms(this.fixed, out, a, b);
  }
}

function addTerms(
  terms: { target: Int32Array; first: Int32Array; second: Int32Array; value: Float64Array },
  out: Float64Array,
  a: Float64Array,
  b: Float64Array,
): void {
  const { target, first, second, value } = terms;
  for (let q = 0; q < target.length; q += 1) {
    out[target[q]] += value[q] * a[first[q]] * (second[q] < 0 ? 1 : b[second[q]]);
  }
}
