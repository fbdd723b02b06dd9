import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { renderSummary } from "../../src/app/render-summary.ts";
import { resolveStudy } from "../../src/app/resolve-study.ts";
import { sizeStudy } from "../../src/app/size-study.ts";
import type { SummaryDocument } from "../../src/app/summary/summary-view.ts";
import type { StudyBundle } from "../../src/app/types.ts";
import type { AreaCurve, CurvePoint, Result } from "../../src/core/study/result.ts";
import type { Study } from "../../src/core/study/schema/study.ts";
import { extractStudy } from "../../src/formats/summary-study.ts";
import { loadSolvers } from "../../src/solver/solvers.ts";
import { chromiumPath } from "../support/chromium.ts";
import { smallBundle } from "../support/small-bundle.ts";

const shared = process.env.NOONKEEP_SHARED ?? fileURLToPath(new URL("../../../shared", import.meta.url));
const phoenix = join(shared, "data/weather/USA_AZ_Phoenix_722780_TMY3.csv");
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const browserPath = chromiumPath();
const hostile = `<script>alert("x")</script> & </style></title>`;

const solvers = await loadSolvers();

async function documentOf(bundle: StudyBundle): Promise<SummaryDocument> {
  const resolved = resolveStudy(bundle);
  if (!resolved.ok) throw new Error(resolved.problems.map(({ message }) => message).join("\n"));
  const { result, hours } = sizeStudy(resolved.value, { method: "typical-days", solvers });
  const { study } = bundle;
  return {
    study,
    resolved: resolved.value,
    sized: { result, hours },
    stale: false,
    curve: null,
    bundle,
    today: "2026-11-25",
  };
}

function changed(change: (study: Study) => Study): StudyBundle {
  const { study, files } = smallBundle();
  return { study: change(study), files };
}

