import type { ResolvedLoad } from "../../core/demand/resolved-load.ts";
import { pinchFigures } from "../../core/study/pinch-figures.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { loadsBesideTarget, pinchNetworksTable, pinchSentences } from "../../present/pinch-view.ts";
import { buildForm, type FormContext } from "../forms/build-form.ts";
import { isTakenFromStreams } from "../forms/take-streams.ts";

/** What "Streams first" shows: the list of streams and, with some, the least heat that they need. */
export function streamsSection(study: Study, form: FormContext, loads: readonly ResolvedLoad[] | null) {
  const figures = pinchFigures(study);
  return {
    fields: [...buildForm(form, "streams"), ...buildForm(form, "pinch")],
    some: figures !== null,
    atFault: form.problems.some(({ place: { path = "" } }) => path.startsWith("streams/")),
    sentences:
      figures === null
        ? []
        : [...pinchSentences(study, figures), ...loadsBesideTarget(study, figures, loads ?? [])],
    table: figures === null ? null : pinchNetworksTable(study, figures),
    canTake: figures?.networks.some(({ heat_kW }) => heat_kW > 0) === true,
    taken: study.loads.filter((load) => isTakenFromStreams(study, load.id)).map(({ name }) => name),
    calendars: study.loads.flatMap((load) =>
      load.kind === "process-heat" && load.heat_kW.from === "calendar" && !isTakenFromStreams(study, load.id)
        ? [{ value: load.id, label: load.name }]
        : [],
    ),
  };
}
