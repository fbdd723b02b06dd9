import type { Network } from "./schema/site.ts";

/** Temperatures between which a heat carrier may be used, °C, and why in words that finish a sentence. */
export interface CarrierRange {
  readonly name: string;
  readonly least_C: number;
  readonly most_C: number;
  readonly why: string;
}

/** Critical temperature of water, IAPWS R2-83(1992): 647.096 K. Above it there is no boiling and no saturation. */
const critical_C = 373.946;

/**
 * Water and steam end at the critical point; thermal oil freezes at 12 °C (the eutectic of the store media) and
 * stops just short of 400 °C (common practice, no source); nitrate salt from 260 to 600 °C (Zavoico,
 * SAND2001-2100, 2001, p. 23). Hot air has no limit of its own here.
 */
export const carrierRanges: Readonly<Record<Network["carrier"], CarrierRange>> = {
  water: {
    name: "Water",
    least_C: 0,
    most_C: critical_C,
    why: "its critical point, above which it does not stay liquid",
  },
  steam: {
    name: "Steam",
    least_C: 0,
    most_C: critical_C,
    why: "the critical point of water, above which there is no saturated steam",
  },
  "thermal-oil": {
    name: "Thermal oil",
    least_C: 12,
    most_C: 400,
    why: "where it decomposes; its maker's sheet may set less",
  },
  "molten-salt": {
    name: "Molten nitrate salt",
    least_C: 260,
    most_C: 600,
    why: "where it decomposes; below the least it freezes",
  },
  "hot-air": { name: "Hot air", least_C: 0, most_C: Number.POSITIVE_INFINITY, why: "" },
};
