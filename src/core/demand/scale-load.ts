import type { LoadProduct, ResolvedLoad } from "./resolved-load.ts";

/**
 * A load that draws `factor` times as much in every hour, with its electricity. A batch keeps its heat,
 * since its windows and power were chosen for it.
 */
export function scaleLoad(load: ResolvedLoad, factor: number): ResolvedLoad {
  if (factor === 1) return load;
  const scaled = (series: Float64Array) => series.map((value) => factor * value);
  switch (load.kind) {
    case "fixed-heat":
      return {
        ...load,
        ...scaledProducts(load.products, factor),
        heat_kW: scaled(load.heat_kW),
        electricity_kW: load.electricity_kW === null ? null : scaled(load.electricity_kW),
      };
    case "water":
      return { ...load, ...scaledProducts(load.products, factor), order_m3_h: scaled(load.order_m3_h) };
    case "cold":
      return { ...load, cold_kW: scaled(load.cold_kW) };
    case "batch":
      return load;
  }
}

function scaledProducts(products: readonly LoadProduct[] | undefined, factor: number) {
  if (products === undefined) return {};
  return { products: products.map((product) => ({ ...product, amount: factor * product.amount })) };
}
