import type { BlockProgram } from "./block-program.ts";
import { factorBorder, solveBorder, subtractSquares } from "./border.ts";
import { type BorderTerms, borderTerms } from "./border-terms.ts";
import {
  assembleInterior,
  backward,
  type FactorPattern,
  factorInterior,
  factorPattern,
  forward,
} from "./interior-factor.ts";

/**
 * The regularised system of one Newton step,
 *
 *     −H·dx + Aᵀ·dy = f     (columns)
 *      A·dx + Δ·dy  = h     (rows)
 *
 * with diagonal H > 0 and Δ > 0. Limits are eliminated by themselves, then local columns, then the
 * interior rows block by block, with the border carried along; the border is [border rows | shared
 * columns] (docs/methods/interior-point.md).
 */
export class ReducedSystem {
  private readonly p: BlockProgram;
  private readonly pattern: FactorPattern;
  private readonly width: number;
  /** 1 / D of local columns, e = 1 / Δ of limits, and what the corner needs of them. */
  private readonly theta: Float64Array;
  private readonly e: Float64Array;
  private readonly cornerWeight: Float64Array;
  private readonly l: Float64Array;
  private readonly f: Float64Array;
  private readonly s: Float64Array;
  private readonly terms: BorderTerms;
  private readonly interiorSide: Float64Array;
  private readonly borderSide: Float64Array;

  constructor(p: BlockProgram) {
    this.p = p;
    this.pattern = factorPattern(p);
    this.width = p.border + p.shared;
    this.theta = new Float64Array(p.locals);
    this.e = new Float64Array(p.limits);
    this.cornerWeight = new Float64Array(p.limits);
    this.l = new Float64Array(this.pattern.entries + p.interior);
    this.f = new Float64Array(p.interior * this.width);
    this.s = new Float64Array(this.width * this.width);
    this.interiorSide = new Float64Array(p.interior);
    this.borderSide = new Float64Array(this.width);
    this.terms = borderTerms(p);
  }

  /**
   * @param h diagonal H of columns
   * @param delta diagonal Δ of rows
   * @returns false where a pivot has the wrong sign
   */
  factor(h: Float64Array, delta: Float64Array): boolean {
    const { p, theta, e, cornerWeight, width, s, f, l } = this;
    const generals = p.interior + p.border;
    for (let j = 0; j < p.locals; j += 1) theta[j] = h[j];
    for (let i = 0; i < p.limits; i += 1) {
      e[i] = 1 / delta[generals + i];
      theta[p.limitLocal[i]] += e[i] * p.limitCoefficient[i] ** 2;
    }
    for (let j = 0; j < p.locals; j += 1) theta[j] = 1 / theta[j];
    // e − e²a²θ cancels where the limit holds tightly; e·H·θ is the same without cancellation.
    for (let i = 0; i < p.limits; i += 1) {
      cornerWeight[i] = e[i] * h[p.limitLocal[i]] * theta[p.limitLocal[i]];
    }

    assembleInterior(this.pattern, theta, delta, l);
    f.fill(0);
    s.fill(0);
    this.addShared();
    this.terms.carried.into(f, theta, e);
    this.terms.border.into(s, theta, e);
    this.terms.corner.into(s, cornerWeight, e);
    this.addPairs();
    for (let y = 0; y < p.border; y += 1) s[y * width + y] += delta[p.interior + y];
    for (let z = 0; z < p.shared; z += 1) s[(p.border + z) * (width + 1)] -= h[p.locals + z];

    if (!factorInterior(this.pattern, l, f, width)) return false;
    subtractSquares(f, l, this.pattern.entries, p.interior, width, s);
    return factorBorder(s, width, p.border);
  }

  /** Entries of shared columns in interior and border rows. */
  private addShared(): void {
    const { p, width, f, s } = this;
    for (let z = 0; z < p.shared; z += 1) {
      const j = p.locals + z;
      for (let a = p.starts[j]; a < p.starts[j + 1]; a += 1) {
        const k = p.indices[a];
        if (k < p.interior) f[k * width + p.border + z] += p.values[a];
        else s[(p.border + z) * width + k - p.interior] += p.values[a];
      }
    }
  }

