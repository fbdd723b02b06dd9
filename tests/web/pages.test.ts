import { beforeAll, describe, expect, it } from "vitest";
import { resolveStudy } from "../../src/app/resolve-study.ts";
import type { SizedStudy } from "../../src/app/types.ts";
import { sum } from "../../src/core/series.ts";
import type { Work } from "../../src/web/jobs/work.ts";
import { ResolvedCache } from "../../src/web/resolved-cache.ts";
import type { Services } from "../../src/web/services.ts";
import { sampleCurve } from "../support/sample-charts.ts";
import { shapedTrough } from "../support/shaped-trough.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { form, profileCsv, upload, webApp } from "../support/web-app.ts";

let answer: SizedStudy;

beforeAll(async () => {
  const { store, jobs } = await webApp();
  const id = await store.create(smallBundle());
  jobs.start(id, ["typical-days"]);
  while (jobs.isRunning(id)) await new Promise((wake) => setTimeout(wake, 20));
  expect(jobs.of(id)).toMatchObject({ state: "done" });
  answer = (await store.readAnswer(id))!.sized;
});

async function withStudy(own: Partial<Services> = {}) {
  const web = await webApp(own);
  const id = await web.store.create(smallBundle());
  const revision = async () => (await web.store.read(id))!.revision;
  const edit = async (fields: Record<string, string>) =>
    web.app.inject({
      method: "POST",
      url: `/studies/${id}/edit`,
      ...form({ revision: await revision(), ...fields }),
    });
  const get = (path = "") => web.app.inject(`/studies/${id}${path}`);
  /** Puts the answer of the small study as it was made once for all tests, for the study as it now is. */
  const size = async () => web.store.saveAnswer(id, (await web.store.read(id))!.fingerprint, answer);
  return { ...web, id, edit, get, size };
}

describe("the list of studies", () => {
  it("says what to do next where there is none", async () => {
    const { app } = await webApp();
    expect((await app.inject("/")).body).toContain("There is none yet");
  });

  it("begins a study from the worked example and from nothing", async () => {
    const { app, store } = await webApp();
    for (const begin of ["example", "empty"]) {
      const reply = await app.inject({ method: "POST", url: "/studies", ...form({ begin }) });
      expect(reply.statusCode).toBe(303);
      const page = await app.inject(reply.headers.location!);
      expect(page.statusCode).toBe(200);
      expect(page.body).toContain(
        begin === "example" ? "Saltmarrow" : "Before it can be sized, the study needs this",
      );
    }
    expect(await store.list()).toHaveLength(2);
  });

  it("opens an uploaded study with the files that it names", async () => {
    const { app, store } = await webApp();
    const { study, files } = smallBundle();
    const reply = await app.inject({
      method: "POST",
      url: "/studies/upload",
      ...upload([
        { field: "study", name: "study.json", text: JSON.stringify(study) },
        { field: "files", name: "weather.csv", text: Buffer.from(files.get("weather.csv")!) },
      ]),
    });
    expect(reply.statusCode).toBe(303);
    const kept = await store.read((await store.list())[0]!.id);
    expect(kept!.study).toEqual(study);
    expect(kept!.files.get("weather.csv")).toEqual(Buffer.from(files.get("weather.csv")!));
  });

  it("tells every fault of a study that it cannot open, and keeps none of it", async () => {
    const { app, store } = await webApp();
    const { study } = smallBundle();
    const bad = { ...study, networks: [{ ...study.networks[0], supply_C: "hot", colour: 1 }] };
    const text = JSON.stringify(bad);
    const reply = await app.inject({
      method: "POST",
      url: "/studies/upload",
      ...upload([{ field: "study", name: "study.json", text }]),
    });
    expect(reply.statusCode).toBe(422);
    expect(reply.body).toContain("supply_C");
    expect(reply.body).toContain("colour");
    expect(await store.list()).toEqual([]);
  });

  it.each([["not json at all"], ["<html><body>no study here</body></html>"], [""]])(
    "refuses %j calmly",
    async (text) => {
      const { app } = await webApp();
      const files = [{ field: "study", name: "study.json", text }];
      const reply = await app.inject({ method: "POST", url: "/studies/upload", ...upload(files) });
      expect(reply.statusCode).toBe(422);
      expect(reply.body).not.toMatch(/at .*\.ts|node_modules/);
    },
  );
});

