import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Study } from "../../src/core/study/schema/study.ts";
import { axeViolations, browserPath, openBrowser } from "../support/browser.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { form, profileCsv, upload, webApp } from "../support/web-app.ts";

const hot = (hour: number) => (hour % 24 < 8 ? 100 : 300);
/** The first column of the log, then one in MWh and one without a unit; a spike and a gap to look at. */
function log(): string {
  const [, ...rows] = profileCsv((hour) => (hour === 2000 ? 9000 : hot(hour)))
    .trimEnd()
    .split("\n");
  const wide = rows.map((row, hour) => `${row},${hot(hour) / 500},${hour % 7}`);
  return ["time,wash [kW],boil [MWh],pump", ...wide.toSpliced(4000, 2)].join("\n");
}

async function twoLoads() {
  const web = await webApp();
  const bundle = smallBundle();
  const [load] = bundle.study.loads;
  const loads = [load!, { ...load!, id: "boil", name: "Boiling" }] as Study["loads"];
  const id = await web.store.create({ ...bundle, study: { ...bundle.study, loads } });
  const files = [{ field: "file", name: "log.csv", text: log() }];
  const sent = await web.app.inject({
    method: "POST",
    url: `/studies/${id}/demand/${load!.id}`,
    ...upload(files),
  });
  return { ...web, id, at: sent.headers.location! };
}

describe("several columns of one file", () => {
  it("feed several loads at once, a new one among them, each with its own unit", async () => {
    const { app, store, id, at } = await twoLoads();
    const answers = { do: "confirm", valueColumn: "wash [kW]", "column-2": "boil" };
    expect((await app.inject({ method: "POST", url: at, ...form(answers) })).statusCode).toBe(303);
    const { study, files } = (await store.read(id))!;
    const reading = (column: string, unit: string) => ({
      from: "file",
      file: "log.csv",
      reading: { valueColumn: column, unit },
    });
    expect(study.loads[0]).toMatchObject({ heat_kW: reading("wash [kW]", "kW") });
    expect(study.loads[1]).toMatchObject({ id: "boil", heat_kW: reading("boil [MWh]", "MWh") });
    expect([...files.keys()].filter((name) => name === "log.csv")).toHaveLength(1);
  });

  it("may make a new load", async () => {
    const { app, store, id, at } = await twoLoads();
    const answers = { do: "confirm", valueColumn: "wash [kW]", "column-2": "new" };
    expect((await app.inject({ method: "POST", url: at, ...form(answers) })).statusCode).toBe(303);
    const { study } = (await store.read(id))!;
    expect(study.loads[2]).toMatchObject({ kind: "process-heat", id: "boil-mwh", name: "boil [MWh]" });
    expect(study.loads[2]).toMatchObject({ network: (study.loads[0] as { network: string }).network });
  });

  it("are refused together where one leaves something open or a load is named twice", async () => {
    const { app, store, id, at } = await twoLoads();
    const open = { do: "confirm", valueColumn: "wash [kW]", "column-2": "boil", "column-3": "new" };
    const refused = await app.inject({ method: "POST", url: at, ...form(open) });
    expect(refused.statusCode).toBe(422);
    expect(refused.body).toContain("leaves something open");
    expect(refused.body).toContain('value="boil" selected');
    const twice = { ...open, "column-3": "boil" };
    expect((await app.inject({ method: "POST", url: at, ...form(twice) })).body).toContain(
      "both for Boiling",
    );
    expect((await store.read(id))!.study.loads[0]).toMatchObject({ heat_kW: { from: "constant" } });
  });
});

describe("a file of metered fuel on the upload page", () => {
  it("becomes heat by the figures given, and is not stored while they cannot be used", async () => {
    const { app, store, id } = await twoLoads();
    const text = profileCsv(hot).replace("heat [kW]", "gas [m3/h]");
    const files = [{ field: "file", name: "gas.csv", text }];
    const sent = await app.inject({ method: "POST", url: `/studies/${id}/demand/boil`, ...upload(files) });
    const at = sent.headers.location!;
    const say = (fields: Record<string, string>) =>
      app.inject({ method: "POST", url: at, ...form({ do: "confirm", ...fields }) });
    const half = await say({ fuelHeatingValue: "10", fuelEfficiency: "90" });
    expect(half.statusCode).toBe(422);
    expect(half.body).toContain("up to 1.1 (found &#34;90&#34;)");
    expect((await store.read(id))!.study.loads[1]).toMatchObject({ heat_kW: { from: "constant" } });
    const norm = await say({ fuelHeatingValue: "10", fuelEfficiency: "0.9", fuelNorm: "100" });
    expect(norm.statusCode).toBe(422);
    expect(norm.body).toContain("up to 20, if one (found &#34;100&#34;)");
    const taken = await say({
      fuelHeatingValue: "10,5",
      fuelEfficiency: "0.9",
      fuelHeatingValueIs: "net",
      fuelNorm: "1.08",
    });
    expect(taken.statusCode).toBe(303);
    expect((await store.read(id))!.study.loads[1]).toMatchObject({
      heat_kW: {
        reading: {
          unit: "m3/h",
          fuel: { kWh_per_unit: 10.5, heatingValueIs: "net", efficiency: 0.9, norm_per_metered: 1.08 },
        },
      },
    });
  });
});

describe.skipIf(browserPath === undefined)("the upload page in a browser (skipped without Chromium)", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());

  it("offers the columns, draws each fault where it lies and takes two columns", async () => {
    const { app, store, id, at } = await twoLoads();
    const base = await app.listen({ port: 0, host: "127.0.0.1" });
    const page = await browser.newPage({ viewport: { width: 1100, height: 900 } });
    await page.goto(`${base}${at}?valueColumn=${encodeURIComponent("wash [kW]")}`);
    expect(await axeViolations(page)).toEqual([]);
    const strips = page.locator("#faults svg.chart-wide");
    expect(await strips.count()).toBe(2);
    expect(await strips.first().getAttribute("aria-labelledby")).toContain("fault-0");
    const told = await page.locator("#faults").textContent();
    expect(told).toContain("9000");
    if (process.env.NOONKEEP_PICTURES !== undefined)
      await page.screenshot({ path: `${process.env.NOONKEEP_PICTURES}/upload.png`, fullPage: true });
    await page.getByLabel(/^boil \[MWh\]/).selectOption("boil");
    await page.getByRole("button", { name: "Confirm" }).click();
    await page.waitForURL(/#/);
    const { study } = (await store.read(id))!;
    expect(study.loads[1]).toMatchObject({
      heat_kW: { from: "file", reading: { valueColumn: "boil [MWh]" } },
    });
    await app.close();
  });
});
