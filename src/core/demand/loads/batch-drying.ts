import type { StudyCalendar } from "../../calendar.ts";
import { isClosedDay } from "../../month-day.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import type { BatchWindows } from "../resolved-load.ts";
import { civilDays } from "./civil-days.ts";
import { waterRemoved_kg_kg } from "./drying.ts";
import { figure } from "./figure.ts";
import type { LoadInputs } from "./load-inputs.ts";

type Batches = LoadOf<"batch-drying">;

/** Batches of heat, each due within its own window. */
export function batchDrying(load: Batches, inputs: LoadInputs): BatchWindows {
  const windows = batchWindows(load, inputs.calendar);
  const heat_kWh_per_batch = batchHeat_kWh(load);
  return {
    kind: "batch",
    id: load.id,
    network: load.network,
    windows,
    heat_kWh_per_batch,
    power_kW: load.power_kW,
    ...(load.product === undefined
      ? {}
      : {
          products: [
            {
              what: "water removed",
              amount: (windows.length * batchWater_kg(load.product)) / 1000,
              unit: "t" as const,
            },
          ],
        }),
    basis:
      `${figure(windows.length)} batches of ${figure(heat_kWh_per_batch)} kWh in the year${productWords(load)}, each within ` +
      `${figure(load.lasts_h)} h from ${String(load.opens_h).padStart(2, "0")}:00 civil time, at most ${figure(load.power_kW)} kW.`,
  };
}

/** Heat of a batch: as given, or the product's water times what a kg of it takes; NaN where neither is said. */
export function batchHeat_kWh({ heat_kWh_per_batch, product }: BatchHeatFacts): number {
  if (product === undefined) return heat_kWh_per_batch ?? Number.NaN;
  return batchWater_kg(product) * product.heat_kWh_per_kgWater;
}

type BatchHeatFacts = Pick<Batches, "heat_kWh_per_batch" | "product">;

/** Water removed from a batch. @throws ModelError OUT_OF_RANGE */
function batchWater_kg({ wet_kg, moistureIn, moistureOut }: NonNullable<Batches["product"]>): number {
  return wet_kg * waterRemoved_kg_kg(moistureIn, moistureOut);
}

function productWords({ product }: Batches): string {
  if (product === undefined) return "";
  const { name, wet_kg, heat_kWh_per_kgWater } = product;
  return (
    ` (${figure(wet_kg)} kg of wet ${name}, ${figure(batchWater_kg(product))} kg of water ` +
    `at ${figure(heat_kWh_per_kgWater, 2)} kWh per kg)`
  );
}

/**
 * One window for each open day of the factory's clock that has a batch, in the order of the dates.
 * An opening hour that daylight saving leaves out moves to the next hour; of a doubled one the first
 * counts. A window lasts elapsed hours and may run over the year's end, or over a closed day after it.
 */
export function batchWindows(
  load: Pick<Batches, "opens_h" | "lasts_h" | "weekdays" | "closed">,
  calendar: StudyCalendar,
): { opens: number; lasts_h: number }[] {
  return civilDays(calendar)
    .filter(({ weekday }) => load.weekdays.includes(weekday))
    .filter(({ month, day }) => !isClosedDay(load.closed ?? [], month, day))
    .map(({ hours }) => ({
      opens: hours.find((index) => calendar.civilHour[index] >= load.opens_h) ?? hours[hours.length - 1],
      lasts_h: load.lasts_h,
    }));
}
