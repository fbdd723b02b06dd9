import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { type Browser, chromium, type Page } from "playwright-core";

const places = [
  process.env.CHROMIUM,
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
].filter((path): path is string => path !== undefined && path !== "");

/** A browser of this machine; undefined where there is none. */
export const browserPath = places.find((path) => existsSync(path));

export function openBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: browserPath!,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}

const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What axe-core finds wrong on a page, a line each. */
export async function axeViolations(page: Page): Promise<string[]> {
  await page.evaluate(axeSource);
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { target: unknown; html: string }[] }[] }> };
    };
    const { violations } = await axe.run();
    return violations.flatMap(({ id, nodes }) =>
      nodes.slice(0, 3).map(({ html }) => `${id}: ${html.slice(0, 160)}`),
    );
  });
}
