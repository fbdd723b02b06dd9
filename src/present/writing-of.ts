import type { Study } from "../core/study/schema/study.ts";
import type { Writing } from "./quantities.ts";

/** The number format and currency of a study. */
export function writingOf(study: Study): Writing {
  return { locale: study.money.locale ?? "en", currency: study.money.currency };
}