/** Text of the page without the study inside, tags replaced by nothing, spaces made plain. */
function textOf(html: string): string {
  return html
    .replace(/<style>.*?<\/style>/s, "")
    .replace(/<script type="application\/octet-stream.*?<\/script>/s, "")
    .replace(/<[^>]+>/g, "")
    .replace(/[\u00a0\u202f]|&#8239;/g, " ")
    .replace(/\s*\[\d+\]/g, "")
    .replace(/\s+/g, " ");
}

const digits = (value: number) => new Intl.NumberFormat("en", { maximumSignificantDigits: 3 }).format(value);

const origins: Study["origins"] = [
  {
    path: "collectors/trough/cleanliness",
    status: "assumption",
    source: "assumption to replace: not measured",
  },
  { path: "backups/0/efficiency", status: "confirmed", source: "boiler test" },
  { path: "collectors/trough/parts/0/price_per_unit", status: "published", source: "an offer" },
];

let document: SummaryDocument;
let html: string;
let result: Result;
beforeAll(async () => {
  document = await documentOf(changed((study) => ({ ...study, origins })));
  html = renderSummary(document);
  result = document.sized!.result;
});

describe("the client's summary", () => {
  it("promises in its one sentence and four figures what the simple controller reaches", () => {
    const { sizes, replay } = result;
    const { annual, levelised, money } = replay!.simple;
    // Without a difference between promise and bound this test could not tell them apart.
    expect(annual.solarFraction).toBeLessThan(result.annual.solarFraction - 5e-4);
    const offer = textOf(/<p class="offer">.*?<\/p>/s.exec(html)![0]);
    const aperture = sizes.collectors.reduce((sum, { aperture_m2 }) => sum + aperture_m2, 0);
    expect(aperture).toBeGreaterThan(10);
    expect(offer).toContain(`${digits(aperture)} m² of `);
    expect(offer).toContain(`would cover ${(annual.solarFraction * 100).toFixed(1)} % of the heat`);
    expect(offer).not.toContain("up to");
    expect(offer).toMatch(
      new RegExp(
        `avoid ${digits(annual.fuelCostAvoided)} \\w+ of fuel and electricity in the first year, run by`,
      ),
    );
    expect(offer).toMatch(new RegExp(`for ${digits(sizes.initialCapital)} \\w+ of new plant\\. ?$`));
    expect(offer.match(/\. /g) ?? []).toHaveLength(0);
    for (const store of sizes.stores.filter(({ capacity_kWh }) => capacity_kWh > 1))
      expect(offer).toContain(`(${digits(store.volume_m3)} m³)`);

    const figures = textOf(/<dl class="figures">.*?<\/dl>/s.exec(html)![0]);
    expect(figures).toContain(digits(annual.fuelCostAvoided));
    expect(figures).toContain(digits(money.fuelCostAvoidedOverPeriod));
    expect(figures).toContain(`${digits(levelised.solarHeat_per_kWh! * 1000)} `);
    expect(figures).toContain(`${money.simplePayback_years!.toFixed(1)} years`);
  });

  it("says how long and how well insulated the pipes are, and what keeps a field from freezing", async () => {
    expect(textOf(html)).not.toMatch(/Field pipes: |Against frost: /);
    const guarded = await documentOf(
      changed((study) => {
        const { size: _, ...collector } = study.collectors[0]!;
        const pipes = {
          length_m: 120,
          forAperture_m2: 800,
          outerDiameter_mm: 60.3,
          wall_mm: 2.9,
          insulation_mm: 60,
          insulation_W_mK: 0.045,
          fluid: "water",
        } as const;
        const frost = { by: "electric", keepAbove_C: 40 } as const;
        return {
          ...study,
          collectors: [{ ...collector, size: { choice: "fixed", fixed: 900 }, pipes, frost }],
        };
      }),
    );
    const text = textOf(renderSummary(guarded));
    expect(text).toContain("120 m each way for 800 m², 60.3 mm wide in 60 mm of insulation");
    const { heating_kWh_per_m2 } = guarded.sized!.result.collectors[0]!.frost!;
    expect(heating_kWh_per_m2).toBeGreaterThan(1);
    expect(text).toContain(
      `is kept above 40 °C with ${digits((900 * heating_kWh_per_m2) / 1000)} MWh of electricity a year`,
    );
    expect(text).not.toContain("The pipes of");
  });

  it("tells what storms take in hours and in light, and the other hours without heat where the study has any", async () => {
    expect(textOf(html)).not.toMatch(/in planned outages \(|of the field in use at any time/);
    const often = await documentOf(
      changed((study) => {
        const { size: _, ...collector } = study.collectors[0]!;
        const running = {
          outages: [{ fromMonth: 3, fromDay: 1, days: 12 }],
          availability: 0.97,
          leastIrradiance_W_m2: 150,
        };
        const storm = { stowWind_m_s: 6, backAfter_h: 1 };
        return {
          ...study,
          collectors: [{ ...collector, size: { choice: "fixed", fixed: 900 }, ...running, storm }],
        };
      }),
    );
    const text = textOf(renderSummary(often));
    const { losses, stowedHours } = often.sized!.result.collectors[0]!;
    expect(losses.storm).toBeGreaterThan(10);
    expect(text).toContain(
      `${Math.round(stowedHours).toLocaleString("en")} hours, ${digits((900 * losses.storm) / 1000)} MWh of light lost`,
    );
    expect(text).toContain(
      ": none in planned outages (12 days a year), 0.97 of the field in use at any time and none below 150 W/m² on the aperture",
    );
  });

  it("tells the engineer in short what the prices say, with the note that explains it", () => {
    const text = textOf(html);
    expect(text).toContain("Each size chosen is the one at which one more unit would just pay for itself.");
    expect(html).toMatch(/just pay for itself\.[^<]*<a href="#note-(\d+)" class="ref"/);
    const [, note] = /just pay for itself\.[^<]*<a href="#note-(\d+)"/.exec(html)!;
    expect(html).toMatch(new RegExp(`<li id="note-${note}"><b>What the prices say\\.</b>`));
    for (const { what } of result.prices!.entries) expect(text).toContain(what);
  });

  it("draws where the light on the built collectors goes, spilling what the promise spills", async () => {
    const page = html;
    const figure = /<div class="losses">.*?<\/div>\s*<\/details>.*?<\/div>/s.exec(page)![0];
    expect(figure).toContain("Where does the light on the collectors go?");
    expect(textOf(figure)).toContain("lost: warming up");
    const [, note] = /light on the collectors go\? <a href="#note-(\d+)"/.exec(figure)!;
    expect(page).toMatch(new RegExp(`<li id="note-${note}"><b>Where the light goes\\.</b>`));
    expect(textOf(page)).toMatch(/the absorber reaches about: .* \d+ °C/);
    const { networks } = result.replay!.simple;
    const built = result.sizes.collectors.filter(({ aperture_m2 }) => aperture_m2 > 0.5);
    const [one] = built;
    const usefulOf = (field: { readonly id: string; readonly network: string }) =>
      result.collectors.find(({ id, network }) => id === field.id && network === field.network)!
        .useful_kWh_per_m2;
    const useful_kWh_per_m2 = usefulOf(one!);
    const collectable_kWh = built
      .filter(({ network }) => network === one!.network)
      .reduce((sum, field) => sum + field.aperture_m2 * usefulOf(field), 0);
    const spill_kWh = networks.find(({ id }) => id === one!.network)!.spill_kWh;
    expect(spill_kWh).toBeGreaterThan(0);
    const spilled = useful_kWh_per_m2 * Math.min(1, spill_kWh / collectable_kWh);
    expect(textOf(figure)).toContain(`${digits(spilled)} of it spilled`);
  });

  it("says what the site must give room to", () => {
    const needs = textOf(/<dl class="needs">.*?<\/dl>/s.exec(html)![0]);
    expect(needs).toContain(`${digits(result.sizes.land_m2)} m²`);
    expect(needs).toContain(digits(result.sizes.initialCapital));
  });

  it("names the figures of perfect foresight as the bound that nobody can promise", () => {
    const promise = textOf(/<p class="promise">.*?<\/p>/s.exec(html)![0]);
    const { annual, replay } = result;
    expect(promise).toContain("a simple controller that does not know tomorrow");
    expect(promise).toMatch(
      new RegExp(
        `Perfect foresight would cover ${(annual.solarFraction * 100).toFixed(1)} %, avoid ${digits(annual.fuelCostAvoided)} \\w+ and cost ${digits(replay!.simple.gap_per_year)} \\w+ a year less: that is the bound`,
      ),
    );
    // Typical days come without the two-day plan.
    expect(promise).not.toContain("two days ahead");
  });

  it("sets promise, two-day plan and bound side by side, the money of each from its own cash flow", () => {
    const study = { ...document.study };
    const twoDay = {
      ...result.replay!.simple,
      annual: { ...result.replay!.simple.annual, solarFraction: 0.1234 },
    };
    const bound = { ...result.money, npv: 1.5 * result.money.npv };
    const both = { ...result, money: bound, replay: { ...result.replay!, twoDay } };
    const page = renderSummary({ ...document, study, sized: { ...document.sized!, result: both } });
    const section = /<section id="money".*?<\/section>/s.exec(page)![0];
    const cells = (title: string) => {
      const row = new RegExp(`<tr><th scope="row">${title}</th>(.*?)</tr>`, "s").exec(section)![1]!;
      return [...row.matchAll(/<td[^>]*>(.*?)<\/td>/g)].map(([, cell]) => textOf(cell!));
    };
    const share = (value: number) => `${(value * 100).toFixed(1)} %`;
    expect(cells("Solar fraction").slice(0, 3)).toEqual([
      share(result.replay!.simple.annual.solarFraction),
      "12.3 %",
      share(result.annual.solarFraction),
    ]);
    const [promised, , ofBound] = cells("Net present value");
    expect(promised).toContain(digits(result.replay!.simple.money.npv));
    expect(ofBound).toContain(digits(bound.npv));
    expect(textOf(page)).toContain("A plan two days ahead would cover 12.3 %");
  });

  it("says up to, and that it assumes foresight, where an answer kept earlier was not replayed", () => {
    const older = { ...result, replay: null };
    const page = renderSummary({ ...document, sized: { ...document.sized!, result: older } });
    const offer = textOf(/<p class="offer">.*?<\/p>/s.exec(page)![0]);
    expect(offer).toContain(`cover up to ${(result.annual.solarFraction * 100).toFixed(1)} % of the heat`);
    expect(textOf(page)).toContain("These figures assume perfect foresight");
    expect(page).not.toContain('class="promise"');
  });

  it("shows the run without collectors, and who must check", () => {
    const text = textOf(html);
    expect(text).toContain("New plant without collectors");
    expect(text).toContain("licensed engineers");
  });

  it("is one file that loads nothing and runs nothing", () => {
    const { length } = Buffer.from(html);
    expect(length).toBeLessThan(1_000_000);
    expect(html).not.toMatch(/https?:/i);
    expect(html).not.toMatch(/<(?:link|iframe|object|embed|img|base|form|meta http)\b/i);
    expect(html).not.toMatch(/\s(?:src|srcset|action|ping|data|poster|xlink:href|on\w+)\s*=/i);
    expect([...html.matchAll(/href="([^"]*)"/g)].filter(([, to]) => !to!.startsWith("#"))).toEqual([]);
    expect([...html.matchAll(/url\(([^)]*)\)/g)].filter(([, to]) => !/^(#|data:)/.test(to!))).toEqual([]);
    expect(html).not.toMatch(/@import/);
    expect([...html.matchAll(/<script\b[^>]*>/g)].map(([tag]) => tag)).toEqual([
      '<script type="application/octet-stream;base64" id="noonkeep-study">',
    ]);
  });

  it("holds the study that gives the same sizes again", async () => {
    const inside = extractStudy(html);
    if (!inside.ok) throw new Error("no study inside");
    const again = await documentOf(inside.value);
    expect(again.sized!.result.sizes).toEqual(result.sizes);
    expect(again.sized!.result.annual).toEqual(result.annual);
    expect(again.sized!.result.replay).toEqual(result.replay);
  });

  it("leads every number to a note that exists, and lists no note in vain", () => {
    const used = new Set([...html.matchAll(/href="#note-(\d+)"/g)].map(([, number]) => Number(number)));
    const listed = [...html.matchAll(/id="note-(\d+)"/g)].map(([, number]) => Number(number));
    expect(listed).toEqual(Array.from({ length: listed.length }, (_, index) => index + 1));
    expect([...used].sort((a, b) => a - b)).toEqual(listed);
    expect(listed.length).toBeGreaterThan(15);
  });

  it("uses no id twice and shows nothing as NaN, undefined or −0", () => {
    const ids = [...html.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
    expect(textOf(html)).not.toMatch(/NaN|undefined|\bnull\b|Infinity|−0(?![.\d])|\[object/);
  });

  it("lists assumptions with value, status and source", () => {
    const table = textOf(/<table class="wordy assumptions">.*?<\/table>/s.exec(html)![0]);
    const { cleanliness } = document.study.collectors[0]!;
    expect(table).toContain(`Cleanliness ${cleanliness}`);
    expect(table).toContain("assumed");
    expect(table).toContain("not measured");
    expect(table).toContain(`Efficiency, heat per fuel ${document.study.backups[0]!.efficiency}`);
    expect(table).toContain("confirmed boiler test".replace(" ", ""));
  });

  it("says that the area curve was not drawn, and draws it where it was", () => {
    expect(textOf(html)).toContain("The area curve of this study was not drawn yet");
    const point = (aperture_m2: number): CurvePoint => ({
      by: "replay",
      aperture_m2,
      store_kWh: 0,
      solarFraction: aperture_m2 / 1e4,
      fuelCostAvoided: aperture_m2,
      annualCost: 1e5 - aperture_m2,
      spilled_kWh: 0,
      unmet_kWh: 0,
    });
    const curve: AreaCurve = {
      optimum: { ...point(1000), by: "lp", solarFraction: 0.12, annualCost: 98_000 },
      optimumReplay: point(1000),
      chosen: null,
      chosenBound: null,
      lines: [{ storeFactor: 1, storePerAperture_kWh_m2: 0, points: [0, 500, 1000, 2000].map(point) }],
      bound: [],
      boundAt_m2: [],
      split: [],
      remarks: [],
    };
    const drawn = textOf(renderSummary({ ...document, curve }));
    expect(drawn).not.toContain("was not drawn yet");
    expect(drawn).toContain("How much solar area pays?");
  });

  it("says so where the study was changed since", () => {
    expect(textOf(html)).not.toContain("was changed after");
    expect(textOf(renderSummary({ ...document, stale: true }))).toContain("was changed after");
  });

  it("says so where nothing was sized", () => {
    const text = textOf(renderSummary({ ...document, sized: null }));
    expect(text).toContain("no answer yet");
    expect(text).not.toContain("would cover");
  });

  it("shows titles, names and sources as text whatever they hold", () => {
    const study = {
      ...document.study,
      title: hostile,
      client: hostile,
      author: hostile,
      note: hostile,
      origins: [{ ...origins[0]!, source: hostile }],
      collectors: document.study.collectors.map((c) => ({ ...c, name: `F${hostile}`.slice(0, 80) })),
      networks: document.study.networks.map((n) => ({ ...n, name: hostile })),
    };
    const page = renderSummary({ ...document, study, bundle: { ...document.bundle, study } });
    expect(page.match(/<script/g)).toHaveLength(1);
    expect(page.match(/<\/style>/g)).toHaveLength(1);
    expect(page.match(/<\/title>/g)!.length).toBe(page.match(/<title[ >]/g)!.length);
    expect(page).toContain("&lt;script&gt;");
    expect(extractStudy(page).ok).toBe(true);
  });

  it.skipIf(!existsSync(phoenix))(
    "stays below 1 MB with a real weather year and several noisy loads",
    async () => {
      // Twelve digits of noise in each hour: what a meter of many decimals would give at worst.
      let state = 1;
      const noise = () => {
        state = (state * 48271) % 2147483647;
        return state / 2147483647;
      };
      const csv = () =>
        `hour,kW\n${Array.from({ length: 8760 }, (_, hour) => `${hour},${noise() * 400}\n`).join("")}`;
      const { study } = smallBundle();
      const names = ["a", "b", "c"];
      const bundle: StudyBundle = {
        study: {
          ...study,
          weather: { file: "tmy3.csv" },
          loads: names.map((id) => ({
            kind: "process-heat",
            id,
            name: id,
            network: study.networks[0]!.id,
            heat_kW: { from: "file", file: `${id}.csv`, reading: { clock: "standard", unit: "kW" } },
          })),
        },
        files: new Map([
          ["tmy3.csv", readFileSync(phoenix)],
          ...names.map((id): [string, Uint8Array] => [`${id}.csv`, new TextEncoder().encode(csv())]),
        ]),
      };
      const page = renderSummary(await documentOf(bundle));
      expect(Buffer.from(page).length).toBeLessThan(1_000_000);
    },
  );
});

describe("a study in which no collector pays", () => {
  it("says so in its one sentence, without figures of an offer", async () => {
    const dear = (study: Study) => ({
      ...study,
      collectors: study.collectors.map((collector) => ({
        ...collector,
        parts: collector.parts.map((part) => ({ ...part, price_per_unit: 5000 })),
      })),
    });
    const none = await documentOf(changed(dear));
    const page = renderSummary(none);
    const offer = textOf(/<p class="offer">.*?<\/p>/s.exec(page)![0]);
    expect(offer).toContain("no collector pays");
    expect(offer).toContain(digits(none.sized!.result.annual.fuelCostWithSolar));
    expect(page).not.toContain('<dl class="figures">');
    expect(page).not.toContain('class="promise"');
    expect(textOf(page)).not.toMatch(/NaN|undefined|Infinity|sun and stores give only/);
  });
});

describe("a study whose limits conflict", () => {
  it("is told on top, with what conflicts, and makes no offer", async () => {
    const bundle = changed((study) => ({ ...study, limits: { land_m2: 50, leastSolarFraction: 0.9 } }));
    const conflicting = await documentOf(bundle);
    const { status, conflicts } = conflicting.sized!.result;
    expect(status).toBe("infeasible");
    expect(conflicts.length).toBeGreaterThan(0);
    const page = renderSummary(conflicting);
    const text = textOf(page);
    for (const { sentence } of conflicts) expect(text).toContain(sentence.replace(/[\u00a0\u202f]/g, " "));
    expect(page.indexOf('id="conflicts"')).toBeLessThan(page.indexOf('id="needs"'));
    expect(text).not.toContain("would cover up to");
    expect(page).not.toContain('<dl class="figures">');
  });
});

describe.skipIf(browserPath === null)("the summary in Chromium", () => {
  it("has no fault that axe finds, loads nothing, and prints the offer and its proof on four pages", async () => {
    const browser = await chromium.launch({ executablePath: browserPath!, args: ["--no-sandbox"] });
    try {
      for (const look of [
        { colorScheme: "light", width: 1280 },
        { colorScheme: "dark", width: 390 },
      ] as const) {
        const page = await browser.newPage({
          viewport: { width: look.width, height: 900 },
          colorScheme: look.colorScheme,
        });
        const asked: string[] = [];
        page.on("request", (request) => asked.push(request.url()));
        await page.setContent(html);
        await page.evaluate(axe);
        const violations = await page.evaluate(async () => {
          const run = (globalThis as unknown as { axe: { run: () => Promise<{ violations: unknown[] }> } })
            .axe;
          const found = await run.run();
          return (found.violations as { id: string; nodes: { html: string }[] }[]).map(
            ({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`,
          );
        });
        expect(violations).toEqual([]);
        expect(asked).toEqual([]);
        expect(
          await page.evaluate(() => globalThis.document.documentElement.scrollWidth),
        ).toBeLessThanOrEqual(look.width);
        await page.close();
      }
      const page = await browser.newPage();
      await page.setContent(html);
      // The annex is closed, so the whole file prints on a few pages.
      for (const format of ["A4", "Letter"]) {
        const pdf = (await page.pdf({ format })).toString("latin1");
        const pages = pdf.match(/\/Type\s*\/Page\b/g)!.length;
        expect(pages).toBeGreaterThanOrEqual(2);
        expect(pages).toBeLessThanOrEqual(4);
      }
    } finally {
      await browser.close();
    }
  });
});

describe("money around the plant in the summary", () => {
  it("shows loan, tax, contract and price paths where the study has them, and nothing of them where not", async () => {
    const bundle = changed((study) => ({
      ...study,
      money: {
        ...study.money,
        inflation_per_year: 0.02,
        tax: { rate: 0.25, depreciation: "straight-line", depreciation_years: 10, losses: "used-at-once" },
        loan: { share: 0.5, interest_per_year: 0.05, years: 10, repayment: "annuity" },
        contract: { wantedReturn_per_year: 0.1, sellerShare: 0.25, index: "inflation" },
        pricePaths: [{ name: "Dear oil", of: "boiler", escalation_per_year: 0.06 }],
      },
    }));
    const document = await documentOf(bundle);
    const html = renderSummary(document);
    const text = textOf(html);
    const { contract, finance } = document.sized!.result.replay!.simple.money;
    expect(text).toContain(`sells its solar heat at ${digits(1000 * contract!.price_per_kWh!)} XTS/MWh`);
    expect(text).toMatch(/a loan pays 50.0 % of the capital at 5.0 %, repaid over 10 years/);
    expect(text).toMatch(/Dear oil/);
    expect(html.match(/id="note-\d+"/g)!.length).toBe(new Set(html.match(/id="note-\d+"/g)).size);
    expect(finance!.years).toHaveLength(21);
    expect(text).not.toMatch(/NaN|undefined/);
    const plain = textOf(renderSummary(await documentOf(smallBundle())));
    expect(plain).not.toMatch(/After tax and loan|Selling the heat|Other courses/);
  }, 60_000);
});
