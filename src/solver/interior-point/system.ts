import { eliminateFirst, factorBorder, solveBorder } from "./border.ts";
import {
  addReach,
  type BorderPoint,
  borderPoint,
  curvature,
  moveBounded,
  setMultiplierSteps,
  setWants,
  wantSide,
} from "./border-point.ts";
import { backwardKernel } from "./kernels/backward.ts";
import { borderKernels } from "./kernels/border.ts";
import { borderPattern } from "./kernels/border-pattern.ts";
import { carryKernels } from "./kernels/carry.ts";
import { eliminationOf } from "./kernels/elimination.ts";
import { factorKernel } from "./kernels/factor.ts";
import { forwardKernel } from "./kernels/forward.ts";
import { residualKernel } from "./kernels/residuals.ts";
import { Work } from "./kernels/work.ts";
import type { Staircase } from "./staircase.ts";

/**
 * Blocks that each kernel takes at a time, so that the next finds them in the processor's cache, and so
 * that kernels are called often: a function that is one long call runs half compiled.
 */
const near = 256;

/** Weights of the proximal terms on the primal and the dual side, in scaled units. */
export interface Proximal {
  readonly primal: number;
  readonly dual: number;
}

/** How far a point is from optimal, in scaled units. */
export interface Distance {
  readonly primalInfeasibility: number;
  readonly dualInfeasibility: number;
  readonly objective: number;
  readonly relativeGap: number;
  /** Mean product of a value and its multiplier. */
  readonly mu: number;
}

/** How far a direction may be followed, and the products' sums along it. */
export interface Reach {
  readonly primal: number;
  readonly dual: number;
  /** Mean product after the given steps. */
  productAfter(primal: number, dual: number): number;
}

/**
 * A point of the method with Newton's equations at it. Blocks are eliminated in order, the border
 * [long rows | sizes] last; links between them, segment by segment (docs/methods/interior-point.md).
 */
export class System {
  readonly stairs: Staircase;
  readonly work: Work;
  readonly border: BorderPoint;
  private readonly kernels;
  private readonly links: number;
  private readonly width: number;
  private readonly carriedPlace: Int32Array;
  private readonly order: number;
  private readonly s: Float64Array;
  private readonly side: Float64Array;
  private readonly segmentMatrix: Float64Array[];
  private readonly linkSide: Float64Array;
  private readonly sizeResidual: Float64Array;
  private readonly longResidual: Float64Array;
  private readonly linkResidual: Float64Array;
  private readonly longCurvature: Float64Array;
  private readonly slackSide: Float64Array;
  private mu = 0;

  constructor(stairs: Staircase) {
    this.stairs = stairs;
    const { template, segments, sizeCost, longRhs } = stairs;
    const elimination = eliminationOf(template);
    const pattern = borderPattern(template, elimination);
    const factor = factorKernel(template, elimination);
    this.kernels = {
      factor,
      carry: carryKernels(template, elimination, pattern),
      border: borderKernels(template, pattern),
      forward: forwardKernel(template, elimination),
      backward: backwardKernel(template, elimination),
      residual: residualKernel(template, elimination, false),
      relativeResidual: residualKernel(template, elimination, true),
    };
    this.work = new Work(stairs, elimination, pattern, factor.sums.length);
    this.border = borderPoint(stairs);
    this.width = template.carried.length;
    this.links = template.carried.filter(({ kind }) => kind === "link").length;
    const long = longRhs.length;
    const sizes = sizeCost.length;
    this.order = long + sizes;
    this.carriedPlace = Int32Array.from(template.carried, (item) =>
      item.kind === "link" ? -1 : item.kind === "long" ? item.row : long + item.size,
    );
    this.s = new Float64Array(this.order * this.order);
    this.side = new Float64Array(this.order);
    this.segmentMatrix = segments.map(() => new Float64Array(this.width * this.width));
    this.linkSide = new Float64Array(segments.length * this.links);
    this.sizeResidual = new Float64Array(sizes);
    this.longResidual = new Float64Array(long);
    this.linkResidual = new Float64Array(segments.length * this.links);
    this.longCurvature = new Float64Array(long);
    this.slackSide = new Float64Array(long);
  }

