import type { FastifyInstance, FastifyReply } from "fastify";
import { carpet, forBothWidths, monthlyWeather, monthlyWeatherSums, plainText } from "../../charts/index.ts";
import { type Outcome, tell } from "../../core/problem.ts";
import { sum } from "../../core/series.ts";
import type { Site, Study } from "../../core/study/schema/study.ts";
import { clearestTurbidity, clearSkyLight } from "../../core/sun/clear-sky.ts";
import { sunYear } from "../../core/sun/sun-year.ts";
import type { DiffuseModel, WeatherYear } from "../../core/weather.ts";
import { threeDigits } from "../../present/numbers.ts";
import { figuresTable } from "../../present/table-view.ts";
import type { KeptStudy } from "../../store/study-store.ts";
import type { RouteContext } from "../build-app.ts";
import { chartView } from "../document/document-charts.ts";
import { wordFor } from "../forms/words.ts";
import { HttpFault } from "../plugins/errors.ts";
import { formOf, lastValue } from "../plugins/form-body.ts";
import { readUpload } from "../plugins/uploads.ts";
import { findStudy } from "./find-study.ts";

/** The upload of a weather year: findings and charts first, stored on the user's word. */
export function weatherRoutes(app: FastifyInstance, context: RouteContext): void {
  const { services } = context;
  const base = "/studies/:studyId/weather";

  app.get(base, async (request, reply) => {
    const kept = await findStudy(request, context);
    return page(reply, kept, { outcome: null, token: null, fileName: "", refusal: null });
  });

  app.post(base, async (request, reply) => {
    const kept = await findStudy(request, context);
    const file = (await readUpload(request)).files[0];
    if (file === undefined || file.bytes.length === 0) {
      const refusal = file === undefined ? "Choose a file before you press Upload." : "The file is empty.";
      return page(reply.code(422), kept, { outcome: null, token: null, fileName: "", refusal });
    }
    const token = await services.store.pending(kept.id).keep({
      purpose: "weather",
      target: "",
      fileName: file.name === "" ? "weather.csv" : file.name,
      bytes: file.bytes,
    });
    return reply.redirect(`/studies/${kept.id}/weather/${token}`, 303);
  });

  app.get(`${base}/:token`, async (request, reply) => {
    const kept = await findStudy(request, context);
    const upload = await findUpload(request.params, kept, context);
    const query = request.query as { accepted_km?: string; diffuseBy?: string; year?: string };
    const { diffuseBy = kept.study.weather.diffuseBy ?? "" } = query;
    const said = readSaid({ accepted_km: query.accepted_km ?? "", diffuseBy, year: query.year ?? "" });
    const { outcome, ...read } = readUploaded(kept, upload, said, services);
    const { refusal } = said;
    return page(reply.code(outcome.ok && refusal === null ? 200 : 422), kept, {
      ...upload,
      outcome,
      ...read.said,
    });
  });

  app.post(`${base}/:token`, async (request, reply) => {
    const kept = await findStudy(request, context);
    const upload = await findUpload(request.params, kept, context);
    const wanted = lastValue(formOf(request.body), "do");
    if (wanted === "keep") {
      const name = freeName(kept.files, upload.fileName, upload.bytes);
      const files = new Map([[name, upload.bytes]]);
      const saved = await services.store.save(kept.id, kept.revision, kept.study, files);
      if (!saved.saved) throw new HttpFault(409, meanwhile);
      await services.store.pending(kept.id).drop(upload.token);
      return reply.redirect(`/studies/${kept.id}#futures`, 303);
    }
    if (wanted === "confirm") {
      const form = formOf(request.body);
      const said = readSaid({
        accepted_km: lastValue(form, "accepted_km"),
        diffuseBy: lastValue(form, "diffuseBy"),
        year: lastValue(form, "year"),
      });
      const { outcome, study } = readUploaded(kept, upload, said, services);
      if (!outcome.ok || said.refusal !== null)
        return page(reply.code(422), kept, { ...upload, outcome, ...said });
      const files = new Map([[upload.fileName, upload.bytes]]);
      const saved = await services.store.save(kept.id, kept.revision, study, files);
      if (!saved.saved) throw new HttpFault(409, meanwhile);
    }
    await services.store.pending(kept.id).drop(upload.token);
    return reply.redirect(`/studies/${kept.id}#sun`, 303);
  });
}

