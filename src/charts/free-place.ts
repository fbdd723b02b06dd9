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
  let best: Box | null = null;
  let bestFar = Number.POSITIVE_INFINITY;
  for (let centre = reach; centre + reach < count; centre += 2) {
    const span = Array.from({ length: 2 * reach + 1 }, (_, index) => centre - reach + index);
    const heights = span.map((at) => curves[own]![at]!);
    const x = plot.left + centre * step;
    for (const top of [Math.min(...heights) - 6 - size.height, Math.max(...heights) + 6]) {
      const box = { left: x - size.width / 2, right: x + size.width / 2, top, bottom: top + size.height };
      if (box.top < plot.top || box.bottom > plot.bottom - 2) continue;
      if (taken.some((other) => overlap(box, other))) continue;
      if (curves.some((curve) => crosses(curve, span, box))) continue;
      // Near its line first, rather above than below, then near a third of the width.
      const below = top > curves[own]![centre]! ? 10 : 0;
      const far =
        below +
        Math.abs(top + size.height / 2 - curves[own]![centre]!) +
        20 * Math.abs(centre / count - 0.35);
      if (far < bestFar) [best, bestFar] = [box, far];
    }
  }
  return best;
}

/** Also where a curve falls past the box between two samples. */
function crosses(curve: ArrayLike<number>, span: readonly number[], box: Box): boolean {
  return span.slice(1).some((at) => {
    const [before, after] = [curve[at - 1]!, curve[at]!];
    return !(Math.max(before, after) < box.top - 2 || Math.min(before, after) > box.bottom + 2);
  });
}

export function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
