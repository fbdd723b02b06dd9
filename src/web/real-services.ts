import { exampleBundle } from "../app/example.ts";
import { renderSummary } from "../app/render-summary.ts";
import { resolveStudy } from "../app/resolve-study.ts";
import { studyCalendar } from "../core/calendar.ts";
import { formulate } from "../core/dispatch/formulate.ts";
import { plantModel } from "../core/study/plant-model.ts";
import { curveCsv } from "../formats/curve-csv.ts";
import { readDemand } from "../formats/demand/read-demand.ts";
import { hoursCsv } from "../formats/hours-csv.ts";
import { mpsChunks } from "../formats/mps.ts";
import { readSoundStudy } from "../formats/study-json.ts";
import { extractStudy } from "../formats/summary-study.ts";
import { readWeather } from "../formats/weather/read-weather.ts";
import { weatherOptions } from "../formats/weather/weather-options.ts";
import { exampleDefinition } from "../store/example-files.ts";
import type { StudyStore } from "../store/study-store.ts";
import type { Services } from "./services.ts";

export interface RealParts {
  readonly store: StudyStore;
  readonly doWork: Services["doWork"];
  /** The date to print on a summary, ISO. */
  readonly today: () => string;
}

/** The program's own parts behind the pages. */
export function realServices({ store, doWork, today }: RealParts): Services {
  return {
    store,
    doWork,
    readStudy: (text) => readSoundStudy(text, "study.json"),
    resolveStudy,
    readDemand: ({ bytes, fileName, reading, quantity, clock, calendars, nameplate_kW, billed_kWh }) =>
      readDemand(bytes, {
        file: fileName,
        reading,
        quantity,
        calendar: studyCalendar(clock),
        calendars,
        nameplate_kW,
        billed_kWh,
      }),
    readWeather: (bytes, file, study) => readWeather(bytes, weatherOptions(study, file)),
    exampleBundle: () => exampleBundle(exampleDefinition()),
    openSummary: extractStudy,
    renderSummary: (document, bundle) => renderSummary({ ...document, bundle, today: today() }),
    hoursCsv: ({ sized, resolved }) => (sized === null ? "" : hoursCsv(sized.hours, resolved.calendar)),
    curveCsv: ({ curve }) => (curve === null ? "" : curveCsv(curve)),
    programMps: (resolved) =>
      mpsChunks(formulate(plantModel(resolved).problem, { keepSizeColumns: true }).program),
  };
}