  /** What two limits on one column add to the corner: e₁e₂θ·(a₂r₁ − a₁r₂)(a₂r₁ − a₁r₂)ᵀ. */
  private addPairs(): void {
    const { p, width, s, theta, e } = this;
    for (const [first, second, j] of this.terms.pairs) {
      const terms: [number, number][] = [];
      const take = (limit: number, factor: number) => {
        for (let q = p.limitStarts[limit]; q < p.limitStarts[limit + 1]; q += 1) {
          terms.push([p.border + p.limitShared[q], factor * p.limitValues[q]]);
        }
      };
      take(first, p.limitCoefficient[second]);
      take(second, -p.limitCoefficient[first]);
      const weight = e[first] * e[second] * theta[j];
      for (const [a, u] of terms) for (const [b, v] of terms) if (b <= a) s[a * width + b] -= weight * u * v;
    }
  }

  /**
   * Solves for one right-hand side.
   *
   * @param f by columns, destroyed
   * @param h by rows
   * @param dx result by columns
   * @param dy result by rows
   */
  solve(f: Float64Array, h: Float64Array, dx: Float64Array, dy: Float64Array): void {
    const { p, theta, e, interiorSide: u, borderSide: w } = this;
    const { interior, border, locals, shared, limits, starts, indices, values } = p;
    const { limitLocal, limitCoefficient, limitStarts, limitShared, limitValues } = p;
    const generals = interior + border;
    for (let i = 0; i < limits; i += 1) {
      const g = e[i] * h[generals + i];
      f[limitLocal[i]] -= limitCoefficient[i] * g;
      for (let q = limitStarts[i]; q < limitStarts[i + 1]; q += 1) {
        f[locals + limitShared[q]] -= limitValues[q] * g;
      }
    }
    for (let k = 0; k < generals; k += 1) dy[k] = h[k];
    for (let j = 0; j < locals; j += 1) {
      const value = theta[j] * f[j];
      for (let a = starts[j]; a < starts[j + 1]; a += 1) dy[indices[a]] += values[a] * value;
    }
    for (let z = 0; z < shared; z += 1) w[border + z] = f[locals + z];
    for (let i = 0; i < limits; i += 1) {
      const j = limitLocal[i];
      const value = e[i] * limitCoefficient[i] * theta[j] * f[j];
      for (let q = limitStarts[i]; q < limitStarts[i + 1]; q += 1) {
        w[border + limitShared[q]] -= limitValues[q] * value;
      }
    }
    for (let k = 0; k < interior; k += 1) u[k] = dy[k];
    for (let y = 0; y < border; y += 1) w[y] = dy[interior + y];
    this.solveReduced();
    for (let k = 0; k < interior; k += 1) dy[k] = u[k];
    for (let y = 0; y < border; y += 1) dy[interior + y] = w[y];
    for (let z = 0; z < shared; z += 1) dx[locals + z] = w[border + z];

    // dx = θ·(Aᵀdy − v·dz − f), with v·dz of each limit gathered in dy of the limit for a moment.
    for (let j = 0; j < locals; j += 1) {
      let sum = -f[j];
      for (let a = starts[j]; a < starts[j + 1]; a += 1) sum += values[a] * dy[indices[a]];
      dx[j] = sum;
    }
    for (let i = 0; i < limits; i += 1) {
      let sum = 0;
      for (let q = limitStarts[i]; q < limitStarts[i + 1]; q += 1) {
        sum += limitValues[q] * w[border + limitShared[q]];
      }
      dy[generals + i] = sum;
      dx[limitLocal[i]] -= e[i] * limitCoefficient[i] * sum;
    }
    for (let j = 0; j < locals; j += 1) dx[j] *= theta[j];
    for (let i = 0; i < limits; i += 1) {
      const used = limitCoefficient[i] * dx[limitLocal[i]] + dy[generals + i];
      dy[generals + i] = e[i] * (h[generals + i] - used);
    }
  }

  private solveReduced(): void {
    const { pattern, l, f, s, width, interiorSide: u, borderSide: w } = this;
    forward(pattern, l, u);
    const { size, entries } = pattern;
    for (let k = 0; k < size; k += 1) {
      const value = u[k] / l[entries + k];
      const from = k * width;
      u[k] = value;
      for (let c = 0; c < width; c += 1) w[c] -= f[from + c] * value;
    }
    solveBorder(s, width, w);
    for (let k = 0; k < size; k += 1) {
      const from = k * width;
      let sum = 0;
      for (let c = 0; c < width; c += 1) sum += f[from + c] * w[c];
      u[k] -= sum / l[entries + k];
    }
    backward(pattern, l, u);
  }
}
