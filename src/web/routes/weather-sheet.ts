import type { FastifyInstance } from "fastify";
import {
  type CarpetData,
  carpet,
  duration,
  forBothWidths,
  monthlyWeather,
  monthlyWeatherSums,
  plainText,
} from "../../charts/index.ts";
import { tell } from "../../core/problem.ts";
import type { Study } from "../../core/study/schema/study.ts";
import { weatherIn } from "../../core/study/weather-in.ts";
import { sunYear } from "../../core/sun/sun-year.ts";
import type { WeatherYear } from "../../core/weather.ts";
import { weatherSheet } from "../../present/weather-sheet.ts";
import { type NamedWeather, weatherYearsTable } from "../../present/weather-years.ts";
import type { KeptStudy } from "../../store/study-store.ts";
import type { RouteContext } from "../build-app.ts";
import { type ChartView, chartView } from "../document/document-charts.ts";
import { HttpFault } from "../plugins/errors.ts";
import { findStudy } from "./find-study.ts";

/** The data sheet of a study's weather: tables, carpets and duration curves, to be read and printed. */
export function weatherSheetRoutes(app: FastifyInstance, context: RouteContext): void {
  app.get("/studies/:studyId/weather/sheet", async (request, reply) => {
    const kept = await findStudy(request, context);
    const outcome = context.resolved.of(kept);
    if (!outcome.ok)
      throw new HttpFault(
        409,
        `The weather cannot be shown before the study can be read: ${outcome.problems[0]?.message ?? "see its page"}`,
      );
    const { study, weather, findings } = outcome.value;
    return reply.viewAsync("pages/weather-sheet.ejs", {
      title: `Weather of ${study.site.name}`,
      studyId: kept.id,
      file: study.weather.file,
      site: study.site.name,
      sheet: weatherSheet(study, weather, sunYear(study.site)),
      findings: findings.filter(({ code }) => code.startsWith("WEATHER_")).map(({ message }) => message),
      ...yearsOf(kept, weather, context),
      charts: chartsOf(study, weather),
    });
  });
}

/** The possible years' own weather beside the study's; nothing where none has weather of its own. */
function yearsOf({ study, files }: KeptStudy, own: WeatherYear, { services }: RouteContext) {
  const unread: string[] = [];
  const others: NamedWeather[] = [];
  for (const future of study.futures ?? []) {
    if (future.weatherFile === undefined && future.weatherYear === undefined) continue;
    const said = weatherIn(study, future);
    const bytes = files.get(said.file);
    const outcome =
      bytes === undefined
        ? null
        : services.readWeather(bytes, said.file, { site: study.site, weather: said });
    if (outcome?.ok) others.push({ name: future.name, weather: outcome.value });
    else
      unread.push(
        `${future.name}: ${outcome === null ? `the file ${said.file} is not there` : tell(outcome.problems[0]!)}`,
      );
  }
  const all = [{ name: "The year that the study is sized for", weather: own }, ...others];
  return {
    years: others.length === 0 ? null : weatherYearsTable(study, sunYear(study.site), all),
    unread,
  };
}

function chartsOf(study: Study, weather: WeatherYear): ChartView[] {
  const text = plainText(study.money.locale ?? "en", study.money.currency);
  const carpetOf = (prefix: string, title: string, data: CarpetData) =>
    chartView(forBothWidths({ prefix, text, title }, (frame) => carpet(data, frame)));
  return [
    chartView(
      forBothWidths({ prefix: "sheet-months", text }, (frame) =>
        monthlyWeather(monthlyWeatherSums(weather), frame),
      ),
    ),
    carpetOf("sheet-dni", "At which hours does the sun shine directly?", {
      name: "Direct normal irradiance",
      values: weather.dni_W_m2,
      unit: "W/m²",
      scale: "sun",
    }),
    carpetOf("sheet-ghi", "How bright are sky and sun together?", {
      name: "Global irradiance on flat ground",
      values: weather.ghi_W_m2,
      unit: "W/m²",
      scale: "sun",
    }),
    carpetOf("sheet-air", "When is the air how warm?", {
      name: "Air temperature",
      values: weather.ambient_C,
      unit: "°C",
      scale: "content",
      lowest: Math.min(...weather.ambient_C.filter(Number.isFinite)),
    }),
    carpetOf("sheet-wind", "When does the wind blow?", {
      name: "Wind at 10 m",
      values: weather.wind_m_s,
      unit: "m/s",
      scale: "load",
    }),
    chartView(
      forBothWidths({ prefix: "sheet-dni-hours", text }, (frame) =>
        duration({ name: "Direct normal irradiance", unit: "W/m²", values: weather.dni_W_m2 }, frame),
      ),
    ),
    chartView(
      forBothWidths(
        { prefix: "sheet-wind-hours", text, title: "For how many hours does the wind blow how hard?" },
        (frame) =>
          duration(
            {
              name: "Wind",
              unit: "m/s",
              values: weather.wind_m_s,
              limits: study.collectors.map(({ name, storm }) => ({ name, at: storm.stowWind_m_s })),
            },
            frame,
          ),
      ),
    ),
    chartView(
      forBothWidths(
        { prefix: "sheet-air-hours", text, title: "For how many hours is the air how warm?" },
        (frame) => duration({ name: "Air temperature", unit: "°C", values: weather.ambient_C }, frame),
      ),
    ),
  ];
}