interface Said {
  /** Distance of the station that the user accepts; null where none was said. */
  readonly accepted_km: number | null;
  /** How global light is split; null where nothing was said. */
  readonly diffuseBy: DiffuseModel | null;
  /** Year to take of a file that holds several; null where none was said. */
  readonly year: number | null;
  readonly refusal: string | null;
}

const mostAccepted_km = 20_040;

function readSaid(typed: {
  readonly accepted_km: string;
  readonly diffuseBy: string;
  readonly year: string;
}): Said {
  const chosen = typed.diffuseBy;
  const diffuseBy = chosen === "erbs" || chosen === "persistence" ? chosen : null;
  const distance = readAccepted(typed.accepted_km);
  const year = readYear(typed.year);
  return {
    accepted_km: distance.accepted_km,
    diffuseBy,
    year: year.year,
    refusal: distance.refusal ?? year.refusal,
  };
}

function readYear(typed: string): Pick<Said, "year" | "refusal"> {
  const text = typed.trim();
  if (text === "") return { year: null, refusal: null };
  const year = Number(text);
  if (Number.isInteger(year) && year >= 1900 && year <= 2100) return { year, refusal: null };
  return { year: null, refusal: `The year to take is "${text}"; a year from 1900 to 2100 is allowed.` };
}

function readAccepted(typed: string): Pick<Said, "accepted_km" | "refusal"> {
  const text = typed.trim();
  if (text === "") return { accepted_km: null, refusal: null };
  const accepted_km = Number(text.replace(",", "."));
  if (accepted_km >= 0 && accepted_km <= mostAccepted_km) return { accepted_km, refusal: null };
  return {
    accepted_km: null,
    refusal: `The distance to accept is "${text}"; a number from 0 to ${mostAccepted_km} km is allowed.`,
  };
}

/** Reads an upload for the study; a way to split global light is dropped for a file that holds its beam. */
function readUploaded(
  kept: KeptStudy,
  upload: { readonly fileName: string; readonly bytes: Uint8Array },
  said: Said,
  services: RouteContext["services"],
): { outcome: Outcome<WeatherYear>; study: Study; said: Said } {
  const study = asUploaded(kept, upload, said);
  const outcome = services.readWeather(upload.bytes, upload.fileName, study);
  const isIdle = outcome.ok && outcome.findings.some(({ code }) => code === "WEATHER_SPLIT_NOT_NEEDED");
  if (isIdle) return readUploaded(kept, upload, { ...said, diffuseBy: null }, services);
  return { outcome, study, said };
}

/** The study with the uploaded file as its weather. What was accepted for another file does not hold for it. */
function asUploaded(
  { study }: KeptStudy,
  { fileName }: { fileName: string },
  { accepted_km, diffuseBy, year }: Said,
): Study {
  return {
    ...study,
    weather: {
      file: fileName,
      ...(accepted_km === null ? {} : { distanceAccepted_km: accepted_km }),
      ...(diffuseBy === null ? {} : { diffuseBy }),
      ...(year === null ? {} : { year }),
    },
  };
}

const meanwhile = "The study was changed at the same moment; confirm the upload once more.";

/** The name under which a file can be kept beside others: another one is never replaced by it. */
function freeName(files: ReadonlyMap<string, Uint8Array>, name: string, bytes: Uint8Array): string {
  const isFree = (one: string) => {
    const there = files.get(one);
    return there === undefined || Buffer.compare(there, bytes) === 0;
  };
  if (isFree(name)) return name;
  for (let number = 2; ; number += 1) if (isFree(`${number}-${name}`)) return `${number}-${name}`;
}

async function findUpload(params: unknown, kept: KeptStudy, { services }: RouteContext) {
  const upload = await services.store.pending(kept.id).read((params as { token: string }).token);
  if (upload === null || upload.purpose !== "weather") {
    throw new HttpFault(404, "This upload is not here any more; upload the file again.");
  }
  return upload;
}

