import type { FastifyInstance, FastifyReply } from "fastify";
import {
  carpet,
  demandProfile,
  faultStrip,
  forBothWidths,
  loadDuration,
  plainText,
} from "../../charts/index.ts";
import { studyCalendar } from "../../core/calendar.ts";
import { loadProfile } from "../../core/demand/loads/load-profile.ts";
import { faultPlaces } from "../../core/demand/quality/fault-places.ts";
import type { DemandReading, Load, Study } from "../../core/study/schema/study.ts";
import type { DemandAccount } from "../../formats/demand/account.ts";
import { threeDigits } from "../../present/numbers.ts";
import type { PendingUpload } from "../../store/pending-uploads.ts";
import type { KeptStudy } from "../../store/study-store.ts";
import type { RouteContext } from "../build-app.ts";
import { type ChartView, chartView } from "../document/document-charts.ts";
import { extensionView } from "../document/extension-view.ts";
import { understoodTable } from "../document/understood-table.ts";
import { anchorOf } from "../forms/form-field.ts";
import { HttpFault } from "../plugins/errors.ts";
import { formOf, lastValue } from "../plugins/form-body.ts";
import { readUpload } from "../plugins/uploads.ts";
import { feedColumns, type OtherColumn, otherColumns } from "./demand-columns.ts";
import { fuelRefusal, readingOf } from "./demand-reading.ts";
import { faultsOf } from "./edit.ts";
import { findStudy } from "./find-study.ts";

/** The upload of a load's profile: what was understood is shown first and stored only on the user's word. */
export function demandRoutes(app: FastifyInstance, context: RouteContext): void {
  const { store } = context.services;
  const base = "/studies/:studyId/demand/:loadId";

  app.get(base, async (request, reply) => {
    const { kept, load } = await findLoad(request.params, context);
    return page(reply, kept, load, { account: null, upload: null, refusal: null });
  });

  app.post(base, async (request, reply) => {
    const { kept, load } = await findLoad(request.params, context);
    const { files } = await readUpload(request);
    const file = files[0];
    if (file === undefined || file.bytes.length === 0) {
      const refusal = file === undefined ? "Choose a file before you press Upload." : "The file is empty.";
      return page(reply.code(422), kept, load, { account: null, upload: null, refusal });
    }
    const token = await store.pending(kept.id).keep({
      purpose: "demand",
      target: load.id,
      fileName: file.name === "" ? "demand.csv" : file.name,
      bytes: file.bytes,
    });
    return reply.redirect(`/studies/${kept.id}/demand/${load.id}/${token}`, 303);
  });

  app.get(`${base}/:token`, async (request, reply) => {
    const { kept, load } = await findLoad(request.params, context);
    const upload = await findUpload(request.params, kept, load, context);
    const query = new Map(
      Object.entries(request.query as Record<string, string>).map(([k, v]) => [k, [String(v)]]),
    );
    const account = read(kept.study, load, upload, readingOf(query), context);
    return page(reply.code(account.hourly === null ? 422 : 200), kept, load, {
      account,
      upload,
      refusal: null,
    });
  });

  app.post(`${base}/:token`, async (request, reply) => {
    const { kept, load } = await findLoad(request.params, context);
    const upload = await findUpload(request.params, kept, load, context);
    const form = formOf(request.body);
    if (lastValue(form, "do") === "drop") {
      await store.pending(kept.id).drop(upload.token);
      return reply.redirect(`/studies/${kept.id}/demand/${load.id}`, 303);
    }
    const account = read(kept.study, load, upload, readingOf(form), context);
    const fuelFault = fuelRefusal(form);
    if (lastValue(form, "do") !== "confirm" || account.hourly === null || fuelFault !== null) {
      const refused = account.hourly === null || fuelFault !== null;
      return page(reply.code(refused ? 422 : 200), kept, load, {
        account,
        upload,
        refusal: fuelFault,
        columns: otherColumns(account, form),
      });
    }
    const property = loadProfile(load)!.property;
    const reading = account.resolvedReading;
    const changed = { ...load, [property]: { from: "file", file: upload.fileName, reading } } as Load;
    const at = kept.study.loads.indexOf(load);
    const columns = otherColumns(account, form);
    const fed = feedColumns(kept.study.loads.with(at, changed), columns, reading, {
      fileName: upload.fileName,
      first: load.id,
      network: "network" in load ? load.network : kept.study.networks[0]!.id,
      read: (other, how) => read(kept.study, other, upload, how, context),
    });
    if (fed.faults.length > 0) {
      const refusal = fed.faults.join(" ");
      return page(reply.code(422), kept, load, { account, upload, refusal, columns });
    }
    const study: Study = { ...kept.study, loads: fed.loads };
    const faults = faultsOf(study, kept.study, context);
    if (faults.length > 0) {
      const refusal = faults.map(({ message }) => message).join(" ");
      return page(reply.code(422), kept, load, { account, upload, refusal, columns });
    }
    const files = new Map([[upload.fileName, upload.bytes]]);
    const saved = await store.save(kept.id, kept.revision, study, files);
    if (!saved.saved)
      throw new HttpFault(409, "The study was changed at the same moment; confirm the upload once more.");
    await store.pending(kept.id).drop(upload.token);
    return reply.redirect(`/studies/${kept.id}#${anchorOf(`loads/${at}`)}`, 303);
  });
}