  /** Moves along the direction and measures the new point. */
  advance(primal: number, dual: number, relative: boolean): Distance {
    const { stairs, work, border, links, width } = this;
    const { sizes, slacks, eta, isInequality } = border;
    const { segments, corner, longRhs, sizeCost, sizeWidth, longSlack } = stairs;
    moveBounded(sizes, primal, dual);
    moveBounded(slacks, primal, dual);
    for (let y = 0; y < eta.length; y += 1) eta[y] += dual * border.dEta[y];
    for (let i = 0; i < border.link.length; i += 1) border.link[i] += primal * border.dLink[i];

    const { W, AW, OUT } = work;
    OUT.fill(0);
    this.setCarried(W, sizes.v, eta, border.link, 0);
    const kernel = relative ? this.kernels.relativeResidual : this.kernels.residual;
    const sizeSum = new Float64Array(sizes.v.length);
    const longSum = new Float64Array(eta.length);
    segments.forEach(({ from, to }, segment) => {
      this.setLinks(segment);
      AW.fill(0);
      kernel.memory.fill(0);
      for (let end = to; end > from; end -= near) {
        kernel.run(work, kernel.memory, Math.max(from, end - near), end, from, primal, dual);
      }
      for (let l = 0; l < links; l += 1) {
        this.linkResidual[segment * links + l] = -AW[l];
        OUT[1] = Math.max(OUT[1], Math.abs(AW[l]));
      }
      for (let c = links; c < width; c += 1) {
        const item = stairs.template.carried[c];
        if (item.kind === "long") longSum[item.row] += AW[c];
        else if (item.kind === "size") sizeSum[item.size] += AW[c];
      }
    });
    let [mostPrimal, mostDual, objective, dualObjective, products] = OUT;
    const count = sizes.v.length;
    for (let y = 0; y < eta.length; y += 1) {
      let value = longSum[y];
      let most = 1;
      for (let z = 0; z < count; z += 1) {
        const product = corner[y * count + z] * sizes.v[z];
        value += product;
        if (relative) most = Math.max(most, Math.abs(product));
      }
      if (isInequality[y] === 1) value += slacks.v[y];
      this.longResidual[y] = longRhs[y] - value;
      if (relative) most = Math.max(most, Math.abs(longRhs[y]), Math.abs(longSum[y]));
      mostPrimal = Math.max(mostPrimal, Math.abs(this.longResidual[y]) / most);
      dualObjective += longRhs[y] * eta[y];
      if (isInequality[y] === 0) continue;
      products += slacks.v[y] * slacks.lower[y];
      const residual = -eta[y] - slacks.lower[y] + slacks.upper[y];
      this.slackSide[y] = residual;
      mostDual = Math.max(mostDual, Math.abs(residual) / (relative ? Math.max(1, Math.abs(eta[y])) : 1));
      if (longSlack[y] < Number.POSITIVE_INFINITY) {
        products += slacks.gap[y] * slacks.upper[y];
        dualObjective -= longSlack[y] * slacks.upper[y];
      }
    }
    for (let z = 0; z < count; z += 1) {
      let value = sizeCost[z] - sizeSum[z] - sizes.lower[z] + sizes.upper[z];
      let most = Math.max(1, Math.abs(sizeSum[z]));
      for (let y = 0; y < eta.length; y += 1) {
        const product = corner[y * count + z] * eta[y];
        value -= product;
        most = Math.max(most, Math.abs(product));
      }
      this.sizeResidual[z] = value;
      mostDual = Math.max(mostDual, Math.abs(value) / (relative ? most : 1));
      objective += sizeCost[z] * sizes.v[z];
      products += sizes.v[z] * sizes.lower[z];
      if (sizeWidth[z] < Number.POSITIVE_INFINITY) {
        products += sizes.gap[z] * sizes.upper[z];
        dualObjective -= sizeWidth[z] * sizes.upper[z];
      }
    }
    this.mu = products / stairs.pairCount;
    return {
      primalInfeasibility: mostPrimal,
      dualInfeasibility: mostDual,
      objective,
      relativeGap: Math.abs(objective - dualObjective) / (1 + Math.abs(objective)),
      mu: this.mu,
    };
  }

  /** @returns false where a pivot has the wrong sign */
  factor({ primal, dual }: Proximal): boolean {
    const { stairs, work, border, links, width, order, s } = this;
    const { segments, template, corner, sizeCost } = stairs;
    const long = border.eta.length;
    s.fill(0);
    work.AC.fill(0);
    for (let segment = 0; segment < segments.length; segment += 1) {
      const { from, to } = segments[segment];
      const { factor, carry, border: squares } = this.kernels;
      factor.memory.fill(0);
      for (const { memory } of carry) memory.fill(0);
      const matrix = this.segmentMatrix[segment];
      matrix.fill(0);
      for (let l = 0; l < links; l += 1) matrix[l * width + l] = -primal;
      for (let begin = from; begin < to; begin += near) {
        const end = Math.min(begin + near, to);
        if (factor.run(work, factor.memory, begin, end, primal, dual) >= 0) return false;
        for (const { run, memory } of carry) run(work, memory, begin, end);
        squares.addSquares(work, begin, end, matrix);
      }
      if (!eliminateFirst(matrix, width, links)) return false;
      for (let a = links; a < width; a += 1) {
        for (let b = links; b <= a; b += 1) {
          s[this.carriedPlace[a] * order + this.carriedPlace[b]] += matrix[a * width + b];
        }
      }
    }
    this.kernels.factor.sums.forEach(({ a, b }, i) => {
      const isCorner = template.carried[a].kind === "size" && template.carried[b].kind === "size";
      s[this.carriedPlace[a] * order + this.carriedPlace[b]] += isCorner ? -work.AC[i] : work.AC[i];
    });
    const count = sizeCost.length;
    for (let y = 0; y < long; y += 1) {
      const h = border.isInequality[y] === 1 ? curvature(border.slacks, y, primal) : Number.POSITIVE_INFINITY;
      this.longCurvature[y] = h;
      s[y * order + y] += dual / Math.max(1, 0.1 * Math.abs(border.eta[y])) + 1 / h;
      for (let z = 0; z < count; z += 1) s[(long + z) * order + y] += corner[y * count + z];
    }
    for (let z = 0; z < count; z += 1) s[(long + z) * (order + 1)] -= curvature(border.sizes, z, primal);
    return factorBorder(s, order, long);
  }

