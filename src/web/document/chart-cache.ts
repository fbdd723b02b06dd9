import type { KeptAnswer, KeptCurve, KeptStudy } from "../../store/study-store.ts";
import type { DocumentCharts } from "./document-charts.ts";

/** Studies whose charts are kept drawn. */
const mostKept = 6;

/** Remembers the charts of the last few studies, by everything that they show. */
export class ChartCache {
  readonly #kept = new Map<string, DocumentCharts>();

  of(
    kept: KeptStudy,
    answer: KeptAnswer | null,
    curve: KeptCurve | null,
    draw: () => DocumentCharts,
  ): DocumentCharts {
    const key = keyOf(kept, answer, curve);
    const known = this.#kept.get(key);
    if (known !== undefined) return known;
    const drawn = draw();
    this.#kept.set(key, drawn);
    const oldest = this.#kept.keys().next().value;
    if (this.#kept.size > mostKept && oldest !== undefined) this.#kept.delete(oldest);
    return drawn;
  }
}

/** The revision tells the study; the proof and the optimum tell two answers of the same study apart. */
function keyOf(kept: KeptStudy, answer: KeptAnswer | null, curve: KeptCurve | null): string {
  const proof = answer?.sized.result.proof;
  return JSON.stringify([
    kept.id,
    kept.revision,
    answer?.fingerprint,
    proof?.method,
    proof?.objective,
    proof?.solve_s,
    curve?.fingerprint,
    curve?.curve.optimum,
    curve?.curve.chosen,
    curve?.curve.chosenBound,
    curve?.curve.bound,
  ]);
}
