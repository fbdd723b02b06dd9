import { collectorRecords } from "../../core/collector/records.ts";
import { type Problem, tell } from "../../core/problem.ts";
import type { AreaCurve, Result } from "../../core/study/result.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { cautionsFor, deferenceSentence } from "../../core/summary/cautions.ts";
import { notIncluded } from "../../core/summary/not-included.ts";
import { answerView } from "../../present/answer-view.ts";
import { coldTables } from "../../present/cold-table.ts";
import { collectorYears, collectorYearsTable, standstillSentences } from "../../present/collector-losses.ts";
import { contractView } from "../../present/contract-view.ts";
import { financeView } from "../../present/finance-view.ts";
import { frostLines } from "../../present/frost-lines.ts";
import { improvementsView } from "../../present/improvements-view.ts";
import { loadMatchTable } from "../../present/load-match-table.ts";
import { heatCostTable, pricePathsTable, truePriceSentences } from "../../present/money-detail.ts";
import { pricesView } from "../../present/prices-view.ts";
import { promisedResult } from "../../present/promised.ts";
import { proofSentences, proofTable } from "../../present/proof-view.ts";
import { replayView } from "../../present/replay-view.ts";
import {
  costsTable,
  curveTable,
  limitsTable,
  loadsTable,
  matchRemarks,
  matchTable,
  moneyTable,
  networksTable,
  partsTable,
  sizesTable,
} from "../../present/result-tables.ts";
import { testReportTable } from "../../present/test-reports.ts";
import type { KeptStudy } from "../../store/study-store.ts";
import type { RouteContext } from "../build-app.ts";
import type { FormContext } from "../forms/build-form.ts";
import { anchorOf } from "../forms/form-field.ts";
import { calendarKinds } from "../forms/starting-calendar.ts";
import { withIndexes } from "../forms/study-paths.ts";
import { billViews } from "./bill-views.ts";
import { documentCharts } from "./document-charts.ts";
import { futuresSection } from "./futures-section.ts";
import { itemViews, partView } from "./item-view.ts";
import { streamsSection } from "./streams-section.ts";

/** What a refused change was: shown again with its faults. */
export interface Refusal {
  readonly typed: ReadonlyMap<string, readonly string[]>;
  readonly problems: readonly Problem[];
}

const sections = [
  ["answer", "Answer"],
  ["works", "The works"],
  ["sun", "Sun"],
  ["heat", "Heat wanted"],
  ["match", "Match"],
  ["losses", "Where the light goes"],
  ["plant", "Plant"],
  ["year", "A year of operation"],
  ["replay", "Without foresight"],
  ["curve", "Area curve"],
  ["futures", "Several years at once"],
  ["prices", "What the prices say"],
  ["money", "Money"],
  ["cautions", "Cautions"],
  ["proof", "Proof and downloads"],
] as const;

