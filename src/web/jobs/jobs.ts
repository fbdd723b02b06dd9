import type { ReplayFigures } from "../../core/study/result.ts";
import type { KeptStudy, StudyStore } from "../../store/study-store.ts";
import type { Services } from "../services.ts";
import type { Work } from "./work.ts";

export type Task = "typical-days" | "full-year" | "second-opinion" | "two-day" | "curve" | "robust";

/** How a study's work stands. */
export interface JobView {
  readonly state: "waiting" | "running" | "done" | "stopped" | "refused" | "failed";
  /** What is being done, or how it ended, for the reader. */
  readonly doing: string;
  readonly share: number | null;
  readonly tasks: readonly Task[];
  /** How many of the tasks are done and their answers kept. */
  readonly done: number;
  /** Grows with the area curve that is being drawn and kept; 0 before it can be seen. */
  readonly curvePoints: number;
  /** Faults of the study that stopped the work. */
  readonly problems: readonly string[];
}

interface Job {
  readonly studyId: string;
  readonly tasks: readonly Task[];
  readonly stop: AbortController;
  view: JobView;
}

export interface JobsOptions {
  readonly store: StudyStore;
  readonly doWork: Services["doWork"];
  /** Called with what went wrong inside the program, for the log. */
  readonly onFault: (error: unknown) => void;
}

/** One queue of long work, one study's job at a time; at most one job a study. */
export class Jobs {
  readonly #options: JobsOptions;
  readonly #jobs = new Map<string, Job>();
  readonly #queue: Job[] = [];
  #busy = false;

  constructor(options: JobsOptions) {
    this.#options = options;
  }

  /** Puts work for a study into the queue; work of the same study that still runs is stopped. */
  start(studyId: string, tasks: readonly Task[]): void {
    this.stop(studyId);
    const view: JobView = {
      state: "waiting",
      doing: "Waiting for other work",
      share: null,
      tasks,
      done: 0,
      curvePoints: 0,
      problems: [],
    };
    const job: Job = { studyId, tasks, stop: new AbortController(), view };
    this.#jobs.set(studyId, job);
    this.#queue.push(job);
    void this.#next();
  }

  of(studyId: string): JobView | null {
    return this.#jobs.get(studyId)?.view ?? null;
  }

  isRunning(studyId: string): boolean {
    const state = this.of(studyId)?.state;
    return state === "waiting" || state === "running";
  }

  stop(studyId: string): void {
    const job = this.#jobs.get(studyId);
    if (job === undefined || !this.isRunning(studyId)) return;
    job.stop.abort();
    job.view = { ...job.view, state: "stopped", doing: "Stopped. What was found before is kept." };
  }

  /** Stops everything. */
  stopAll(): void {
    for (const id of this.#jobs.keys()) this.stop(id);
  }

  async #next(): Promise<void> {
    if (this.#busy) return;
    const job = this.#queue.shift();
    if (job === undefined) return;
    this.#busy = true;
    try {
      if (!job.stop.signal.aborted) await this.#run(job);
    } catch (error) {
      if (!job.stop.signal.aborted) {
        this.#options.onFault(error);
        job.view = {
          ...job.view,
          state: "failed",
          doing: "The work ended with a fault of this program; the log has the details.",
        };
      }
    } finally {
      this.#busy = false;
      void this.#next();
    }
  }

  async #run(job: Job): Promise<void> {
    const { store, doWork } = this.#options;
    for (const [index, task] of job.tasks.entries()) {
      // Read anew for each task: the study may have been changed while an earlier one ran.
      const kept = await store.read(job.studyId);
      if (kept === null || job.stop.signal.aborted) return;
      const work = await this.#workOf(task, kept);
      if (work === null) continue;
      job.view = { ...job.view, state: "running", doing: started[task], share: null };
      let saving = Promise.resolve();
      const answer = await doWork(work, {
        signal: job.stop.signal,
        onCurve: (curve) => {
          if (job.stop.signal.aborted) return;
          saving = saving.then(() => store.saveCurve(job.studyId, kept.curveFingerprint, curve));
          job.view = { ...job.view, curvePoints: 1 + curve.bound.length };
        },
        onProgress: ({ doing, share }) => {
          if (job.stop.signal.aborted) return;
          const whole = share === null ? null : (index + share) / job.tasks.length;
          job.view = { ...job.view, doing, share: whole };
        },
      }).finally(() => saving);
      if (job.stop.signal.aborted) return;
      if (answer.kind === "refused") {
        const problems = answer.problems.map(({ message }) => message);
        job.view = { ...job.view, state: "refused", doing: "The study cannot be calculated yet.", problems };
        return;
      }
      if (answer.kind === "sized") await store.saveAnswer(job.studyId, kept.fingerprint, answer.sized);
      else if (answer.kind === "robust")
        await store.saveRobust(job.studyId, kept.robustFingerprint, answer.robust);
      else if (answer.kind === "two-day") await this.#addTwoDay(kept, answer.twoDay);
      else if (answer.kind === "curve")
        await store.saveCurve(job.studyId, kept.curveFingerprint, answer.curve);
      job.view = { ...job.view, done: index + 1 };
    }
    job.view = { ...job.view, state: "done", doing: "Done.", share: 1 };
  }

  /** What is to be done; null where the answer that it needs is not there, or of another study by now. */
  async #workOf(task: Task, kept: KeptStudy): Promise<Work | null> {
    const bundle = { study: kept.study, files: kept.files };
    if (task === "typical-days" || task === "full-year")
      return { kind: "size", method: task, yearSolver: "interior-point", bundle };
    if (task === "second-opinion") return { kind: "size", method: "full-year", yearSolver: "highs", bundle };
    if (task === "robust") return { kind: "robust", bundle };
    const answer = await this.#options.store.readAnswer(kept.id);
    if (answer === null || answer.fingerprint !== kept.fingerprint) return null;
    return { kind: task, bundle, result: answer.sized.result };
  }

  /** Puts the two-day plan beside the answer whose plant it ran. */
  async #addTwoDay({ id, fingerprint }: KeptStudy, twoDay: ReplayFigures): Promise<void> {
    const { store } = this.#options;
    const answer = await store.readAnswer(id);
    const replay = answer?.sized.result.replay ?? null;
    if (answer === null || answer.fingerprint !== fingerprint || replay === null) return;
    const result = { ...answer.sized.result, replay: { ...replay, twoDay } };
    await store.saveAnswer(id, fingerprint, { ...answer.sized, result });
  }
}

const started: Readonly<Record<Task, string>> = {
  "typical-days": "Sizing on typical days",
  "full-year": "Sizing on the full year",
  "second-opinion": "Solving the full year again with HiGHS",
  "two-day": "Running the plant by plans two days ahead",
  curve: "Drawing the area curve",
  robust: "Finding sizes for several possible years",
};
