import { standardPressure_Pa } from "../../air/psychrometrics.ts";
import { steamHeat } from "../../demand/loads/steam.ts";
import type { Problem } from "../../problem.ts";
import { saturationTemperature_C } from "../../steam/if97.ts";
import type { Study } from "../schema/study.ts";

/** What is odd in a steam load and does not stop the work. */
export const steamRemarkCodes = {
  REMARK_FEED_BOILS_OPEN: "feed water above boiling at the air's pressure needs a feed tank under pressure",
} as const;

const pascal_per_bar = 1e5;
/** Water enthalpies are taken at the steam's pressure; what they miss is less than this. */
const near_K = 0.5;

/** Feed water that would flash in an open tank. The loads must be without faults. */
export function steamRemarks({ loads, site }: Study): Problem[] {
  const boiling_C = saturationTemperature_C(standardPressure_Pa(site.elevation_m) / pascal_per_bar);
  return loads.flatMap((load, i): Problem[] => {
    if (load.kind !== "steam") return [];
    const { feed_C } = steamHeat(load, site.elevation_m);
    if (feed_C <= boiling_C + near_K) return [];
    return [
      {
        code: "REMARK_FEED_BOILS_OPEN" satisfies keyof typeof steamRemarkCodes,
        message:
          `The feed water of "${load.id}" is ${feed_C.toFixed(0)} °C hot and boils at ${boiling_C.toFixed(0)} °C in the open; it needs a feed ` +
          "tank or deaerator under pressure, or heat and water are lost that are counted as returned.",
        place: { path: `loads/${i}/condensateReturn_C` },
      },
    ];
  });
}
