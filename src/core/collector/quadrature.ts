/** Nodes and weights of a rule on −1 to 1. */
export interface Quadrature {
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

/** Gauss–Legendre rule of n nodes: roots of the Legendre polynomial by Newton (Abramowitz & Stegun 25.4.29). */
export function gaussLegendre(n: number): Quadrature {
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let i = 0; i < n; i += 1) {
    let x = -Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let round = 0; round < 20; round += 1) {
      const [value, derivative] = legendre(n, x);
      slope = derivative;
      const step = value / derivative;
      x -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    nodes.push(x);
    weights.push(2 / ((1 - x * x) * slope * slope));
  }
  return { nodes, weights };
}

function legendre(n: number, x: number): [value: number, derivative: number] {
  let before = 1;
  let value = x;
  for (let k = 2; k <= n; k += 1) {
    const next = ((2 * k - 1) * x * value - (k - 1) * before) / k;
    before = value;
    value = next;
  }
  return [value, (n * (x * value - before)) / (x * x - 1)];
}

/** Integral of f from `from` to `to` by a rule. */
export function integral(rule: Quadrature, from: number, to: number, f: (x: number) => number): number {
  const middle = (from + to) / 2;
  const half = (to - from) / 2;
  let total = 0;
  for (let i = 0; i < rule.nodes.length; i += 1)
    total += rule.weights[i]! * f(middle + half * rule.nodes[i]!);
  return total * half;
}
