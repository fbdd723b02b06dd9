import type { StudyCalendar } from "../../core/calendar.ts";
import type { Problem } from "../../core/problem.ts";
import type { Question } from "../demand/account.ts";
import { readDemand } from "../demand/read-demand.ts";
import { looksLikeTariff, readTariff } from "./read-tariff.ts";

export interface PriceAccount {
  readonly problems: readonly Problem[];
  readonly questions: readonly Question[];
  readonly findings: readonly Problem[];
  /** 8760 prices per kWh; null where the file is refused. */
  readonly hourly: Float64Array | null;
}

/** Prices by the hour: a CSV or xlsx of hourly figures, or a published tariff as JSON. */
export function readPrices(bytes: Uint8Array, file: string, calendar: StudyCalendar): PriceAccount {
  if (looksLikeTariff(bytes))
    return { questions: [], ...readTariff(new TextDecoder().decode(bytes), file, calendar) };
  const { problems, questions, hourly } = readDemand(bytes, {
    file,
    reading: {},
    calendar,
    quantity: "price",
  });
  return { problems, questions, findings: [], hourly };
}