  /** The direction that brings products to `target`; the one before counts as predictor if `second`. */
  direction(target: number, second: boolean): Reach {
    const { stairs, work, border, links, width, side } = this;
    const { segments } = stairs;
    const { sizes, slacks, isInequality } = border;
    const { forward, backward, border: projection } = this.kernels;
    const { AW, DW, OUT } = work;
    const long = border.eta.length;
    const count = sizes.v.length;
    const share = second ? 1 : 0;
    setWants(sizes, target, share);
    setWants(slacks, target, share);
    const slackSide = new Float64Array(long);
    for (let y = 0; y < long; y += 1) {
      side[y] = this.longResidual[y];
      if (isInequality[y] === 0) continue;
      slackSide[y] = this.slackSide[y] + wantSide(slacks, y);
      side[y] += slackSide[y] / this.longCurvature[y];
    }
    for (let z = 0; z < count; z += 1) side[long + z] = this.sizeResidual[z] + wantSide(sizes, z);

    segments.forEach(({ from, to }, segment) => {
      AW.fill(0);
      this.setLinks(segment);
      forward.memory.fill(0);
      for (let begin = from; begin < to; begin += near) {
        const end = Math.min(begin + near, to);
        forward.run(work, forward.memory, begin, end, target, share);
        projection.project(work, begin, end);
      }
      const matrix = this.segmentMatrix[segment];
      for (let l = 0; l < links; l += 1) {
        const value = AW[l] + this.linkResidual[segment * links + l];
        this.linkSide[segment * links + l] = value / matrix[l * width + l];
        for (let i = l + 1; i < width; i += 1) AW[i] -= matrix[i * width + l] * value;
      }
      for (let c = links; c < width; c += 1) side[this.carriedPlace[c]] += AW[c];
    });
    solveBorder(this.s, this.order, side);
    for (let y = 0; y < long; y += 1) border.dEta[y] = side[y];
    for (let z = 0; z < count; z += 1) {
      sizes.dv[z] = side[long + z];
      setMultiplierSteps(sizes, z);
    }
    for (let y = 0; y < long; y += 1) {
      if (isInequality[y] === 0) continue;
      slacks.dv[y] = (side[y] - slackSide[y]) / this.longCurvature[y];
      setMultiplierSteps(slacks, y);
    }
    OUT.fill(0);
    addReach(sizes, null, OUT);
    addReach(slacks, isInequality, OUT);
    this.setCarried(DW, sizes.dv, border.dEta, border.dLink, 0);
    segments.forEach(({ from, to }, segment) => {
      const matrix = this.segmentMatrix[segment];
      for (let l = links - 1; l >= 0; l -= 1) {
        let value = this.linkSide[segment * links + l];
        for (let i = l + 1; i < width; i += 1) value -= matrix[i * width + l] * DW[i];
        DW[l] = value;
        border.dLink[segment * links + l] = value;
      }
      this.setLinks(segment);
      backward.memory.fill(0);
      for (let end = to; end > from; end -= near) {
        const begin = Math.max(from, end - near);
        projection.combine(work, begin, end);
        backward.run(work, backward.memory, begin, end);
      }
    });
    const [reachPrimal, reachDual, products, lower, upper, both] = OUT;
    const pairs = stairs.pairCount;
    return {
      primal: 1 / reachPrimal,
      dual: 1 / reachDual,
      productAfter: (primal, dual) =>
        (products + dual * lower + primal * upper + primal * dual * both) / pairs,
    };
  }

  private setLinks(segment: number): void {
    for (let l = 0; l < this.links; l += 1) this.work.W[l] = this.border.link[segment * this.links + l];
  }

  private setCarried(
    out: Float64Array,
    sizes: Float64Array,
    long: Float64Array,
    links: Float64Array,
    segment: number,
  ): void {
    this.stairs.template.carried.forEach((item, c) => {
      if (item.kind === "size") out[c] = sizes[item.size];
      else if (item.kind === "long") out[c] = long[item.row];
      else out[c] = links[segment * this.links + item.link];
    });
  }
}
