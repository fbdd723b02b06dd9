import type { FastifyInstance, FastifyReply } from "fastify";
import {
  type MadeWeather,
  readSeed,
  readTurbidity,
  weatherFromMeans,
  weatherOfClearSky,
} from "../../app/make-weather.ts";
import type { Outcome, Problem } from "../../core/problem.ts";
import {
  aboveTheAir_kWh_m2,
  type MeansQuantity,
  meansOf,
  meansQuantities,
  monthNames,
} from "../../formats/weather/means-cells.ts";
import type { KeptStudy } from "../../store/study-store.ts";
import type { RouteContext } from "../build-app.ts";
import type { FormEntries } from "../forms/apply-fields.ts";
import { formOf, lastValue } from "../plugins/form-body.ts";
import { findStudy } from "./find-study.ts";

/** The form that makes a weather year; what is made goes the way of an upload, looked at before it is kept. */
export function weatherMeansRoutes(app: FastifyInstance, context: RouteContext): void {
  const address = "/studies/:studyId/weather/means";

  app.get(address, async (request, reply) => page(reply, await findStudy(request, context), new Map(), []));

  app.post(address, async (request, reply) => {
    const kept = await findStudy(request, context);
    const form = formOf(request.body);
    const isClear = lastValue(form, "do") === "clear-sky";
    const fileName = isClear ? "cloudless-year.csv" : `year-of-means-${lastValue(form, "seed").trim()}.csv`;
    const made = isClear ? clearSky(kept, form, fileName, context) : fromMeans(kept, form, fileName);
    if (!made.ok) return page(reply.code(422), kept, form, made.problems);
    const token = await context.services.store.pending(kept.id).keep({
      ...{ purpose: "weather", target: "", fileName },
      bytes: new TextEncoder().encode(made.value.text),
    });
    return reply.redirect(`/studies/${kept.id}/weather/${token}`, 303);
  });
}

/** The columns of the form; light is one of the first two. */
const columns = ["ambient_C", "dailySwing_K", "humidity_pct", "wind_m_s"] as const;
const lights = ["ghi_kWh_m2_day", "clearness"] as const;
const nameOf = (column: string, month: number) => `${column}/${month}`;

function lightOf(form: FormEntries): (typeof lights)[number] {
  return lastValue(form, "light") === "clearness" ? "clearness" : "ghi_kWh_m2_day";
}

function fromMeans({ study }: KeptStudy, form: FormEntries, fileName: string): Outcome<MadeWeather> {
  const light = lightOf(form);
  const typed = (column: string) => monthNames.map((_, month) => lastValue(form, nameOf(column, month)));
  const cells: Partial<Record<MeansQuantity, readonly string[]>> = {
    [light]: typed("light"),
    ...Object.fromEntries(columns.map((column) => [column, typed(column)])),
  };
  const placeOf = (quantity: MeansQuantity, month: number | null) => ({
    path: nameOf(quantity === light ? "light" : quantity, month ?? 0),
  });
  const means = meansOf({ cells, placeOf }, study.site);
  const seed = readSeed(lastValue(form, "seed"));
  if (means.ok && seed.ok) return weatherFromMeans(study.site, means.value, seed.value, fileName);
  const problems = [means, seed].flatMap((outcome) => (outcome.ok ? [] : outcome.problems));
  return { ok: false, problems };
}

function clearSky(
  kept: KeptStudy,
  form: FormEntries,
  fileName: string,
  { services }: RouteContext,
): Outcome<MadeWeather> {
  const turbidity = readTurbidity(lastValue(form, "turbidity"));
  const { file } = kept.study.weather;
  const bytes = kept.files.get(file);
  if (bytes === undefined) {
    const message =
      "Air and wind come from the study's weather file, and there is none yet; upload one first.";
    return { ok: false, problems: [{ code: "STUDY_FILE_MISSING", message, place: {} }] };
  }
  const air = services.readWeather(bytes, file, kept.study);
  if (air.ok && turbidity.ok) return weatherOfClearSky(kept.study.site, air.value, turbidity.value, fileName);
  return { ok: false, problems: [air, turbidity].flatMap((one) => (one.ok ? [] : one.problems)) };
}

async function page(reply: FastifyReply, kept: KeptStudy, form: FormEntries, problems: readonly Problem[]) {
  const { site, weather } = kept.study;
  const faultAt = (path: string) => problems.find(({ place }) => place.path === path)?.message ?? null;
  const field = (name: string, label: string, starting: string) => ({
    name,
    label,
    anchor: `at-${name.replaceAll("/", "-")}`,
    value: form.has(name) ? lastValue(form, name) : starting,
    fault: faultAt(name),
  });
  const above = aboveTheAir_kWh_m2(site);
  const light = lightOf(form);
  return reply.viewAsync("pages/weather-means.ejs", {
    title: "Weather from monthly means",
    studyId: kept.id,
    siteName: site.name,
    latitude: site.latitude_deg,
    problems: problems.map(({ message, place }) => ({
      sentence: message,
      anchor: place.path === undefined ? null : `at-${place.path.replaceAll("/", "-")}`,
    })),
    lights: lights.map((value) => ({ value, words: titleOf(value), selected: value === light })),
    titles: columns.map(titleOf),
    rows: monthNames.map((month, index) => ({
      month,
      above: above[index]!.toFixed(2),
      fields: [
        field(nameOf("light", index), `${month}, light`, ""),
        ...columns.map((column) =>
          field(nameOf(column, index), `${month}, ${meansQuantities[column].words}`, ""),
        ),
      ],
    })),
    seed: field("seed", "Seed", "1"),
    turbidity: field("turbidity", "Linke turbidity", "2"),
    hasWeather: kept.files.has(weather.file),
  });
}

function titleOf(quantity: MeansQuantity): string {
  const { words, unit } = meansQuantities[quantity];
  return unit === "" ? words : `${words}, ${unit}`;
}
