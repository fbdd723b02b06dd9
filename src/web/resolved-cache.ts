import type { ResolvedStudy } from "../app/types.ts";
import type { Outcome } from "../core/problem.ts";
import type { KeptStudy } from "../store/study-store.ts";
import type { Services } from "./services.ts";

/** Remembers the last few studies with their hours worked out, by what they were worked out from. */
export class ResolvedCache {
  readonly #resolve: Services["resolveStudy"];
  readonly #kept = new Map<string, Outcome<ResolvedStudy>>();

  constructor(resolve: Services["resolveStudy"]) {
    this.#resolve = resolve;
  }

  of(study: KeptStudy): Outcome<ResolvedStudy> {
    const known = this.#kept.get(study.fingerprint);
    if (known !== undefined)
      return known.ok ? { ...known, value: { ...known.value, study: study.study } } : known;
    const outcome = this.#resolve({ study: study.study, files: study.files });
    this.#kept.set(study.fingerprint, outcome);
    const oldest = this.#kept.keys().next().value;
    if (this.#kept.size > 8 && oldest !== undefined) this.#kept.delete(oldest);
    return outcome;
  }
}
