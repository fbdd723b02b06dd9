import type { Progress, ResolvedStudy, StudyBundle, StudyDocument } from "../app/types.ts";
import type { Clock } from "../core/calendar.ts";
import type { Outcome } from "../core/problem.ts";
import type { AreaCurve } from "../core/study/result.ts";
import type { Calendar, DemandReading, Study } from "../core/study/schema/study.ts";
import type { WeatherYear } from "../core/weather.ts";
import type { DemandAccount, DemandQuantity } from "../formats/demand/account.ts";
import type { StudyStore } from "../store/study-store.ts";
import type { Work, WorkAnswer } from "./jobs/work.ts";

export interface WorkListeners {
  readonly onProgress: (progress: Progress) => void;
  /** Called with the area curve as it grows. */
  readonly onCurve?: (curve: AreaCurve) => void;
  readonly signal: AbortSignal;
}

/** What the pages ask of the rest of the program; the mains put the real ones in, a test may put its own. */
export interface Services {
  readonly store: StudyStore;
  /** Text of a study.json as a study that keeps to the schema and to the rules across its parts. */
  readonly readStudy: (text: string) => Outcome<Study>;
  readonly resolveStudy: (bundle: StudyBundle) => Outcome<ResolvedStudy>;
  readonly readDemand: (demand: {
    readonly bytes: Uint8Array;
    readonly fileName: string;
    readonly reading: DemandReading;
    readonly quantity: DemandQuantity;
    readonly clock: Clock;
    readonly calendars: readonly Calendar[];
    readonly nameplate_kW?: number | undefined;
    readonly billed_kWh?: number | undefined;
  }) => DemandAccount;
  readonly readWeather: (
    bytes: Uint8Array,
    fileName: string,
    study: Pick<Study, "site" | "weather">,
  ) => Outcome<WeatherYear>;
  /** Runs the long work; rejects with an AbortError where `signal` ended it. */
  readonly doWork: (work: Work, listeners: WorkListeners) => Promise<WorkAnswer>;
  readonly exampleBundle: () => StudyBundle;
  /** The study inside a summary that this program wrote. */
  readonly openSummary: (html: string) => Outcome<StudyBundle>;
  readonly renderSummary: (document: StudyDocument, bundle: StudyBundle) => string;
  readonly hoursCsv: (document: StudyDocument) => string;
  readonly curveCsv: (document: StudyDocument) => string;
  /** The linear program of the study's full year in free MPS, piece by piece. */
  readonly programMps: (resolved: ResolvedStudy) => Iterable<string>;
}
