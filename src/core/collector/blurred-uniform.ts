/**
 * Probability that a value spread evenly over ±halfWidth plus a normal error of `deviation` lies between two
 * bounds: closed form by the integral of the normal distribution, exact as either spread goes to 0.
 */
export function blurredUniform(low: number, high: number, halfWidth: number, deviation: number): number {
  if (!(high > low)) return 0;
  // Below this the differences would lose their digits, and the width no longer matters.
  if (halfWidth <= 1e-5 * deviation) return normalShare(high / deviation) - normalShare(low / deviation);
  if (halfWidth === 0) return low <= 0 && high >= 0 ? 1 : 0;
  const inside =
    ramp(high + halfWidth, deviation) -
    ramp(high - halfWidth, deviation) -
    ramp(low + halfWidth, deviation) +
    ramp(low - halfWidth, deviation);
  return Math.min(1, Math.max(0, inside / (2 * halfWidth)));
}

/** ∫ Φ(t/σ) dt from −∞ to x = x·Φ(x/σ) + σ·φ(x/σ); max(0, x) for σ = 0. */
function ramp(x: number, deviation: number): number {
  if (x >= 7 * deviation) return x;
  if (x <= -7 * deviation) return 0;
  const z = x / deviation;
  return x * normalShare(z) + deviation * 0.3989422804014327 * Math.exp((-z * z) / 2);
}

/** Normal distribution Φ to about 1e-15: Hart's algorithm 5666 as given by West, Wilmott Magazine 2005 (from memory). */
export function normalShare(z: number): number {
  const x = Math.abs(z);
  const tail = x > 7.07 ? 0 : Math.exp((-x * x) / 2) * hart(x);
  return z > 0 ? 1 - tail : tail;
}

function hart(x: number): number {
  let above = 3.52624965998911e-2 * x + 0.700383064443688;
  above = above * x + 6.37396220353165;
  above = above * x + 33.912866078383;
  above = above * x + 112.079291497871;
  above = above * x + 221.213596169931;
  above = above * x + 220.206867912376;
  let below = 8.83883476483184e-2 * x + 1.75566716318264;
  below = below * x + 16.064177579207;
  below = below * x + 86.7807322029461;
  below = below * x + 296.564248779674;
  below = below * x + 637.333633378831;
  below = below * x + 793.826512519948;
  below = below * x + 440.413735824752;
  return above / below;
}
