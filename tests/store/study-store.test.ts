import { mkdir, mkdtemp, readdir, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { SizedStudy, StudyBundle } from "../../src/app/types.ts";
import type { HourlyResult } from "../../src/core/dispatch/hourly-result.ts";
import { StudyStore } from "../../src/store/study-store.ts";
import { smallStudy } from "../support/small-study.ts";

const bytes = (text: string) => new TextEncoder().encode(text);

async function emptyStore() {
  const root = await mkdtemp(join(tmpdir(), "noonkeep-store-"));
  return { root, store: new StudyStore({ root }) };
}

function bundle(files: Record<string, string> = { "weather.csv": "a" }): StudyBundle {
  return { study: smallStudy(), files: new Map(Object.entries(files).map(([k, v]) => [k, bytes(v)])) };
}

function sized(title: string): SizedStudy {
  const hours = {
    networks: [{ id: "n", demand_kW: Float64Array.from({ length: 8760 }, (_, i) => Math.sin(i) / 3) }],
    cold: [],
    water: [],
    batches: [],
    electricity_kW: new Float64Array(8760).fill(Number.NaN),
    electricityPrice_per_kWh: new Float64Array(8760).fill(-0.25),
  } as unknown as HourlyResult;
  return { result: { study: { title } } as unknown as SizedStudy["result"], hours };
}

describe("StudyStore", () => {
  it("gives back the study and the very bytes of its files", async () => {
    const { store } = await emptyStore();
    const id = await store.create(bundle({ "weather.csv": "temp;\u00e9", "a/b.csv": "two" }));
    const kept = await store.read(id);
    expect(kept?.study).toEqual(smallStudy());
    expect([...kept!.files].map(([name, file]) => [name, Buffer.from(file).toString("utf8")])).toEqual([
      ["weather.csv", "temp;\u00e9"],
      ["a/b.csv", "two"],
    ]);
  });

  it("makes an id from the title that is safe as a folder name", async () => {
    const { store } = await emptyStore();
    const id = await store.create({
      study: { ...smallStudy(), title: "../../etc/Pässwörd <b>" },
      files: new Map(),
    });
    expect(id).toMatch(/^etc-passworde?-b-[0-9a-f]{6}$|^etc-pa-sswo-rd-b-[0-9a-f]{6}$/);
  });

  it("keeps a file named like a path inside its own folder, under its content's hash", async () => {
    const { root, store } = await emptyStore();
    const id = await store.create(bundle({ "../../outside.csv": "x", "weather.csv": "x" }));
    // SHA-256 of "x", from coreutils sha256sum.
    const hash = "2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881";
    expect(await readdir(join(root, id, "files"))).toEqual([hash]);
    expect(await readdir(join(root, ".."))).not.toContain("outside.csv");
    expect((await store.read(id))!.files.has("../../outside.csv")).toBe(true);
  });

  it("refuses ids that are paths", async () => {
    const { store } = await emptyStore();
    for (const id of ["..", "../x", "a/b", "", ".", "A", "x".repeat(200)])
      expect(await store.read(id)).toBeNull();
    expect(() => store.pending("../x")).toThrow(RangeError);
  });

  it("stores a change only on the revision that was read, and keeps the earlier study", async () => {
    const { root, store } = await emptyStore();
    const id = await store.create(bundle());
    const before = (await store.read(id))!;
    const saved = await store.save(id, before.revision, { ...before.study, title: "Second" });
    expect(saved.saved).toBe(true);
    expect(await store.save(id, before.revision, { ...before.study, title: "Third" })).toEqual({
      saved: false,
    });
    expect((await store.read(id))!.study.title).toBe("Second");
    const [revision] = await readdir(join(root, id, "revisions"));
    expect(JSON.parse(await readFile(join(root, id, "revisions", revision!), "utf8")).title).toBe(
      "Small study",
    );
  });

  it("lets exactly one of many writers on the same revision through", async () => {
    const { store } = await emptyStore();
    const id = await store.create(bundle());
    const { revision, study } = (await store.read(id))!;
    const outcomes = await Promise.all(
      Array.from({ length: 8 }, (_, n) => store.save(id, revision, { ...study, title: `Writer ${n}` })),
    );
    expect(outcomes.filter(({ saved }) => saved)).toHaveLength(1);
  });

  it("changes the fingerprint with a figure or a file, not with words", async () => {
    const { store } = await emptyStore();
    const id = await store.create(bundle());
    const first = (await store.read(id))!;
    await store.save(id, first.revision, { ...first.study, title: "Other words", note: "Said otherwise" });
    const words = (await store.read(id))!;
    expect(words.fingerprint).toBe(first.fingerprint);
    await store.save(id, words.revision, words.study, new Map([["weather.csv", bytes("b")]]));
    const file = (await store.read(id))!;
    expect(file.fingerprint).not.toBe(first.fingerprint);
    const money = { ...file.study.money, years: 21 };
    await store.save(id, file.revision, { ...file.study, money });
    expect((await store.read(id))!.fingerprint).not.toBe(file.fingerprint);
  });

  it("gives back an answer bit for bit, NaN and negative hours too, and replaces it whole", async () => {
    const { root, store } = await emptyStore();
    const id = await store.create(bundle());
    expect(await store.readAnswer(id)).toBeNull();
    await store.saveAnswer(id, "f".repeat(64), sized("one"));
    await new Promise((wake) => setTimeout(wake, 3));
    await store.saveAnswer(id, "e".repeat(64), sized("two"));
    const answer = (await store.readAnswer(id))!;
    expect(answer.fingerprint).toBe("e".repeat(64));
    expect(answer.sized.hours).toEqual(sized("two").hours);
    expect((await readdir(join(root, id))).filter((name) => name.startsWith("answer-"))).toHaveLength(1);
  });

  it("keeps the earlier answer where a later one broke off half written", async () => {
    const { root, store } = await emptyStore();
    const id = await store.create(bundle());
    await store.saveAnswer(id, "f".repeat(64), sized("whole"));
    await mkdir(join(root, id, "answer-zzz-eeeeeeee"));
    await writeFile(join(root, id, "answer-zzz-eeeeeeee", "result.json"), "{ broken");
    expect((await store.readAnswer(id))!.sized.result.study.title).toBe("whole");
  });

  it("keeps an upload until it is dropped, for its own study only", async () => {
    const { store } = await emptyStore();
    const id = await store.create(bundle());
    const other = await store.create(bundle());
    const token = await store
      .pending(id)
      .keep({ purpose: "demand", target: "wash", fileName: "../p.csv", bytes: bytes("1,2") });
    expect(Buffer.from((await store.pending(id).read(token))!.bytes).toString()).toBe("1,2");
    expect(await store.pending(other).read(token)).toBeNull();
    expect(await store.pending(id).read("../../study")).toBeNull();
    await store.pending(id).drop(token);
    expect(await store.pending(id).read(token)).toBeNull();
  });

  it("lists the last changed first and forgets a removed one", async () => {
    const root = await mkdtemp(join(tmpdir(), "noonkeep-store-"));
    let day = 1;
    const store = new StudyStore({ root, now: () => new Date(Date.UTC(2026, 0, day++)) });
    const a = await store.create({ ...bundle(), study: { ...smallStudy(), title: "A" } });
    const b = await store.create({ ...bundle(), study: { ...smallStudy(), title: "B" } });
    expect((await store.list()).map(({ title }) => title)).toEqual(["B", "A"]);
    await store.remove(b);
    expect((await store.list()).map(({ id }) => id)).toEqual([a]);
  });
});