async function findLoad(params: unknown, context: RouteContext) {
  const kept = await findStudy({ params } as Parameters<typeof findStudy>[0], context);
  const { loadId } = params as { loadId: string };
  const load = kept.study.loads.find(({ id }) => id === loadId);
  if (load === undefined || loadProfile(load) === null) {
    throw new HttpFault(404, "This study has no load of that name that takes an hourly profile.");
  }
  return { kept, load };
}

async function findUpload(
  params: unknown,
  kept: KeptStudy,
  load: Load,
  { services }: RouteContext,
): Promise<PendingUpload> {
  const upload = await services.store.pending(kept.id).read((params as { token: string }).token);
  if (upload === null || upload.purpose !== "demand" || upload.target !== load.id) {
    throw new HttpFault(404, "This upload is not here any more; upload the file again.");
  }
  return upload;
}

function read(
  study: Study,
  load: Load,
  upload: PendingUpload,
  reading: DemandReading,
  { services }: RouteContext,
): DemandAccount {
  const { fileName, bytes } = upload;
  return services.readDemand({
    bytes,
    fileName,
    reading,
    quantity: loadProfile(load)!.quantity,
    nameplate_kW: "nameplate_kW" in load ? load.nameplate_kW : undefined,
    billed_kWh:
      "billed_MWh_per_year" in load && load.billed_MWh_per_year !== undefined
        ? 1000 * load.billed_MWh_per_year
        : undefined,
    clock: study.site,
    calendars: study.calendars,
  });
}

interface Shown {
  readonly account: DemandAccount | null;
  readonly upload: PendingUpload | null;
  readonly refusal: string | null;
  readonly columns?: readonly OtherColumn[];
}

async function page(
  reply: FastifyReply,
  kept: KeptStudy,
  load: Load,
  { account, upload, refusal, columns }: Shown,
) {
  const faults = account?.problems.map(({ message, place }) =>
    [
      place.row === undefined ? "" : `Row ${place.row}`,
      place.column === undefined ? "" : `column ${place.column}`,
    ]
      .filter((part) => part !== "")
      .join(", ")
      .concat(place.row === undefined && place.column === undefined ? message : `: ${message}`),
  );
  return reply.viewAsync("pages/demand.ejs", {
    title: `Profile of ${load.name}`,
    studyId: kept.id,
    load: { id: load.id, name: load.name },
    base: `/studies/${kept.id}/demand/${load.id}`,
    token: upload?.token ?? null,
    fileName: upload?.fileName ?? "",
    refusal,
    faults: faults ?? [],
    accepted: account !== null && account.hourly !== null,
    understood: account === null ? null : understoodTable(account),
    firstRows: account?.understood.firstRows.slice(0, 8) ?? [],
    columns: account?.understood.columns.map(({ name }) => name) ?? [],
    otherColumns: columns ?? (account === null ? [] : otherColumns(account, new Map())),
    targets: kept.study.loads
      .filter((other) => other.id !== load.id && loadProfile(other) !== null)
      .map(({ id, name }) => ({ id, name })),
    mayMeterFuel: loadProfile(load)!.quantity === "power" && load.kind !== "cooling",
    questions: account?.questions ?? [],
    reading: account?.resolvedReading ?? {},
    quality: account?.quality.findings.map(({ sentence }) => sentence) ?? [],
    filled:
      account?.quality.filled.map(({ rule, hours }) => `${threeDigits(hours.length)} hours: ${rule}`) ?? [],
    faultCharts: faultCharts(kept.study, account, account?.hourly ?? account?.known ?? null),
    faultsLeftOut: account === null ? 0 : faultPlaces(account.quality).leftOut,
    calendars: kept.study.calendars.map(({ id, name }) => ({ id, name })),
    extension: account === null ? null : extensionView(kept.study, account),
    charts: account?.hourly ? uploadCharts(kept.study, load, account, account.hourly) : [],
  });
}

function faultCharts(study: Study, account: DemandAccount | null, hourly: Float64Array | null): ChartView[] {
  if (account === null || hourly === null) return [];
  const { understood, quality } = account;
  const text = plainText(study.money.locale ?? "en", study.money.currency);
  const unit = understood.hourlyUnit ?? "";
  return faultPlaces(quality).places.map((place, index) =>
    chartView(
      forBothWidths({ prefix: `fault-${index}`, text }, (frame) =>
        faultStrip({ ...place, values: hourly, unit }, frame),
      ),
    ),
  );
}

function uploadCharts(study: Study, load: Load, account: DemandAccount, hourly: Float64Array): ChartView[] {
  const calendar = studyCalendar(study.site);
  const text = plainText(study.money.locale ?? "en", study.money.currency);
  const unit = account.understood.hourlyUnit ?? "";
  const show = (prefix: string, draw: Parameters<typeof forBothWidths>[1]) =>
    chartView(forBothWidths({ prefix, text }, draw));
  const scale = "load" as const;
  const mean = { values: hourly, weekday: calendar.civilWeekday, hour: calendar.civilHour, unit };
  return [
    show("up-carpet", (frame) => carpet({ name: load.name, values: hourly, unit, scale }, frame)),
    show("up-day", (frame) => demandProfile(mean, frame)),
    ...(unit === "kW" ? [show("up-duration", (frame) => loadDuration({ demand_kW: hourly }, frame))] : []),
  ];
}
