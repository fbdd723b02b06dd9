export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * Centre of a label of the given size close to `curves[own]`, above or below it, clear of every curve,
 * of the boxes already taken and of the plot's edge; null where there is none. A curve is its y at
 * equally spaced x across the plot.
 */
export function freePlace(
  size: { readonly width: number; readonly height: number },
  curves: readonly ArrayLike<number>[],
  own: number,
  plot: Box,
  taken: readonly Box[],
): Box | null {
  const count = curves[own]!.length;
  const step = (plot.right - plot.left) / Math.max(1, count - 1);
  const reach = Math.ceil(size.width / 2 / step) + 1;
  for (let attempt = 0; attempt < 40; attempt += 1) {
    // From a third of the width outwards to both sides.
    const offset = (attempt % 2 === 0 ? 1 : -1) * Math.ceil(attempt / 2) * 0.04;
    const centre = Math.round((0.35 + offset) * (count - 1));
    if (centre - reach < 0 || centre + reach >= count) continue;
    let high = Number.POSITIVE_INFINITY;
    let low = Number.NEGATIVE_INFINITY;
    for (let at = centre - reach; at <= centre + reach; at += 1) {
      high = Math.min(high, curves[own]![at]!);
      low = Math.max(low, curves[own]![at]!);
    }
    const x = plot.left + centre * step;
    for (const top of [high - 6 - size.height, low + 6]) {
      const box = { left: x - size.width / 2, right: x + size.width / 2, top, bottom: top + size.height };
      if (box.top < plot.top || box.bottom > plot.bottom - 2) continue;
      if (taken.some((other) => overlap(box, other))) continue;
      const crossed = curves.some((curve) => {
        for (let at = centre - reach; at <= centre + reach; at += 1) {
          if (!(curve[at]! < box.top - 2 || curve[at]! > box.bottom + 2)) return true;
        }
        return false;
      });
      if (!crossed) return box;
    }
  }
  return null;
}

export function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
