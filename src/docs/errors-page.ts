import { resolveProblems } from "../app/resolve-study.ts";
import { collectorProblems } from "../core/collector/collector-faults.ts";
import { filmAgeingProblems } from "../core/collector/film-ageing-faults.ts";
import { frostProblems } from "../core/collector/frost-faults.ts";
import { moduleProblems } from "../core/collector/module-faults.ts";
import { mountProblems } from "../core/collector/mount-faults.ts";
import { pipeProblems } from "../core/collector/pipe-faults.ts";
import { testReportProblems } from "../core/collector/test-report-faults.ts";
import { collectorUseProblems } from "../core/collector/use-faults.ts";
import { chillerFaultProblems } from "../core/cooling/chiller-faults.ts";
import { chillerRunRemarkCodes } from "../core/cooling/chiller-run-remarks.ts";
import { billProblems } from "../core/demand/bills/bill-faults.ts";
import { billRemarkCodes } from "../core/demand/bills/bill-findings.ts";
import { chillerProblems } from "../core/demand/chiller-remarks.ts";
import { desalinationProblems } from "../core/demand/loads/check-desalination.ts";
import { liquidLoadProblems } from "../core/demand/loads/check-liquids.ts";
import { loadProblems } from "../core/demand/loads/check-load.ts";
import { steamLoadProblems } from "../core/demand/loads/check-steam.ts";
import { nameplateRemarkCodes } from "../core/demand/loads/nameplate-remarks.ts";
import { fuelProblems } from "../core/economics/fuel-terms.ts";
import { errorCodes } from "../core/errors.ts";
import { storeProblems } from "../core/storage/store-capacity.ts";
import { backupProblems, backupRemarkCodes } from "../core/study/checks/backups.ts";
import { desalinationRemarkCodes } from "../core/study/checks/desalination-remarks.ts";
import { dryingRemarkCodes } from "../core/study/checks/drying-remarks.ts";
import { frostRemarkCodes } from "../core/study/checks/frost-remarks.ts";
import { futureProblems } from "../core/study/checks/futures.ts";
import { steamRemarkCodes } from "../core/study/checks/steam-remarks.ts";
import { streamProblems } from "../core/study/checks/streams.ts";
import { studyProblems, studyRemarkCodes } from "../core/study/checks/study-problems.ts";
import { demandProblems } from "../formats/demand/demand-problems.ts";
import { demandQuestions } from "../formats/demand/demand-questions.ts";
import { tariffProblems } from "../formats/prices/tariff-problems.ts";
import { studyJsonProblems } from "../formats/study-json/study-json-problems.ts";
import { summaryStudyProblems } from "../formats/summary-study.ts";
import { meansProblems } from "../formats/weather/means-cells.ts";
import { weatherProblems } from "../formats/weather/weather-problems.ts";
import { openStudyProblems } from "../store/open-study-file.ts";
import { formProblems } from "../web/forms/form-problems.ts";

/** Every catalogue of problems, in the order of the page. A new catalogue enters here in the same change. */
export const problemCatalogues: readonly {
  readonly title: string;
  readonly problems: Readonly<Record<string, string>>;
}[] = [
  { title: "The study file", problems: studyJsonProblems },
  { title: "Opening a study from files", problems: openStudyProblems },
  { title: "Taking a study out of a summary", problems: summaryStudyProblems },
  { title: "Files that a study names", problems: resolveProblems },
  { title: "Parts of a study among each other", problems: studyProblems },
  { title: "Possible years", problems: futureProblems },
  { title: "Process streams", problems: streamProblems },
  { title: "Remarks on a study", problems: studyRemarkCodes },
  { title: "Remarks on steam", problems: steamRemarkCodes },
  { title: "Loads", problems: loadProblems },
  { title: "Remarks on loads and their nameplates", problems: nameplateRemarkCodes },
  { title: "Thermal desalination", problems: desalinationProblems },
  { title: "Remarks on thermal desalination", problems: desalinationRemarkCodes },
  { title: "Remarks on drying", problems: dryingRemarkCodes },
  { title: "Loads by bills", problems: billProblems },
  { title: "Remarks on bills", problems: billRemarkCodes },
  { title: "Steam loads", problems: steamLoadProblems },
  { title: "Hot water and thermal oil", problems: liquidLoadProblems },
  { title: "Collectors", problems: collectorProblems },
  { title: "Mounts of collectors", problems: mountProblems },
  { title: "Collectors in use", problems: collectorUseProblems },
  { title: "Field pipes", problems: pipeProblems },
  { title: "Ageing of films", problems: filmAgeingProblems },
  { title: "Frost protection", problems: frostProblems },
  { title: "Remarks on frost", problems: frostRemarkCodes },
  { title: "Modules of collectors", problems: moduleProblems },
  { title: "Test reports of collectors", problems: testReportProblems },
  { title: "Stores", problems: storeProblems },
  { title: "Absorption chillers", problems: chillerFaultProblems },
  { title: "Remarks on absorption chillers", problems: chillerProblems },
  { title: "Remarks on a chiller's year", problems: chillerRunRemarkCodes },
  { title: "Backups", problems: backupProblems },
  { title: "Remarks on backups", problems: backupRemarkCodes },
  { title: "Fuels", problems: fuelProblems },
  { title: "Demand files", problems: demandProblems },
  { title: "Questions about demand files", problems: demandQuestions },
  { title: "Electricity tariffs", problems: tariffProblems },
  { title: "Weather files", problems: weatherProblems },
  { title: "Monthly means of weather", problems: meansProblems },
  { title: "Forms", problems: formProblems },
];

/** docs/errors.md as Markdown: every code of a problem or a model error with its meaning. */
export function errorsPage(): string {
  const sections = problemCatalogues.map(({ title, problems }) =>
    [`## ${title}`, table(problems)].join("\n\n"),
  );
  return `${[
    "# Problems and errors",
    "Made from the catalogues in `src/`; do not edit by hand. `npm run docs` writes it.",
    "A *problem* is about what the user gave. Problems are collected and told all at once, each with its place " +
      "(file, row, column or path in the study) and a sentence that says what was found and what is allowed. " +
      "Some stop the work, others are remarks about what was read; the code says what it is about, and is never " +
      "used again for something else.",
    ...sections,
    "## Model errors",
    "A *model error* is a call that the core cannot honour: a fault of the program, never of the user's data. " +
      "Please report it with the study that brought it.",
    table(errorCodes),
  ].join("\n\n")}\n`;
}

function table(problems: Readonly<Record<string, string>>): string {
  const rows = Object.entries(problems).map(([code, meaning]) => `| \`${code}\` | ${asSentence(meaning)} |`);
  return ["| code | meaning |", "| --- | --- |", ...rows].join("\n");
}

function asSentence(meaning: string): string {
  const sentence = meaning.charAt(0).toUpperCase() + meaning.slice(1);
  return (sentence.endsWith(".") ? sentence : `${sentence}.`).replaceAll("|", "\\|");
}
