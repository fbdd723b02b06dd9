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

/** Eliminates the first `count` columns of the lower triangle s in place, each with a negative pivot. */
export function eliminateFirst(s: Float64Array, width: number, count: number): boolean {
  for (let k = 0; k < count; k += 1) {
    const pivot = s[k * width + k];
    if (!(pivot < 0)) return false;
    for (let i = width - 1; i > k; i -= 1) {
      const factor = s[i * width + k] / pivot;
      for (let j = k + 1; j <= i; j += 1) s[i * width + j] -= factor * s[j * width + k];
    }
    for (let i = k + 1; i < width; i += 1) s[i * width + k] /= pivot;
  }
  return true;
}