interface Shown {
  readonly outcome: Outcome<WeatherYear> | null;
  readonly token: string | null;
  readonly fileName: string;
  readonly refusal: string | null;
  readonly accepted_km?: number | null;
  readonly diffuseBy?: DiffuseModel | null;
  readonly year?: number | null;
}

async function page(
  reply: FastifyReply,
  kept: KeptStudy,
  { outcome, token, fileName, refusal, accepted_km = null, diffuseBy = null, year = null }: Shown,
) {
  const isFar = outcome?.ok === false && outcome.problems.some(({ code }) => code === "WEATHER_STATION_FAR");
  const hasYears = outcome?.ok === false && outcome.problems.some(({ code }) => code === "WEATHER_YEARS");
  const said = { accepted_km, diffuseBy, year };
  const isSplit = outcome?.ok === true && outcome.findings.some(({ code }) => code === "WEATHER_SPLIT");
  return reply.viewAsync("pages/weather.ejs", {
    title: "Weather",
    studyId: kept.id,
    base: `/studies/${kept.id}/weather`,
    token,
    fileName,
    refusal,
    accepted_km,
    asksDistance: isFar,
    asksYear: hasYears,
    year,
    said: Object.entries(said).flatMap(([name, value]) => (value === null ? [] : [{ name, value }])),
    splitChoices: isSplit ? splitChoices(diffuseBy) : [],
    faults: outcome === null || outcome.ok ? [] : outcome.problems.map(tell),
    findings: outcome?.ok ? outcome.findings.map(({ message }) => message) : [],
    accepted: outcome?.ok ?? false,
    figures: outcome?.ok ? figuresOf(outcome.value, kept.study.site) : null,
    charts: outcome?.ok ? chartsOf(kept.study, outcome.value) : [],
  });
}

function splitChoices(chosen: DiffuseModel | null) {
  return (["erbs", "persistence"] as const).map((value) => ({
    value,
    words: wordFor(value),
    selected: value === (chosen ?? "erbs"),
  }));
}

function figuresOf(weather: WeatherYear, site: Site) {
  const clear = clearSkyLight(sunYear(site), weather.pressure_Pa, clearestTurbidity);
  const station = weather.station;
  const mean = (series: Float64Array) => sum(series) / series.length;
  return figuresTable(
    "What the file says",
    ["", "Found"],
    [
      ["Read as", weather.description],
      ...(station === null
        ? []
        : [
            ["Station", station.name],
            ["Latitude, longitude", `${station.latitude_deg}°, ${station.longitude_deg}°`],
            ["Elevation", `${threeDigits(station.elevation_m)} m`],
          ]),
      ["Direct normal irradiation", `${threeDigits(sum(weather.dni_W_m2) / 1000)} kWh/m² a year`],
      [
        "The same without a cloud, in very clear air",
        `${threeDigits(sum(clear.dni_W_m2) / 1000)} kWh/m² a year`,
      ],
      ["Global horizontal irradiation", `${threeDigits(sum(weather.ghi_W_m2) / 1000)} kWh/m² a year`],
      ["Mean temperature", `${threeDigits(mean(weather.ambient_C))} °C`],
      ["Mean wind at 10 m", `${threeDigits(mean(weather.wind_m_s))} m/s`],
    ],
    ["Found"],
  );
}

function chartsOf(study: Study, weather: WeatherYear) {
  const text = plainText(study.money.locale ?? "en", study.money.currency);
  const show = (prefix: string, draw: Parameters<typeof forBothWidths>[1]) =>
    chartView(forBothWidths({ prefix, text }, draw));
  const sun = {
    name: "Direct normal irradiance",
    values: weather.dni_W_m2,
    unit: "W/m²",
    scale: "sun" as const,
  };
  return [
    show("up-months", (frame) => monthlyWeather(monthlyWeatherSums(weather), frame)),
    show("up-sun", (frame) => carpet(sun, frame)),
  ];
}
