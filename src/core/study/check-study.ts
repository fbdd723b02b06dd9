import type { Problem } from "../problem.ts";
import { checkBackups } from "./checks/backups.ts";
import { checkCalendars } from "./checks/calendars.ts";
import { checkLoads } from "./checks/loads.ts";
import { checkMoney } from "./checks/money.ts";
import { checkNetworks } from "./checks/networks.ts";
import { checkPlant } from "./checks/plant.ts";
import { checkReferences } from "./checks/references.ts";
import { remarks } from "./checks/remarks.ts";
import { checkSite } from "./checks/site.ts";
import { checkSizes } from "./checks/sizes.ts";
import { checkStepDowns } from "./checks/step-downs.ts";
import { checkStores } from "./checks/stores.ts";
import { checkStreams } from "./checks/streams.ts";
import { fault } from "./checks/study-problems.ts";
import { checkSureness } from "./checks/sureness.ts";
import type { Study } from "./schema/study.ts";

/** Every fault among the parts of a study that a schema cannot see, at once. The study must fit the schema. */
export function checkStudy(study: Study): Problem[] {
  return [
    ...checkReferences(study),
    ...checkSite(study.site),
    ...fileNames(study),
    ...checkNetworks(study.networks),
    ...checkStreams(study),
    ...checkCalendars(study),
    ...checkLoads(study),
    ...checkPlant(study),
    ...checkBackups(study),
    ...checkStores(study),
    ...checkStepDowns(study),
    ...checkSizes(study),
    ...checkMoney(study),
    ...checkSureness(study),
  ];
}

/** What is odd in a study and does not stop the work; call it on a study without faults. */
export function studyRemarks(study: Study): Problem[] {
  return remarks(study);
}

function fileNames({ weather, electricity, backups }: Study): Problem[] {
  const problems: Problem[] = [];
  if (weather.file.trim() === "")
    problems.push(
      fault("STUDY_FILE_NAME", "weather/file", "The study names no weather file; a file name is needed."),
    );
  if (electricity.priceFile !== undefined && electricity.priceFile.trim() === "")
    problems.push(
      fault(
        "STUDY_FILE_NAME",
        "electricity/priceFile",
        "The file of hourly prices has no name; name it or leave it out.",
      ),
    );
  backups.forEach(({ fuel }, i) => {
    if (fuel.priceFile !== undefined && fuel.priceFile.trim() === "")
      problems.push(
        fault(
          "STUDY_FILE_NAME",
          `backups/${i}/fuel/priceFile`,
          "The file of hourly fuel prices has no name; name it or leave it out.",
        ),
      );
  });
  return problems;
}