describe("the document", () => {
  it("has every section, an index of them, and no script or style of its own inside", async () => {
    const { get } = await withStudy();
    const { body, headers } = await get();
    const sections = [
      "answer",
      "works",
      "sun",
      "heat",
      "match",
      "losses",
      "plant",
      "year",
      "replay",
      "curve",
      "prices",
      "money",
      "cautions",
      "proof",
    ];
    for (const id of sections) {
      expect(body).toContain(`id="${id}"`);
      expect(body).toContain(`href="#${id}"`);
    }
    expect(body).not.toMatch(/<style|<script>|\sstyle=|\son[a-z]+="/);
    expect(headers["content-security-policy"]).toContain("default-src 'none'");
    expect(headers["content-security-policy"]).not.toContain("unsafe");
  });

  it("draws where the light on each collector goes, with its figures and the caution of standstill", async () => {
    const { get, store, id } = await withStudy();
    expect((await get()).body).toContain(
      "What each collector loses on the way from light to heat is shown here",
    );
    await store.saveAnswer(id, (await store.read(id))!.fingerprint, answer);
    const { body } = await get();
    const section = /<section id="losses".*?<\/section>/s.exec(body)![0];
    const { collectors } = (await store.read(id))!.study;
    for (const { name } of collectors) expect(section).toContain(`Where does the light on ${name} go?`);
    const lives = collectors.filter(({ filmPart }) => filmPart !== undefined);
    expect(lives.length).toBeGreaterThan(0);
    for (const { name } of lives)
      expect(section).toContain(`After how many years does changing the film of ${name} pay?`);
    expect(section.match(/class="chart chart-wide"/g)).toHaveLength(collectors.length + lives.length);
    expect(section).toContain("lost: warming up");
    expect(section).toMatch(/Caution: where the sun shines and no fluid takes the heat away/);
    const none = { ...answer, result: { ...answer.result, collectors: [] } };
    await store.saveAnswer(id, (await store.read(id))!.fingerprint, none);
    expect((await get()).body).toContain("This answer tells no losses");
  });

  it("draws efficiency against concentration beside a collector whose optics come from its shape", async () => {
    const { get, store, id } = await withStudy();
    expect((await get()).body).not.toContain("How much concentration would suit");
    const { study, files } = (await store.read(id))!;
    const [first, ...others] = study.collectors;
    const optics = shapedTrough;
    const shaped = await store.create({
      study: { ...study, collectors: [{ ...first!, optics }, ...others] },
      files,
    });
    const { app } = await webApp({ store });
    const { body } = await app.inject(`/studies/${shaped}`);
    const folded = /<details><summary>How much concentration would suit.*?<\/figure>/s.exec(body)![0];
    expect(folded).toContain("slope error 2 mrad");
    expect(folded).toContain("slope error 8 mrad");
    expect(folded).toContain("best concentration");
    expect(folded).toMatch(/It has a concentration of 20 .* Drawn for 900 W\/m² of beam/);
  });

  it("uses no id twice", async () => {
    const { get, size } = await withStudy();
    await size();
    const ids = [...(await get()).body.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  });

  it("escapes what a user wrote, in text, in attributes and in charts", async () => {
    const { get, edit } = await withStudy();
    const evil = `"><script>alert(1)</script>'<img src=x onerror=alert(2)>`;
    expect(
      (await edit({ title: evil, "networks/0/name": evil.slice(0, 70), "loads/0/name": evil.slice(0, 70) }))
        .statusCode,
    ).toBe(303);
    const { body } = await get();
    expect(body).not.toContain("<script>alert");
    expect(body).not.toContain("<img src=x");
    expect(body).toContain("&lt;script&gt;alert(1)");
  });

  it("answers 404 in words for a study that is not there", async () => {
    const { app } = await webApp();
    for (const url of ["/studies/none", "/studies/..%2f..%2fetc", "/studies/%00", "/nothing"]) {
      const reply = await app.inject(url);
      expect([400, 404]).toContain(reply.statusCode);
      expect(reply.headers["content-type"]).toContain("text/html");
    }
  });

  it("shows the answer, then greys it once a figure is changed, and not for a change of words", async () => {
    const { get, edit, size } = await withStudy();
    expect((await get()).body).toContain("There is no answer yet");
    await size();
    const fresh = (await get()).body;
    expect(fresh).toMatch(/of Film trough.*would cover up to.*of the heat that/s);
    expect(fresh).not.toContain('class="stale"');
    await edit({ title: "Other words" });
    expect((await get()).body).not.toContain('class="stale"');
    await edit({ "money/years": "12" });
    const stale = (await get()).body;
    expect(stale).toContain('class="stale"');
    expect(stale).toContain("The study was changed since this was found");
    await size();
    expect((await get()).body).not.toContain('class="stale"');
  });

  it("says what the prices say, and does without them where an answer kept earlier has none", async () => {
    const { get, size, store, id } = await withStudy();
    expect((await get()).body).toContain("is told here once the study is sized");
    await size();
    const { body } = await get();
    const section = /<section id="prices".*?<\/section>/s.exec(body)![0];
    for (const { what, sentence } of answer.result.prices!.entries) {
      expect(section).toContain(what);
      expect(section).toContain(sentence);
    }
    expect(section).toContain("What does one more kWh of heat cost, and when?");
    const { prices: _, ...older } = answer.result;
    const { fingerprint } = (await store.read(id))!;
    await store.saveAnswer(id, fingerprint, { ...answer, result: older as SizedStudy["result"] });
    const earlier = await get();
    expect(earlier.statusCode).toBe(200);
    expect(earlier.body).toContain("This answer has no prices");
  });

  it("sets perfect foresight, two-day plan and simple controller side by side, and says how they are run", async () => {
    const { get, size, store, id } = await withStudy();
    expect((await get()).body).toContain("makes of the plant is told here once the study is sized");
    await size();
    const section = (body: string) =>
      /<section id="replay".*?<\/section>/s.exec(body)![0].replace(/[\u00a0\u202f]/g, " ");
    const share = (value: number) => `${(value * 100).toFixed(1)} %`;
    const { simple } = answer.result.replay!;
    const first = (await get()).body;
    expect(section(first)).toContain(share(simple.annual.solarFraction));
    expect(section(first)).toContain(share(answer.result.annual.solarFraction));
    expect(section(first)).toContain("not run");
    expect(section(first)).toContain('<button name="do" value="twoDay">');
    expect(section(first)).toContain("The study gives no least loads, start-up times or dead bands");
    const line = /An ordinary controller[^<]*/.exec(first)![0].replace(/[\u00a0\u202f]/g, " ");
    expect(line).toContain(`reach a solar fraction of ${share(simple.annual.solarFraction)}`);
    expect(line).not.toContain("two days ahead");

    // A two-day plan that leaves heat unmet, wastes some and costs more is told without flattery.
    const { fingerprint } = (await store.read(id))!;
    const twoDay = {
      ...simple,
      annual: { ...simple.annual, solarFraction: 0.1234, unmet_kWh: 4321 },
      annualCost: simple.annualCost + 5000,
      unmetCost: 98_765,
      wasted_kWh: 2222,
    };
    const result = { ...answer.result, replay: { simple, twoDay } };
    await store.saveAnswer(id, fingerprint, { ...answer, result });
    const second = (await get()).body;
    expect(section(second)).toContain("12.3 %");
    expect(section(second)).toContain("leaves 4,320 kWh of heat unmet");
    expect(section(second)).toContain("the program’s price for it is 98,800 XTS");
    expect(section(second)).toContain("make 2,220 kWh that nothing takes");
    expect(section(second)).toContain("costs 5,000 XTS a year more than the simple controller");
    expect(section(second)).not.toContain('value="twoDay"');
    const older = { ...answer.result, replay: null };
    await store.saveAnswer(id, fingerprint, { ...answer, result: older });
    expect(section((await get()).body)).toContain("This answer was not replayed");
  });

  it("tells each rule that the controllers keep, with the thing that has it", async () => {
    const { get, edit, size } = await withStudy();
    const changed = await edit({
      "backups/0/leastLoadShare": "0.3",
      "backups/0/existing_kW": "800",
      "stores/0/contentDeadBand": "0.05",
      "stores/0/leastPower_kW": "40",
    });
    expect(changed.statusCode).toBe(303);
    await size();
    const body = (await get()).body.replace(/[\u00a0\u202f]/g, " ");
    expect(body).toContain("Oil boiler runs at 30.0 % of its power or more, or stands still.");
    expect(body).toContain(
      "Water tank neither charges nor discharges below 40.0 kW and gives heat again only from 5.0 %",
    );
    expect(body).not.toContain("The study gives no least loads");
  });

  it("proves its answer in words, asks for a second opinion, and says where another solver stood in", async () => {
    const { get, size, store, id } = await withStudy();
    await size();
    const proof = (body: string) =>
      /<section id="proof".*?<\/section>/s.exec(body)![0].replace(/[\u00a0\u202f]/g, " ");
    const first = (await get()).body;
    expect(proof(first)).toContain("by code that shares nothing with the solver");
    expect(proof(first)).toContain(
      "No other plant and dispatch of this program can cost less by more than the gap",
    );
    expect(proof(first)).toContain('<button name="do" value="second">');
    expect(first).not.toContain("solved it instead");

    const { fingerprint } = (await store.read(id))!;
    const { proof: was } = answer.result;
    const remark =
      "The interior point engine left a gap of 1.0e-3 on one of the full-year programs; highs solved it instead.";
    const result = {
      ...answer.result,
      findings: [remark],
      proof: {
        ...was,
        method: "full-year" as const,
        solver: "highs",
        objective: 1000,
        secondOpinion: { solver: "interior point", objective: 1012.5, relativeDifference: 0.0125 },
      },
    };
    await store.saveAnswer(id, fingerprint, { ...answer, result });
    const second = (await get()).body;
    expect(proof(second)).toContain("HiGHS solved the full year’s program");
    expect(proof(second)).toContain("the two objectives differ by 12.50 XTS a year");
    expect(proof(second)).toContain("1,012.50 XTS, relative difference 1.3 × 10⁻²");
    expect(proof(second)).not.toContain('value="second"');
    expect(/<section id="answer".*?<\/section>/s.exec(second)![0]).toContain(remark);
    expect(proof(second)).toContain(remark);
  });

  it("never shows NaN, undefined, minus nothing or a bare power of ten as a figure", async () => {
    const { get, size, store, id } = await withStudy();
    await size();
    await store.saveCurve(id, (await store.read(id))!.curveFingerprint, sampleCurve());
    const words = (await get()).body.replace(/<svg[\s\S]*?<\/svg>/g, "").replace(/<[^>]+>/g, " ");
    expect(words).not.toMatch(/\bNaN\b|\bundefined\b|\bnull\b|Infinity|[−-]0(\.0+)?\s|\d(\.\d+)?e[-+]?\d/);
  });
});

describe("a change", () => {
  it("is stored, and leads back to its place", async () => {
    const { edit, store, id } = await withStudy();
    const reply = await edit({ "networks/0/supply_C": "92.5", at: "at-networks-0" });
    expect(reply.statusCode).toBe(303);
    expect(reply.headers.location).toBe(`/studies/${id}#at-networks-0`);
    expect((await store.read(id))!.study.networks[0]!.supply_C).toBe(92.5);
  });

  it("at fault is refused with each fault beside its input and as a link at the top, and nothing is stored", async () => {
    const { edit, store, id } = await withStudy();
    const before = await store.read(id);
    const reply = await edit({
      "networks/0/supply_C": "hot",
      "networks/0/return_C": "-5",
      "networks/0/name": "Kept words",
    });
    expect(reply.statusCode).toBe(422);
    for (const path of ["supply_C", "return_C"]) {
      expect(reply.body).toContain(`<a href="#at-networks-0-${path.replace("_", "-")}">`);
      expect(reply.body).toContain(`id="at-networks-0-${path.replace("_", "-")}-fault"`);
    }
    expect(reply.body).toContain('value="hot"');
    expect(reply.body).toContain('value="Kept words"');
    expect(await store.read(id)).toEqual(before);
  });

  it("that breaks a rule across the study is refused too", async () => {
    const { edit } = await withStudy();
    const reply = await edit({ "networks/0/supply_C": "60" });
    expect(reply.statusCode).toBe(422);
    expect(reply.body).toContain("Nothing was stored");
  });

  it("on a page that is out of date is refused and what was typed is kept", async () => {
    const { app, id, edit, store } = await withStudy();
    const { revision } = (await store.read(id))!;
    await edit({ title: "Changed elsewhere" });
    const late = { revision, "networks/0/supply_C": "87" };
    const reply = await app.inject({ method: "POST", url: `/studies/${id}/edit`, ...form(late) });
    expect(reply.statusCode).toBe(422);
    expect(reply.body).toContain("changed elsewhere");
    expect(reply.body).toContain('value="87"');
    expect((await store.read(id))!.study.networks[0]!.supply_C).toBe(90);
  });

  it("adds and removes items; what is still used stays", async () => {
    const { app, id, store } = await withStudy();
    const post = (path: string, fields: Record<string, string> = {}) =>
      app.inject({ method: "POST", url: `/studies/${id}/items/${path}`, ...form(fields) });
    expect((await post("collectors", { kind: "inflated-film-dish" })).statusCode).toBe(303);
    const added = (await store.read(id))!.study;
    expect(added.collectors).toHaveLength(2);
    expect(added.origins!.length).toBeGreaterThan(5);
    expect((await post("collectors/inflated-film-dish/remove")).statusCode).toBe(303);
    const used = await post("networks/hot-water/remove");
    expect(used.statusCode).toBe(422);
    expect(used.body).toContain("still use it");
    expect((await post("constructor")).statusCode).toBe(404);
  });
});

describe("long work", () => {
  const forever: Services["doWork"] = (_work, { signal, onProgress }) =>
    new Promise((_resolve, reject) => {
      onProgress({ doing: "Counting hours", share: 0.25 });
      signal.addEventListener("abort", () => reject(signal.reason));
    });

  it("shows how far it is, without a script too, and stops", async () => {
    const { app, id, get } = await withStudy({ doWork: forever });
    const start = await app.inject({
      method: "POST",
      url: `/studies/${id}/progress`,
      ...form({ do: "quick" }),
    });
    expect(start.headers.location).toBe(`/studies/${id}/progress`);
    await new Promise((wake) => setTimeout(wake, 50));
    const page = (await get("/progress")).body;
    expect(page).toContain("Counting hours");
    expect(page).toContain('<noscript><meta http-equiv="refresh"');
    expect(page).toContain('value="0.250"');
    expect((await get()).body).toContain("See how far it is, or stop it");
    await app.inject({ method: "POST", url: `/studies/${id}/progress/stop` });
    expect((await get("/progress")).body).toContain("Stopped");
    expect((await get("/progress.json")).json()).toMatchObject({ running: false, job: { state: "stopped" } });
  });

  it("asks the full year of the engine, then the two-day plan, which is put beside the answer", async () => {
    const orders: Work[] = [];
    const twoDay = { ...answer.result.replay!.simple, left_kWh: 77 };
    const doWork: Services["doWork"] = async (work) => {
      orders.push(work);
      return work.kind === "two-day" ? { kind: "two-day", twoDay } : { kind: "sized", sized: answer };
    };
    const { app, id, jobs, store } = await withStudy({ doWork });
    const start = async (fields: Record<string, string>) => {
      await app.inject({ method: "POST", url: `/studies/${id}/progress`, ...form(fields) });
      while (jobs.isRunning(id)) await new Promise((wake) => setTimeout(wake, 5));
      return (await store.readAnswer(id))!.sized.result;
    };
    expect((await start({ do: "full" })).replay).toEqual({ simple: answer.result.replay!.simple, twoDay });
    expect(orders[0]).toMatchObject({ kind: "size", method: "full-year", yearSolver: "interior-point" });
    expect(orders[1]).toMatchObject({ kind: "two-day", result: answer.result });
    expect(jobs.of(id)).toMatchObject({ state: "done", done: 2 });
    orders.length = 0;
    await start({ do: "second" });
    expect(orders[0]).toMatchObject({ kind: "size", method: "full-year", yearSolver: "highs" });
    expect(orders[1]).toMatchObject({ kind: "two-day" });
    orders.length = 0;
    // The plan alone where the answer is fresh; the answer first where the study was changed since.
    await start({ do: "twoDay" });
    expect(orders.map(({ kind }) => kind)).toEqual(["two-day"]);
    orders.length = 0;
    const kept = (await store.read(id))!;
    await store.saveAnswer(id, "of another study", answer);
    await start({ do: "twoDay" });
    expect(orders.map(({ kind }) => kind)).toEqual(["size", "two-day"]);
    expect((await store.readAnswer(id))!.fingerprint).toBe(kept.fingerprint);
  });

  it("that ends with a fault of the program says so without its details", async () => {
    const { app, id, get } = await withStudy({
      doWork: async () => Promise.reject(new Error("secret detail")),
    });
    await app.inject({ method: "POST", url: `/studies/${id}/progress`, ...form({ do: "quick" }) });
    await new Promise((wake) => setTimeout(wake, 50));
    const { body } = await get("/progress");
    expect(body).toContain("fault of this program");
    expect(body).not.toContain("secret detail");
  });

  it("on a study that is not complete names what is missing", async () => {
    const { app, store, jobs } = await webApp();
    const id = await store.create({ ...smallBundle(), files: new Map() });
    jobs.start(id, ["typical-days"]);
    while (jobs.isRunning(id)) await new Promise((wake) => setTimeout(wake, 20));
    expect((await app.inject(`/studies/${id}/progress`)).body).toContain("weather.csv");
  });
});

describe("a demand upload", () => {
  it("shows what was understood, stores nothing until confirmed, then is the load's profile", async () => {
    const { app, id, store } = await withStudy();
    const csv = profileCsv((hour) => (hour % 24 < 8 ? 100 : 300));
    const url = `/studies/${id}/demand/wash`;
    const sent = await app.inject({
      method: "POST",
      url,
      ...upload([{ field: "file", name: "my log.csv", text: csv }]),
    });
    expect(sent.statusCode).toBe(303);
    const preview = await app.inject(sent.headers.location!);
    expect(preview.statusCode).toBe(200);
    // 365 days of 8 × 100 and 16 × 300 kWh are 2 044 000 kWh.
    expect(preview.body).toContain("2,040,000 kWh");
    expect(preview.body).toContain("60 min");
    expect((await store.read(id))!.study.loads[0]).toMatchObject({ heat_kW: { from: "constant" } });
    const confirmed = await app.inject({
      method: "POST",
      url: sent.headers.location!,
      ...form({ do: "confirm" }),
    });
    expect(confirmed.statusCode).toBe(303);
    const kept = (await store.read(id))!;
    expect(kept.study.loads[0]).toMatchObject({ heat_kW: { from: "file", file: "my log.csv" } });
    expect(Buffer.from(kept.files.get("my log.csv")!).toString()).toBe(csv);
  });

  it("that is refused lists every fault with its row and is kept for another try", async () => {
    const { app, id } = await withStudy();
    const rows = profileCsv(() => 100).split("\n");
    rows[10] = rows[10]!.replace(",100", ",lots");
    rows[500] = rows[500]!.replace(",100", ",more");
    const url = `/studies/${id}/demand/wash`;
    const files = [{ field: "file", name: "p.csv", text: rows.join("\n") }];
    const sent = await app.inject({ method: "POST", url, ...upload(files) });
    const page = await app.inject(sent.headers.location!);
    expect(page.statusCode).toBe(422);
    expect(page.body).toContain("11");
    expect(page.body).toContain("501");
    expect(page.body).toContain("kept here meanwhile");
    expect(
      (await app.inject({ method: "POST", url: sent.headers.location!, ...form({ do: "confirm" }) }))
        .statusCode,
    ).toBe(422);
    expect((await app.inject(sent.headers.location!)).statusCode).toBe(422);
  });

  it("with a name like a path keeps only its last part", async () => {
    const { app, id, store } = await withStudy();
    const url = `/studies/${id}/demand/wash`;
    const files = [{ field: "file", name: "../../../tmp/evil.csv", text: profileCsv(() => 100) }];
    const sent = await app.inject({ method: "POST", url, ...upload(files) });
    await app.inject({ method: "POST", url: sent.headers.location!, ...form({ do: "confirm" }) });
    expect([...(await store.read(id))!.files.keys()]).toEqual(["weather.csv", "evil.csv"]);
  });

  it("above 20 MB is refused with 413 in words", async () => {
    const { app, id } = await withStudy();
    const files = [{ field: "file", name: "big.csv", text: Buffer.alloc(20_000_001, 65) }];
    const reply = await app.inject({ method: "POST", url: `/studies/${id}/demand/wash`, ...upload(files) });
    expect(reply.statusCode).toBe(413);
    expect(reply.body).toContain("20 MB");
  });

  it.each([
    ["no file", []],
    ["an empty file", [{ field: "file", name: "e.csv", text: "" }]],
  ])("with %s asks for one", async (_what, files) => {
    const { app, id } = await withStudy();
    const reply = await app.inject({ method: "POST", url: `/studies/${id}/demand/wash`, ...upload(files) });
    expect(reply.statusCode).toBe(422);
  });
});

describe("a weather upload", () => {
  it("is shown, then confirmed", async () => {
    const { app, id, store } = await withStudy();
    const text = Buffer.from(smallBundle().files.get("weather.csv")!);
    const files = [{ field: "file", name: "new.csv", text }];
    const sent = await app.inject({ method: "POST", url: `/studies/${id}/weather`, ...upload(files) });
    const page = await app.inject(sent.headers.location!);
    expect(page.statusCode).toBe(200);
    expect(page.body).toContain("Direct normal irradiation");
    await app.inject({ method: "POST", url: sent.headers.location!, ...form({ do: "confirm" }) });
    expect((await store.read(id))!.study.weather.file).toBe("new.csv");
  });

  it("of another place is refused until its distance is accepted, and the study keeps what was said", async () => {
    const { app, store, id } = await withStudy();
    const head = (latitude_deg: number) =>
      ["# station: Far field", `# latitude_deg: ${latitude_deg}`, "# longitude_deg: -111.98"].concat(
        "# elevation_m: 337",
        "# utcOffset_h: -7",
      );
    const rows = Buffer.from(smallBundle().files.get("weather.csv")!)
      .toString()
      .split("\n")
      .filter((line) => !line.startsWith("#"));
    const text = Buffer.from([...head(35.45), ...rows].join("\n"));
    const files = [{ field: "file", name: "far.csv", text }];
    const sent = await app.inject({ method: "POST", url: `/studies/${id}/weather`, ...upload(files) });
    const at = sent.headers.location as string;
    const refused = await app.inject(at);
    expect(refused.statusCode).toBe(422);
    expect(refused.body).toContain("lies 222 km from the site");
    expect(refused.body).toContain('name="accepted_km"');
    const nonsense = await app.inject(`${at}?accepted_km=far`);
    expect(nonsense.statusCode).toBe(422);
    expect(nonsense.body).toContain(
      "The distance to accept is &#34;far&#34;; a number from 0 to 20040 km is allowed.",
    );
    const accepted = await app.inject(`${at}?accepted_km=250`);
    expect(accepted.statusCode).toBe(200);
    expect(accepted.body).toContain("the weather is used as it stands");
    const confirm = (fields: Record<string, string>) =>
      app.inject({ method: "POST", url: at, ...form({ do: "confirm", ...fields }) });
    expect((await confirm({})).statusCode).toBe(422);
    await confirm({ accepted_km: "250" });
    expect((await store.read(id))!.study.weather).toEqual({ file: "far.csv", distanceAccepted_km: 250 });
  });

  it("that holds global light only is split by the way chosen, which is kept with it", async () => {
    const { app, id, store } = await withStudy();
    const lines = Buffer.from(smallBundle().files.get("weather.csv")!).toString().trimEnd().split("\n");
    const titles = lines.findIndex((line) => line.startsWith("month"));
    const names = lines[titles]!.split(",");
    const kept = names.map((name) => !["dni_W_m2", "dhi_W_m2"].includes(name));
    const text = lines
      .map((line, i) =>
        i < titles
          ? line
          : line
              .split(",")
              .filter((_, place) => kept[place])
              .join(","),
      )
      .join("\n");
    const files = [{ field: "file", name: "global.csv", text }];
    const sent = await app.inject({ method: "POST", url: `/studies/${id}/weather`, ...upload(files) });
    const at = sent.headers.location as string;
    const first = await app.inject(at);
    expect(first.statusCode).toBe(200);
    expect(first.body).toContain("by Erbs");
    expect(first.body).toContain('<select id="diffuse" name="diffuseBy">');
    const other = await app.inject(`${at}?diffuseBy=persistence`);
    expect(other.body).toContain("by Ridley, Boland and Lauret");
    expect(other.body).toContain('<input type="hidden" name="diffuseBy" value="persistence">');
    await app.inject({ method: "POST", url: at, ...form({ do: "confirm", diffuseBy: "persistence" }) });
    const study = (await store.read(id))!;
    expect(study.study.weather).toEqual({ file: "global.csv", diffuseBy: "persistence" });

    // What the user chose decides the hours of the study, and a change of it makes them anew.
    const cache = new ResolvedCache(resolveStudy);
    const byPersistence = cache.of(study);
    const changed = { ...study.study, weather: { file: "global.csv", diffuseBy: "erbs" as const } };
    expect((await store.save(id, study.revision, changed)).saved).toBe(true);
    const byErbs = cache.of((await store.read(id))!);
    if (!byErbs.ok || !byPersistence.ok) throw new Error("both ways must be read");
    expect(sum(byErbs.value.weather.dni_W_m2)).not.toBe(sum(byPersistence.value.weather.dni_W_m2));

    // A file with its own beam needs no choice, and the one made for another file goes.
    const whole = [{ field: "file", name: "whole.csv", text: lines.join("\n") }];
    const second = await app.inject({ method: "POST", url: `/studies/${id}/weather`, ...upload(whole) });
    expect((await app.inject(second.headers.location as string)).body).not.toContain("diffuseBy");
    await app.inject({
      method: "POST",
      url: second.headers.location as string,
      ...form({ do: "confirm", diffuseBy: "erbs" }),
    });
    expect((await store.read(id))!.study.weather).toEqual({ file: "whole.csv" });
  });

  it("that is no weather is refused with its faults", async () => {
    const { app, id } = await withStudy();
    const files = [{ field: "file", name: "x.csv", text: "a,b\n1,2\n" }];
    const sent = await app.inject({ method: "POST", url: `/studies/${id}/weather`, ...upload(files) });
    expect((await app.inject(sent.headers.location!)).statusCode).toBe(422);
  });
});

describe("what the study says of its weather file", () => {
  it("is edited in the form beside it, set and taken away, and refused with a sentence", async () => {
    const { get, edit, store, id } = await withStudy();
    const { body } = await get();
    const section = /<section id="sun".*?<\/section>/s.exec(body)![0];
    for (const key of ["file", "year", "distanceAccepted_km", "diffuseBy"])
      expect(section).toContain(`name="weather/${key}"`);
    const said = async () => (await store.read(id))!.study.weather;
    const set = { "weather/distanceAccepted_km": "150", "weather/diffuseBy": "persistence" };
    expect((await edit(set)).statusCode).toBe(303);
    expect(await said()).toEqual({ file: "weather.csv", distanceAccepted_km: 150, diffuseBy: "persistence" });
    // The file holds its own beam, and the page says that the choice is idle.
    expect((await get()).body).toContain("The study says how to split global radiation, and the file holds");
    const refused = await edit({ "weather/year": "1066" });
    expect(refused.statusCode).toBe(422);
    expect(refused.body).toContain("1066");
    expect((await edit({ "weather/distanceAccepted_km": "", "weather/diffuseBy": "" })).statusCode).toBe(303);
    expect(await said()).toEqual({ file: "weather.csv" });
  });
});

describe("the data sheet of the weather", () => {
  it("shows tables, carpets, duration curves and the storms of each collector", async () => {
    const { get, store, id } = await withStudy();
    const page = await get("/weather/sheet");
    expect(page.statusCode).toBe(200);
    expect(page.body).toContain("Radiation month by month");
    expect(page.body).toContain("Storms by the limits of each collector");
    for (const { name } of (await store.read(id))!.study.collectors) expect(page.body).toContain(name);
    expect(page.body.match(/class="chart chart-wide"/g)).toHaveLength(8);
    expect((await get()).body).toContain(`href="/studies/${id}/weather/sheet"`);
  });

  it("says why it cannot be shown where the study cannot be read", async () => {
    const { edit, get } = await withStudy();
    await edit({ "site/longitude_deg": "-50" });
    const page = await get("/weather/sheet");
    expect(page.statusCode).toBe(409);
    expect(page.body).toContain("cannot be shown before the study can be read");
  });
});

describe("downloads", () => {
  it("give what was put in and what was found", async () => {
    const { get, size, id, store } = await withStudy();
    expect((await get("/study.json")).json()).toEqual(smallBundle().study);
    expect(
      (await get("/files/0")).rawPayload.equals(Buffer.from(smallBundle().files.get("weather.csv")!)),
    ).toBe(true);
    for (const path of ["/result.json", "/hours.csv", "/summary.html", "/curve.json", "/files/7"]) {
      expect((await get(path)).statusCode).toBe(404);
    }
    await size();
    await store.saveCurve(id, (await store.read(id))!.curveFingerprint, sampleCurve());
    expect((await get("/result.json")).json()).toEqual((await store.readAnswer(id))!.sized.result);
    expect((await get("/hours.csv")).body.trim().split("\n")).toHaveLength(8761);
    expect((await get("/curve.json")).json().lines.length).toBeGreaterThan(1);
    expect((await get("/curve.csv")).body).toContain("optimum,");
    const program = (await get("/program.mps")).body;
    expect(program).toMatch(/^(\*.*\n)*NAME /);
    expect(program.trimEnd().endsWith("ENDATA")).toBe(true);
    const summary = await get("/summary.html");
    expect(summary.headers["content-security-policy"]).toContain("default-src 'none'");
    const scripts = summary.body.match(/<script[^>]*>/g) ?? [];
    // Data of the study are kept in script elements of a type that no browser runs.
    expect(scripts.filter((tag) => !/type="application\/[a-z0-9.+;-]+"/.test(tag))).toEqual([]);
    expect((await get("/summary.html?download")).headers["content-disposition"]).toContain("attachment");
  });
});

describe("requests from elsewhere", () => {
  it.each([
    [{ origin: "https://elsewhere.example" }, 403],
    [{ "sec-fetch-site": "cross-site" }, 403],
    [{ "sec-fetch-site": "same-site" }, 403],
    [{ origin: "null" }, 403],
    [{ host: "evil.example" }, 421],
    [{ host: "localhost", origin: "http://localhost", "sec-fetch-site": "same-origin" }, 303],
  ])("with %j are answered with %i", async (headers, code) => {
    const { app } = await webApp();
    const sent = form({ begin: "empty" });
    const reply = await app.inject({
      method: "POST",
      url: "/studies",
      payload: sent.payload,
      headers: { ...sent.headers, ...headers },
    });
    expect(reply.statusCode).toBe(code);
  });

  it("past the limit of a minute are told to wait", async () => {
    const { app } = await webApp({}, { requestsPerMinute: 3 });
    const codes = [];
    for (let n = 0; n < 4; n += 1) codes.push((await app.inject("/")).statusCode);
    expect(codes).toEqual([200, 200, 200, 429]);
  });

  it("get no stack trace when the program is at fault", async () => {
    const { get } = await withStudy({
      resolveStudy: () => {
        throw new Error("secret detail at /home/x");
      },
    });
    const reply = await get();
    expect(reply.statusCode).toBe(500);
    expect(reply.body).toContain("Something went wrong inside the program");
    expect(reply.body).not.toContain("secret");
  });
});