/** Everything that views/pages/study.ejs shows of one study. */
export async function documentPage(
  kept: KeptStudy,
  context: RouteContext,
  refusal: Refusal = { typed: new Map(), problems: [] },
) {
  const { services, jobs, resolved } = context;
  const { study } = kept;
  const outcome = resolved.of(kept);
  const answer = await services.store.readAnswer(kept.id);
  const curve = await services.store.readCurve(kept.id);
  const result = answer?.sized.result ?? null;
  const problems = refusal.problems.map((problem) => inStudy(kept, problem));
  const form: FormContext = {
    study,
    fileNames: [...kept.files.keys()],
    typed: refusal.typed,
    problems,
  };
  const missing = outcome.ok ? [] : outcome.problems.map((problem) => inStudy(kept, problem));
  return {
    title: study.title,
    studyId: kept.id,
    revision: kept.revision,
    sections: sections.map(([id, title]) => ({ id, title })),
    study: {
      client: study.client ?? "",
      author: study.author ?? "",
      note: study.note ?? "",
      site: study.site.name,
    },
    problems: problems.map(asLink),
    missing: missing.map(asLink),
    findings: outcome.ok ? outcome.findings.map(tell) : [],
    answer: result === null ? null : answerView(study, result),
    stale: answer !== null && answer.fingerprint !== kept.fingerprint,
    curveStale: curve !== null && curve.fingerprint !== kept.curveFingerprint,
    hasCurve: curve !== null,
    curveRemarks: curve === null ? [] : curveRemarks(curve.curve, jobs.isRunning(kept.id)),
    job: jobs.of(kept.id),
    running: jobs.isRunning(kept.id),
    parts: {
      head: partView(form, "head", "", "this study"),
      site: partView(form, "site", "site", "Site and clock"),
      weather: partView(form, "weather", "weather", "Weather file"),
      money: partView(form, "money", "money", "Money"),
      electricity: partView(form, "electricity", "electricity", "Electricity"),
      limits: partView(form, "limits", "limits", "Limits"),
      chosenPoint: partView(form, "chosenPoint", "chosenPoint", "A point to compare with"),
    },
    items: {
      networks: itemViews(form, "networks", kept.id),
      calendars: itemViews(form, "calendars", kept.id),
      loads: itemViews(form, "loads", kept.id),
      collectors: itemViews(form, "collectors", kept.id),
      stores: itemViews(form, "stores", kept.id),
      stepDowns: itemViews(form, "stepDowns", kept.id),
      chillers: itemViews(form, "chillers", kept.id),
      backups: itemViews(form, "backups", kept.id),
    },
    testReports: Object.fromEntries(
      study.collectors.map((collector) => [collector.id, testReportTable(study, collector)]),
    ),
    calendarKinds,
    billViews: billViews(outcome.ok ? outcome.value : null),
    records: collectorRecords.map(({ id, body, description }) => ({ id, name: body.name, description })),
    weatherFile: study.weather.file,
    streams: streamsSection(study, form, outcome.ok ? outcome.value.loads : null),
    futures: await futuresSection(kept, context, form),
    charts: context.charts.of(kept, answer, curve, () =>
      documentCharts(study, outcome.ok ? outcome.value : null, answer?.sized ?? null, curve?.curve ?? null),
    ),
    tables:
      result === null
        ? null
        : {
            loads: loadsTable(study, result),
            cold: coldTables(study, result),
            match: matchTable(study, result),
            loadMatch: loadMatchTable(study, result),
            collectorYears: collectorYearsTable(study, result),
            sizes: sizesTable(study, result),
            networks: networksTable(study, result),
            costs: costsTable(study, result),
            money: moneyTable(study, result),
            parts: partsTable(study, result),
            limits: limitsTable(study, result),
            proof: proofTable(study, result),
          },
    prices: result === null ? null : pricesView(study, result),
    replay: result === null ? null : replayView(study, result),
    proofSentences: result === null ? [] : proofSentences(study, result),
    canAskSecond: result !== null && result.proof.solver !== "highs",
    matchRemarks: result === null ? [] : matchRemarks(result),
    improvements: result === null ? { sentences: [], tables: [] } : improvementsView(study, result),
    standstill: result === null ? [] : standstillSentences(study, collectorYears(study, result)),
    frostLines: result === null ? [] : frostLines(study, collectorYears(study, result)),
    moneyRemarks: result?.money.remarks ?? [],
    moneyDetail: result === null ? null : moneyDetail(study, result),
    resultFindings: result?.findings ?? [],
    curveTable: curve === null ? null : curveTable(study, curve.curve),
    cautions: cautionsFor(study),
    deference: deferenceSentence,
    notIncluded: notIncluded(study),
    files: [...kept.files.keys()],
    unconfirmed: (study.origins ?? []).filter(({ status }) => status === "assumption").length,
  };
}

/** Money beyond the cash flow: by part, by course of prices, after tax and loan, sold as heat. Of the promised run. */
function moneyDetail(study: Study, result: Result) {
  const promised = promisedResult(result);
  return {
    isReplayed: promised !== result,
    truePrices: truePriceSentences(study, result),
    heatCost: heatCostTable(study, promised),
    paths: pricePathsTable(study, promised),
    finance: financeView(study, promised.money),
    contract: contractView(study, promised.money),
  };
}

/** What the reader of a curve must know about its bound. */
function curveRemarks({ bound, boundAt_m2, remarks }: AreaCurve, running: boolean): string[] {
  if (bound.length === boundAt_m2.length) return [...remarks];
  const found = `${bound.length} of ${boundAt_m2.length} points of the bound are found`;
  return [running ? `${found} so far; read the page again for more.` : `${found}; drawing was stopped.`];
}

/** A fault whose place is given with ids, with the place by position as the form has it. */
function inStudy({ study }: KeptStudy, problem: Problem): Problem {
  const { path } = problem.place;
  if (path === undefined) return problem;
  return { ...problem, place: { ...problem.place, path: withIndexes(study, path.replace(/^\//, "")) } };
}

/** A fault as a link to the input that it is about. */
function asLink(problem: Problem) {
  const { path, file, row, column } = problem.place;
  const sentence = tell({
    ...problem,
    place: {
      ...(file === undefined ? {} : { file }),
      ...(row === undefined ? {} : { row }),
      ...(column === undefined ? {} : { column }),
    },
  });
  return { sentence, anchor: path === undefined ? null : anchorOf(path) };
}
