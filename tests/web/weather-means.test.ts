import { describe, expect, it } from "vitest";
import { weatherFromMeans } from "../../src/app/make-weather.ts";
import { monthNames } from "../../src/formats/weather/means-cells.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { form, webApp } from "../support/web-app.ts";

const columns = { light: "0.6", ambient_C: "20", dailySwing_K: "8", humidity_pct: "50", wind_m_s: "4" };
const filled = {
  ...{ do: "means", light: "clearness", seed: "5" },
  ...Object.fromEntries(
    Object.entries(columns).flatMap(([name, value]) =>
      monthNames.map((_, month) => [`${name}/${month}`, value]),
    ),
  ),
};

async function start() {
  const { app, store } = await webApp();
  const id = await store.create(smallBundle());
  const url = `/studies/${id}/weather/means`;
  const post = (fields: Record<string, string>) => app.inject({ method: "POST", url, ...form(fields) });
  return { app, store, id, url, post };
}

describe("the page that makes a weather year", () => {
  it("shows what was made like an upload, and keeps it on confirmation", async () => {
    const { app, store, id, url, post } = await start();
    expect((await app.inject(url)).body).toContain('aria-label="January, light"');
    const sent = await post(filled);
    expect(sent.statusCode).toBe(303);
    const at = sent.headers.location as string;
    const shown = await app.inject(at);
    expect(shown.body).toContain("made from twelve monthly means");
    expect(shown.body).toContain("Direct normal irradiation");
    await app.inject({ method: "POST", url: at, ...form({ do: "confirm" }) });
    const kept = (await store.read(id))!;
    expect(kept.study.weather).toEqual({ file: "year-of-means-5.csv" });
    const twelve = (value: number) => new Array<number>(12).fill(value);
    const means = {
      ...{ clearness: twelve(0.6), ambient_C: twelve(20), dailySwing_K: twelve(8) },
      ...{ humidity_share: twelve(0.5), wind_m_s: twelve(4) },
    };
    const made = weatherFromMeans(kept.study.site, means, 5, "year-of-means-5.csv");
    expect(new TextDecoder().decode(kept.files.get("year-of-means-5.csv"))).toBe(
      made.ok ? made.value.text : "",
    );
    // The study's own page says it from now on.
    expect((await app.inject(`/studies/${id}`)).body).toContain("made from twelve monthly means");
  });

  it("tells every fault beside its cell, keeps what was typed, and stores nothing", async () => {
    const { store, id, post } = await start();
    const refused = await post({ ...filled, "wind_m_s/2": "gale", "ambient_C/0": "", seed: "<1>" });
    expect(refused.statusCode).toBe(422);
    expect(refused.body).toContain(
      "The mean wind at 10 m of March is &#34;gale&#34;; a number from 0.1 to 30 m/s is allowed.",
    );
    expect(refused.body).toContain('href="#at-wind_m_s-2"');
    expect(refused.body).toContain("The mean temperature of January is missing");
    expect(refused.body).toContain("The seed is &#34;&lt;1&gt;&#34;");
    expect(refused.body).toContain('value="gale"');
    expect(refused.body).toContain('value="&lt;1&gt;"');
    const bare = await post({ do: "means", light: "clearness", seed: "1" });
    expect(bare.body).toContain("The mean temperature of all twelve months is missing");
    expect(bare.body.match(/is missing;/g)!.length).toBe(5);
    const light = await post({ ...filled, light: "ghi_kWh_m2_day", "light/0": "14" });
    expect(light.body).toContain('href="#at-light-0"');
    expect((await store.read(id))!.study).toEqual(smallBundle().study);
  });

  it("makes a cloudless year of the study's own air", async () => {
    const { app, post } = await start();
    expect((await post({ do: "clear-sky", turbidity: "1" })).statusCode).toBe(422);
    const sent = await post({ do: "clear-sky", turbidity: "2" });
    expect((await app.inject(sent.headers.location as string)).body).toContain("a year without a cloud");
  });
});
