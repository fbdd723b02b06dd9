/**
 * Unshaded share of round apertures on two axes on a square grid, by counting points: of the points of one aperture
 * those that no circle of a neighbour toward the sun covers, the grid pressed together by the sine of the sun's height
 * (docs/methods/sun.md, two axes), the mean over the ways the grid may lie to the sun. Never above sine / cover.
 */
export function roundGridByHand(cover: number): (sine: number) => number {
  const steps = 200;
  const table = Array.from({ length: steps + 1 }, (_, n) => counted(cover, n / steps));
  return (sine) => {
    const n = Math.min(steps - 1, Math.floor(sine * steps));
    return table[n]! + (sine * steps - n) * (table[n + 1]! - table[n]!);
  };
}

function counted(cover: number, sine: number): number {
  if (sine === 0) return 0;
  const spacing = Math.sqrt(Math.PI / 4 / cover);
  const points: [number, number][] = [];
  for (let x = -0.4875; x < 0.5; x += 0.025)
    for (let y = -0.4875; y < 0.5; y += 0.025) if (x * x + y * y <= 0.25) points.push([x, y]);
  let lit = 0;
  const turns = 15;
  for (let turn = 0; turn < turns; turn += 1) {
    const angle = ((turn + 0.5) / turns) * (Math.PI / 2);
    const near: [number, number][] = [];
    const far = Math.ceil(1 / (sine * spacing)) + 2;
    for (let i = -far; i <= far; i += 1)
      for (let j = -far; j <= far; j += 1) {
        const x = spacing * (i * Math.cos(angle) - j * Math.sin(angle));
        const y = spacing * (i * Math.sin(angle) + j * Math.cos(angle)) * sine;
        if (y > 0 && x * x + y * y < 1) near.push([x, y]);
      }
    for (const [x, y] of points)
      if (!near.some(([u, v]) => (x - u) ** 2 + (y - v) ** 2 < 0.25)) lit += 1 / (turns * points.length);
  }
  return Math.min(lit, sine / cover);
}
