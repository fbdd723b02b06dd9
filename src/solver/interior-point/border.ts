/** Rows of F taken at once: their squares stay in the cache. */
const chunk = 64;

/**
 * s ← s − (L⁻¹F)ᵀ·D⁻¹·(L⁻¹F), the lower triangle of the border's Schur complement.
 *
 * @param f rows × width, L⁻¹F by rows
 * @param pivots D, from `offset`
 * @param s width × width
 */
export function subtractSquares(
  f: Float64Array,
  pivots: Float64Array,
  offset: number,
  rows: number,
  width: number,
  s: Float64Array,
): void {
  // One spare column, so that pairs of columns can be taken throughout.
  const padded = width + (width % 2);
  const plain = new Float64Array(padded * chunk);
  const divided = new Float64Array(padded * chunk);
  for (let begin = 0; begin < rows; begin += chunk) {
    const count = Math.min(chunk, rows - begin);
    if (count < chunk) {
      plain.fill(0);
      divided.fill(0);
    }
    for (let r = 0; r < count; r += 1) {
      const inverse = 1 / pivots[offset + begin + r];
      const from = (begin + r) * width;
      for (let c = 0; c < width; c += 1) {
        const value = f[from + c];
        plain[c * chunk + r] = value;
        divided[c * chunk + r] = value * inverse;
      }
    }
    for (let a = 0; a < padded; a += 2) {
      for (let b = 0; b <= a; b += 2) subtractTile(plain, divided, a, b, width, s);
    }
  }
}

/** Columns a, a + 1 against b, b + 1: four sums at once keep the loads few. */
function subtractTile(
  plain: Float64Array,
  divided: Float64Array,
  a: number,
  b: number,
  width: number,
  s: Float64Array,
): void {
  const a0 = a * chunk;
  const a1 = a0 + chunk;
  const b0 = b * chunk;
  const b1 = b0 + chunk;
  let s00 = 0;
  let s01 = 0;
  let s10 = 0;
  let s11 = 0;
  for (let r = 0; r < chunk; r += 1) {
    const p0 = plain[a0 + r];
    const p1 = plain[a1 + r];
    const d0 = divided[b0 + r];
    const d1 = divided[b1 + r];
    s00 += p0 * d0;
    s01 += p0 * d1;
    s10 += p1 * d0;
    s11 += p1 * d1;
  }
  s[a * width + b] -= s00;
  if (b + 1 < width && b + 1 <= a) s[a * width + b + 1] -= s01;
  if (a + 1 < width) {
    s[(a + 1) * width + b] -= s10;
    if (b + 1 < width) s[(a + 1) * width + b + 1] -= s11;
  }
}

/**
 * Dense L·D·Lᵀ of the lower triangle in place, without pivoting: the first `positive` pivots must be
 * positive, the rest negative (a quasi-definite matrix; Vanderbei 1995).
 */
export function factorBorder(s: Float64Array, width: number, positive: number): boolean {
  const scaled = new Float64Array(width);
  for (let k = 0; k < width; k += 1) {
    const row = k * width;
    let pivot = s[row + k];
    for (let c = 0; c < k; c += 1) {
      scaled[c] = s[row + c] * s[c * width + c];
      pivot -= s[row + c] * scaled[c];
    }
    if (!(k < positive ? pivot > 0 : pivot < 0)) return false;
    s[row + k] = pivot;
    for (let i = k + 1; i < width; i += 1) {
      let value = s[i * width + k];
      for (let c = 0; c < k; c += 1) value -= s[i * width + c] * scaled[c];
      s[i * width + k] = value / pivot;
    }
  }
  return true;
}

/** x ← S⁻¹·x with S factored. */
export function solveBorder(s: Float64Array, width: number, x: Float64Array): void {
  for (let k = 0; k < width; k += 1) {
    for (let c = 0; c < k; c += 1) x[k] -= s[k * width + c] * x[c];
  }
  for (let k = 0; k < width; k += 1) x[k] /= s[k * width + k];
  for (let k = width - 1; k >= 0; k -= 1) {
    for (let i = k + 1; i < width; i += 1) x[k] -= s[i * width + k] * x[i];
  }
}
