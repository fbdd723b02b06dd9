import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SizedStudy } from "../../src/app/types.ts";
import { WorkPool } from "../../src/web/jobs/work-pool.ts";
import { axeViolations, browserPath, openBrowser } from "../support/browser.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { profileCsv, webApp } from "../support/web-app.ts";

/** The small study on typical days, in a real browser against the real application with its worker thread. */
describe.skipIf(browserPath === undefined)(
  "journeys in a browser (skipped where there is no Chromium)",
  () => {
    const pool = new WorkPool();
    let browser: Browser;
    let web: Awaited<ReturnType<typeof webApp>>;
    let base: string;
    let answer: SizedStudy;
    const complaints: string[] = [];

    beforeAll(async () => {
      web = await webApp({ doWork: pool.doWork });
      base = await web.app.listen({ port: 0, host: "127.0.0.1" });
      browser = await openBrowser();
      const id = await web.store.create(smallBundle());
      web.jobs.start(id, ["typical-days"]);
      while (web.jobs.isRunning(id)) await new Promise((wake) => setTimeout(wake, 50));
      answer = (await web.store.readAnswer(id))!.sized;
    });

    afterAll(async () => {
      await browser.close();
      await web.app.close();
      await pool.close();
    });

    async function study({ sized = true } = {}): Promise<string> {
      const id = await web.store.create(smallBundle());
      if (sized) await web.store.saveAnswer(id, (await web.store.read(id))!.fingerprint, answer);
      return id;
    }

    async function page(options: Parameters<Browser["newContext"]>[0] = {}): Promise<Page> {
      const opened = await (await browser.newContext(options)).newPage();
      opened.on("console", (message) => {
        if (message.type() === "error") complaints.push(`${opened.url()}: ${message.text()}`);
      });
      return opened;
    }

    async function profileFile(): Promise<string> {
      const path = join(await mkdtemp(join(tmpdir(), "noonkeep-profile-")), "meter.csv");
      await writeFile(
        path,
        profileCsv((hour) => (hour % 24 >= 6 && hour % 24 < 22 ? 420 : 60)),
      );
      return path;
    }

    it("takes a year's profile from its file to the load that wants it", async () => {
      const id = await study();
      const tab = await page();
      await tab.goto(`${base}/studies/${id}#loads`);
      await tab.getByRole("link", { name: "Upload a profile" }).click();
      await tab.getByLabel("The file, at most 20 MB").setInputFiles(await profileFile());
      await tab.getByRole("button", { name: "Upload" }).click();
      await tab.getByRole("heading", { name: "How it was read" }).waitFor();
      // 365 days of 16 × 420 and 8 × 60 kWh are 2 628 000 kWh.
      expect(await tab.getByRole("row", { name: /Total of the year/ }).textContent()).toContain(
        "2,630,000 kWh",
      );
      await tab.getByRole("button", { name: /^Confirm/ }).click();
      await tab.waitForURL(/#at-loads-0$/);
      expect(await tab.locator("#at-loads-0-heat-kW-file").inputValue()).toBe("meter.csv");
      expect(await tab.getByText("The study was changed since this was found").count()).toBe(1);
    });

    it("sizes a study and compares the solar fraction against the area", async () => {
      const id = await study({ sized: false });
      const tab = await page();
      await tab.goto(`${base}/studies/${id}`);
      await tab.getByRole("button", { name: /^Full year/ }).click();
      await tab.waitForURL(/#answer$/, { timeout: 90_000 });
      expect(await tab.getByText("An ordinary controller, which does not know tomorrow").count()).toBe(1);
      const fraction = tab.locator(".figures dd").nth(1);
      expect(Number.parseFloat((await fraction.textContent()) ?? "")).toBeGreaterThan(10);
      await tab.getByRole("button", { name: "Draw the area curve" }).click();
      await tab.waitForURL(/#curve$/, { timeout: 110_000 });
      const table = tab.locator("#curve table").filter({ hasText: "Points of the area curve" });
      await tab.getByText("Every point of the curve").click();
      const rows = await table
        .locator("tbody tr")
        .evaluateAll((list) =>
          list.map((row) => [...row.querySelectorAll("td")].map((cell) => cell.textContent ?? "")),
        );
      expect(rows.length).toBeGreaterThan(10);
      // The curve's optimum is the answer itself: as the simple controller runs it, and the bound.
      const promised = tab.locator("#replay tbody tr").first().locator("td").first();
      expect(rows[0]![3]).toBe(await promised.textContent());
      expect(rows[1]![3]).toBe(await fraction.textContent());
      // The two-day plan, which was still at work, goes on after the curve.
      const plan = tab.locator("#replay tbody tr").first().locator("td").nth(1);
      await expect
        .poll(
          async () => {
            await tab.reload();
            return plan.textContent();
          },
          { timeout: 60_000, interval: 500 },
        )
        .toMatch(/^\d+\.\d.%$/);
    });

    it("shows a first answer by itself, on the page that waited for it", async () => {
      const id = await study({ sized: false });
      web.jobs.start(id, ["full-year", "two-day"]);
      const tab = await page();
      await tab.goto(`${base}/studies/${id}`);
      await tab.getByText("There is no answer yet").waitFor();
      await tab.locator("#answer .figures dd").first().waitFor({ timeout: 90_000 });
      expect(await tab.getByText("There is no answer yet").count()).toBe(0);
      web.jobs.stop(id);
    });

    it("hands over a summary: one file that opens by itself and gives the study back", async () => {
      const id = await study();
      const tab = await page();
      await tab.goto(`${base}/studies/${id}`);
      const [download] = await Promise.all([
        tab.waitForEvent("download"),
        tab.getByRole("link", { name: "download it" }).click(),
      ]);
      const path = (await download.path())!;
      const file = join(await mkdtemp(join(tmpdir(), "noonkeep-summary-")), "summary.html");
      await download.saveAs(file);
      expect(path).not.toBe("");
      const alone = await page({ offline: true });
      await alone.goto(`file://${file}`);
      expect(await alone.locator("h1").first().textContent()).not.toBe("");
      expect(await alone.locator("body").textContent()).toContain("Washing");

      await tab.goto(base);
      await tab.getByLabel(/A study.json, or a summary/).setInputFiles(file);
      await tab.getByRole("button", { name: "Open" }).click();
      await tab.waitForURL(/\/studies\/small-study-/);
      const opened = new URL(tab.url()).pathname.split("/").at(-1)!;
      const [again, before] = [await web.store.read(opened), await web.store.read(id)];
      // The weather travels in a form of its own: another file, the same hours.
      expect({ ...again!.study, weather: null }).toEqual({ ...before!.study, weather: null });
      const [hours, hoursBefore] = [again!, before!].map((kept) => web.services.resolveStudy(kept));
      expect(hours!.ok && hours!.value.weather.dni_W_m2).toEqual(
        hoursBefore!.ok && hoursBefore!.value.weather.dni_W_m2,
      );
    });

    it("works without scripts: a change, a fault, long work", async () => {
      const id = await study({ sized: false });
      const tab = await page({ javaScriptEnabled: false });
      await tab.goto(`${base}/studies/${id}`);
      const supply = tab.locator("#at-networks-0-supply-C");
      await supply.fill("92.5");
      await supply.press("Enter");
      await tab.waitForURL(/#at-networks-0$/);
      expect(await supply.inputValue()).toBe("92.5");
      await supply.fill("hot");
      await supply.press("Enter");
      expect(await supply.inputValue()).toBe("hot");
      await tab.getByRole("alert").getByRole("link").first().click();
      expect(tab.url()).toMatch(/#at-networks-0-supply-C$/);
      await tab.goto(`${base}/studies/${id}`);
      await tab.getByRole("button", { name: /^Quick answer/ }).click();
      await tab.waitForURL(/#answer$/, { timeout: 90_000 });
      expect(await tab.locator(".figures dd").count()).toBe(4);
    });

    it("can be used by the keyboard alone: the skip link first, then the inputs in reading order", async () => {
      const id = await study();
      const tab = await page();
      await tab.goto(`${base}/studies/${id}`);
      await tab.keyboard.press("Tab");
      expect(await tab.evaluate(() => document.activeElement?.textContent)).toBe("Skip to the content");
      await tab.keyboard.press("Enter");
      const order: number[] = [];
      for (let step = 0; step < 40; step += 1) {
        await tab.keyboard.press("Tab");
        order.push(
          await tab.evaluate(() => (document.activeElement?.getBoundingClientRect().top ?? 0) + scrollY),
        );
      }
      expect(order.every((top, index) => index === 0 || top >= order[index - 1]! - 60)).toBe(true);
      expect(await tab.evaluate(() => document.activeElement?.tagName)).not.toBe("BODY");
    });

    it.each(["light", "dark"] as const)("has nothing that axe-core objects to, %s", async (colorScheme) => {
      const id = await study();
      await web.app.inject({
        method: "POST",
        url: `/studies/${id}/items/collectors`,
        payload: "kind=inflated-film-dish",
        headers: { "content-type": "application/x-www-form-urlencoded" },
      });
      const tab = await page({ colorScheme });
      for (const path of [
        "/",
        `/studies/${id}`,
        `/studies/${id}/demand/wash`,
        `/studies/${id}/weather`,
        `/studies/${id}/weather/means`,
        "/nothing",
      ]) {
        await tab.goto(`${base}${path}`);
        await tab.evaluate(() => {
          for (const one of document.querySelectorAll("details")) one.open = true;
        });
        expect(await axeViolations(tab), path).toEqual([]);
      }
      await tab.goto(`${base}/studies/${id}/demand/wash`);
      await tab.getByLabel("The file, at most 20 MB").setInputFiles(await profileFile());
      await tab.getByRole("button", { name: "Upload" }).click();
      await tab.getByRole("heading", { name: "How it was read" }).waitFor();
      expect(await axeViolations(tab)).toEqual([]);
    });

    it.each([390, 1280])("needs no sideways scrolling at %i pixels", async (width) => {
      const id = await study();
      const tab = await page({ viewport: { width, height: 800 } });
      for (const path of ["/", `/studies/${id}`, `/studies/${id}/demand/wash`]) {
        await tab.goto(`${base}${path}`);
        await tab.evaluate(() => {
          for (const one of document.querySelectorAll("details")) one.open = true;
        });
        expect(await tab.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      }
    });

    it("left no complaint in the browser's console, such as content that the policy forbids", () => {
      expect(complaints.filter((line) => !line.includes("/nothing") && !line.includes("422"))).toEqual([]);
    });
  },
);
