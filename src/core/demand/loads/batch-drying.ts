import type { StudyCalendar } from "../../calendar.ts";
import { isClosedDay } from "../../month-day.ts";
import type { LoadOf } from "../../study/schema/study.ts";
import type { BatchWindows } from "../resolved-load.ts";
import { civilDays } from "./civil-days.ts";
import { figure } from "./figure.ts";
import type { LoadInputs } from "./load-inputs.ts";

type Batches = LoadOf<"batch-drying">;

/** Batches of heat, each due within its own window. */
export function batchDrying(load: Batches, inputs: LoadInputs): BatchWindows {
  const windows = batchWindows(load, inputs.calendar);
  return {
    kind: "batch",
    id: load.id,
    network: load.network,
    windows,
    heat_kWh_per_batch: load.heat_kWh_per_batch,
    power_kW: load.power_kW,
    basis:
      `${figure(windows.length)} batches of ${figure(load.heat_kWh_per_batch)} kWh in the year, each within ` +
      `${figure(load.lasts_h)} h from ${String(load.opens_h).padStart(2, "0")}:00 civil time, at most ${figure(load.power_kW)} kW.`,
  };
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
