/** A stream of pseudo-random numbers: the same seed gives the same stream on every machine. */
export interface RandomStream {
  /** 32 random bits, 0 to 2³² − 1. */
  bits(): number;
  /** Above 0, below 1. */
  uniform(): number;
  /** Standard normal deviate. */
  normal(): number;
}

/** Stream of xoshiro128** whose state SplitMix32 (the MurmurHash3 finaliser) fills from an integer seed. */
export function randomStream(seed: number): RandomStream {
  let counter = seed | 0;
  const next = () => {
    counter = (counter + 0x9e3779b9) | 0;
    let z = counter;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return (z ^ (z >>> 16)) >>> 0;
  };
  return xoshiro128ss([next(), next(), next(), next()]);
}

/** xoshiro128** of Blackman & Vigna, ACM Trans. Math. Software 47 (2021); normals by Box & Muller 1958. */
export function xoshiro128ss(state: readonly [number, number, number, number]): RandomStream {
  let [a, b, c, d] = state;
  const rotated = (x: number, k: number) => (x << k) | (x >>> (32 - k));
  const bits = () => {
    const result = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = rotated(d, 11);
    return result;
  };
  const uniform = () => (bits() + 0.5) / 4294967296;
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  return { bits, uniform, normal };
}
