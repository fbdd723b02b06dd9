import { tell } from "../../core/problem.ts";
import { checkFutures } from "../../core/study/checks/futures.ts";
import { robustView } from "../../present/robust-view.ts";
import type { KeptStudy } from "../../store/study-store.ts";
import type { RouteContext } from "../build-app.ts";
import { buildForm, type FormContext } from "../forms/build-form.ts";

/** What the section "Several years at once" shows: the list of possible years and the answer for them. */
export async function futuresSection(kept: KeptStudy, { services }: RouteContext, form: FormContext) {
  const { study } = kept;
  const robust = await services.store.readRobust(kept.id);
  const some = (study.futures ?? []).length > 0;
  return {
    fields: buildForm(form, "futures"),
    some,
    faults: some ? checkFutures(study).map(({ message, code }) => tell({ code, message, place: {} })) : [],
    answer: robust === null ? null : robustView(study, robust.robust),
    stale: robust !== null && robust.fingerprint !== kept.robustFingerprint,
  };
}
