import { describe, expect, it } from "vitest";
import { resolveFutures } from "../../src/app/resolve-futures.ts";
import { resolveStudy } from "../../src/app/resolve-study.ts";
import type { Study } from "../../src/core/study/schema/study.ts";
import {
  embeddedStudyId,
  embeddedStudyType,
  embedStudy,
  extractStudy,
} from "../../src/formats/summary-study.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { form, upload, webApp } from "../support/web-app.ts";

async function kept() {
  const parts = await webApp();
  const id = await parts.store.create(smallBundle());
  const read = async () => (await parts.store.read(id))!;
  const save = async (fields: Readonly<Record<string, string>>) =>
    parts.app.inject({
      method: "POST",
      url: `/studies/${id}/edit`,
      ...form({ revision: (await read()).revision, at: "at-futures", ...fields }),
    });
  return { ...parts, id, read, save };
}

const row = (index: number, name: string, probability: string) => ({
  [`futures/${index}/id`]: name.toLowerCase(),
  [`futures/${index}/name`]: name,
  [`futures/${index}/probability`]: probability,
  [`futures/${index}/fuelPriceFactor`]: "1.5",
});

describe("possible years on the page of a study", () => {
  it("are added, changed and removed in one table, and leave the study's own answer as it is", async () => {
    const { app, id, read, save } = await kept();
    const before = await read();
    expect((await save(row(0, "Dear", "0.5"))).statusCode).toBe(303);
    expect((await save({ ...row(0, "Dear", "0.5"), ...row(1, "Dearer", "0.5") })).statusCode).toBe(303);
    const both = await read();
    expect(both.study.futures).toEqual([
      { id: "dear", name: "Dear", probability: 0.5, fuelPriceFactor: 1.5 },
      { id: "dearer", name: "Dearer", probability: 0.5, fuelPriceFactor: 1.5 },
    ]);
    expect(both.fingerprint).toBe(before.fingerprint);
    expect(both.robustFingerprint).not.toBe(before.robustFingerprint);
    expect((await app.inject({ url: `/studies/${id}` })).body).toContain('value="robust"');

    const refused = await save({ ...row(0, "Dear", "1.5") });
    expect(refused.statusCode).toBe(422);
    expect((await read()).revision).toBe(both.revision);

    await save({ "remove:futures/0": "1" });
    const one = (await read()).study.futures!;
    expect(one.map((future) => future.id)).toEqual(["dearer"]);
    const page = (await app.inject({ url: `/studies/${id}` })).body;
    expect(page).toContain("The probabilities of the possible years sum to 0.5; they must sum to 1.");
    expect(page).not.toContain('value="robust"');
    await app.close();
  });

  it("take a weather file that is kept for them beside the study's own, which it never replaces", async () => {
    const { app, id, read, save } = await kept();
    const before = await read();
    const own = Buffer.from(before.files.get("weather.csv")!);
    const other = Buffer.from(own.toString("utf8").replaceAll(",25.", ",26."));
    expect(other.equals(own)).toBe(false);
    const sent = await app.inject({
      method: "POST",
      url: `/studies/${id}/weather`,
      ...upload([{ field: "file", name: "weather.csv", text: other }]),
    });
    const place = String(sent.headers.location);
    expect((await app.inject({ url: place })).body).toContain("Keep it for a possible year");
    const done = await app.inject({ method: "POST", url: place, ...form({ do: "keep" }) });
    expect(done.headers.location).toMatch(/#futures$/);
    const after = await read();
    expect([...after.files.keys()]).toEqual(["weather.csv", "2-weather.csv"]);
    expect(Buffer.from(after.files.get("weather.csv")!).equals(own)).toBe(true);
    expect(after.study.weather.file).toBe("weather.csv");
    expect(after.fingerprint).toBe(before.fingerprint);

    await save({ ...row(0, "Warm", "1"), "futures/0/weatherFile": "2-weather.csv" });
    expect((await read()).study.futures?.[0]?.weatherFile).toBe("2-weather.csv");
    expect((await read()).fingerprint).toBe(before.fingerprint);
    await app.close();
  });

  it("go into the summary with their weather, and come out of it with the same hours", () => {
    const { study, files } = smallBundle();
    const weather = files.get("weather.csv")!;
    const named: Study = {
      ...study,
      futures: [
        { id: "usual", name: "Usual", probability: 0.5 },
        { id: "other", name: "Other", probability: 0.3, weatherFile: "other.csv" },
        { id: "broken", name: "Broken", probability: 0.2, weatherFile: "broken.csv" },
      ],
    };
    const broken = new TextEncoder().encode("not a weather file\n1,2\n");
    const bundle = {
      study: named,
      files: new Map([...files, ["other.csv", weather], ["broken.csv", broken]]),
    };
    const resolved = resolveStudy(bundle);
    if (!resolved.ok) throw new Error(JSON.stringify(resolved.problems));
    const html = `<script type="${embeddedStudyType}" id="${embeddedStudyId}">${embedStudy(bundle, resolved.value)}</script>`;
    const opened = extractStudy(html);
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    const { futures = [] } = opened.value.study;
    expect(futures.map(({ weatherFile }) => weatherFile)).toEqual([
      undefined,
      "weather-other.csv",
      "weather-broken.csv",
    ]);
    // The study's own weather was the same file, so both are written alike.
    const text = (name: string) => new TextDecoder().decode(opened.value.files.get(name));
    expect(text("weather-other.csv")).toBe(text("weather-year.csv"));
    // What cannot be read is kept as it is and stays a fault of that year alone.
    expect(text("weather-broken.csv")).toBe("not a weather file\n1,2\n");
  });

  /** The weather of the small study twice, as the years 2019 and 2020; the second with 1 K more. */
  function twoYears(): Uint8Array {
    const text = new TextDecoder().decode(smallBundle().files.get("weather.csv")!);
    const [title = "", ...rows] = text.split("\n").filter((line) => line !== "" && !line.startsWith("#"));
    const ambientAt = title.split(",").indexOf("ambient_C");
    const warmer = (row: string) =>
      row
        .split(",")
        .map((cell, at) => (at === ambientAt ? `${Number(cell) + 1}` : cell))
        .join(",");
    const years = [...rows.map((row) => `2019,${row}`), ...rows.map((row) => `2020,${warmer(row)}`)];
    return new TextEncoder().encode([`year,${title}`, ...years].join("\n"));
  }

  it("may be years of one file, each under its own name, and go into the summary as what they are", () => {
    const { study, files } = smallBundle();
    const named: Study = {
      ...study,
      weather: { file: "years.csv", year: 2019 },
      futures: [
        { id: "usual", name: "Usual", probability: 0.5 },
        { id: "warm", name: "Warm", probability: 0.5, weatherYear: 2020 },
      ],
    };
    const bundle = { study: named, files: new Map([...files, ["years.csv", twoYears()]]) };
    const outcome = resolveFutures(bundle);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
    const [usual, warm] = outcome.value.years.map(({ resolved }) => resolved.weather.ambient_C);
    expect(usual).toEqual(outcome.value.own.weather.ambient_C);
    for (const hour of [0, 4000, 8759]) expect(warm![hour]! - usual![hour]!).toBeCloseTo(1, 9);

    const missing = resolveFutures({
      ...bundle,
      study: { ...named, futures: [{ ...named.futures![1]!, probability: 1, weatherYear: 2022 }] },
    });
    expect(missing.ok).toBe(false);
    if (!missing.ok) expect(missing.problems[0]!.message).toContain("does not hold the year 2022");

    const html = `<script type="${embeddedStudyType}" id="${embeddedStudyId}">${embedStudy(bundle, outcome.value.own)}</script>`;
    const opened = extractStudy(html);
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    expect(opened.value.study.weather).toEqual({ file: "weather-year.csv", format: "csv" });
    expect(opened.value.study.futures![1]).toMatchObject({ id: "warm", weatherFile: "weather-warm.csv" });
    const again = resolveFutures(opened.value);
    if (!again.ok) throw new Error(JSON.stringify(again.problems));
    expect(again.value.years[1]!.resolved.weather.ambient_C).toEqual(warm);
  });

  it("are asked for when a file of several is uploaded, and the answer is kept", async () => {
    const { app, id, read } = await kept();
    const text = Buffer.from(twoYears());
    const sent = await app.inject({
      method: "POST",
      url: `/studies/${id}/weather`,
      ...upload([{ field: "file", name: "years.csv", text }]),
    });
    const place = String(sent.headers.location);
    const asked = await app.inject({ url: place });
    expect(asked.statusCode).toBe(422);
    expect(asked.body).toContain("2019 (8760 rows), 2020 (8760 rows)");
    expect((await app.inject({ url: `${place}?year=soon` })).body).toContain(
      "The year to take is &#34;soon&#34;; a year from 1900 to 2100 is allowed.",
    );
    const taken = await app.inject({ url: `${place}?year=2020` });
    expect(taken.statusCode).toBe(200);
    expect(taken.body).toContain('name="year" value="2020"');
    await app.inject({ method: "POST", url: place, ...form({ do: "confirm", year: "2020" }) });
    expect((await read()).study.weather).toEqual({ file: "years.csv", year: 2020 });
    await app.close();
  });

  it("stand beside each other on the data sheet of the weather, with the heat of each collector", async () => {
    const { app, id, read, save, store } = await kept();
    const before = await read();
    await store.save(id, before.revision, before.study, new Map([["years.csv", Buffer.from(twoYears())]]));
    await save({
      ...row(0, "Warm", "1"),
      "futures/0/weatherFile": "years.csv",
      "futures/0/weatherYear": "2020",
    });
    const { body } = await app.inject(`/studies/${id}/weather/sheet`);
    expect(body).toContain("Year against year");
    expect(body).toMatch(/<th scope="row">Warm<\/th>/);
    // The same sun with air one kelvin warmer loses less heat.
    expect(body).toMatch(/\(\+0\.\d %\)/);
    await save({
      ...row(0, "Warm", "1"),
      "futures/0/weatherFile": "years.csv",
      "futures/0/weatherYear": "2030",
    });
    expect((await app.inject(`/studies/${id}/weather/sheet`)).body).toContain("does not hold the year 2030");
    await app.close();
  });
});
