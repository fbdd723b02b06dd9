import type { DispatchCase, StoreCase } from "../../src/core/dispatch/case.ts";
import { backup, collector, dispatchCase, field, freeSize, network, store } from "./dispatch-cases.ts";

/** A day of constant demand, 1000 kW, and a square wave of sun, 0.5 kW/m² for twelve hours; costs are for the day. */
export function squareWave(given: {
  readonly fuel?: number;
  readonly area?: number;
  readonly capacity?: number;
  readonly store?: Partial<StoreCase>;
}): DispatchCase {
  return dispatchCase(24, {
    networks: [network("heat", new Float64Array(24).fill(1000))],
    collectors: [collector(given.area ?? 0.12)],
    fields: [field(new Float64Array(24).fill(0.5, 0, 12))],
    stores: [store(freeSize(given.capacity ?? 0.01), given.store)],
    backups: [backup(given.fuel ?? 0.04)],
  });
}

/** Twelve hours of a half-sine of sun, by the midpoints of n steps, against 1000 kW without a store. */
export function halfSine(steps: number): DispatchCase {
  const sun = Float64Array.from({ length: steps }, (_, n) => 0.6 * Math.sin((Math.PI * (n + 0.5)) / steps));
  return {
    ...dispatchCase(steps, {
      networks: [network("heat", new Float64Array(steps).fill(1000))],
      collectors: [collector(0.12)],
      fields: [field(sun)],
      backups: [backup(0.04)],
    }),
    step_h: 12 / steps,
  };
}
