import { describe, expect, it } from "vitest";
import type { Study } from "../../src/core/study/schema/study.ts";
import { fourStreams } from "../core/pinch/made-up-streams.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { form, webApp } from "../support/web-app.ts";

async function kept(change: (study: Study) => Study = (study) => study) {
  const parts = await webApp();
  const bundle = smallBundle();
  const id = await parts.store.create({ ...bundle, study: change(bundle.study) });
  const read = async () => (await parts.store.read(id))!;
  const post = async (url: string, fields: Readonly<Record<string, string>>) =>
    parts.app.inject({ method: "POST", url: `/studies/${id}/${url}`, ...form(fields) });
  const save = async (fields: Readonly<Record<string, string>>) =>
    post("edit", { revision: (await read()).revision, at: "at-streams", ...fields });
  return { ...parts, id, read, save, post };
}

const withStreams = (study: Study): Study => ({ ...study, streams: [...fourStreams] });

describe("process streams on the page of a study", () => {
  it("are added one row at a time, and leave the study's answer as it is", async () => {
    const { app, id, read, save } = await kept();
    const before = await read();
    const saved = await save({
      "streams/0/id": "wort",
      "streams/0/name": "Wort",
      "streams/0/in_C": "20",
      "streams/0/out_C": "100",
      "streams/0/heatCapacityFlow_kW_K": "3",
      "pinch/leastApproach_K": "8",
    });
    expect(saved.statusCode).toBe(303);
    const { study, fingerprint } = await read();
    expect(study.streams).toEqual([
      { id: "wort", name: "Wort", in_C: 20, out_C: 100, heatCapacityFlow_kW_K: 3 },
    ]);
    expect(study.pinch).toEqual({ leastApproach_K: 8 });
    expect(fingerprint).toBe(before.fingerprint);
    const page = (await app.inject({ url: `/studies/${id}` })).body;
    expect(page).toContain("No cooling is needed (a threshold problem)");
    await app.close();
  });

  it("are refused with a sentence at their place, all at once", async () => {
    const { app, read, save } = await kept();
    const refused = await save({
      "streams/0/id": "boil",
      "streams/0/name": "Boiling",
      "streams/0/in_C": "100",
      "streams/0/out_C": "100",
      "streams/1/id": "boil",
      "streams/1/name": "Other",
      "streams/1/in_C": "20",
      "streams/1/out_C": "60",
      "streams/1/heat_kW": "50",
      "streams/1/does": "gives-heat",
    });
    expect(refused.statusCode).toBe(422);
    for (const words of [
      "so its heat in kW is needed",
      "say whether it gives heat (condensing) or takes it (boiling)",
      "is already that of streams/0",
      "so it takes heat",
    ])
      expect(refused.body).toContain(words);
    expect((await read()).study.streams).toBeUndefined();
    await app.close();
  });

  it("tell the published targets of the four-stream example, with both curves", async () => {
    const { app, id } = await kept(withStreams);
    const page = (await app.inject({ url: `/studies/${id}` })).body.replaceAll("\u202f", " ");
    expect(page).toContain("450 kW of 470 kW could be recovered from your own hot streams");
    expect(page).toContain("least heating is 20.0 kW and the least cooling 60.0 kW");
    expect(page).toContain("90.0 °C for hot and 80.0 °C for cold streams");
    expect(page).toContain("How much heat could the factory’s streams give each other?");
    expect(page).toContain("At which temperature is outside heat wanted?");
    await app.close();
  });

  it("become loads that are marked as assumed, once, however often they are taken", async () => {
    const { app, read, post } = await kept((study) => ({
      ...withStreams(study),
      networks: study.networks.map((network) => ({ ...network, supply_C: 160, return_C: 150 })),
    }));
    const before = await read();
    expect((await post("streams/loads", { like: "" })).statusCode).toBe(303);
    expect((await post("streams/loads", { like: "" })).statusCode).toBe(303);
    const { study } = await read();
    const added = study.loads.filter(({ id }) => id.startsWith("streams-"));
    expect(study.loads).toHaveLength(before.study.loads.length + 1);
    expect(added).toMatchObject([{ kind: "process-heat", heat_kW: { from: "constant", level: 20 } }]);
    expect(study.origins?.filter(({ path }) => path === `loads/${added[0]!.id}`)).toMatchObject([
      { status: "assumption", source: expect.stringContaining("Pinch target") },
    ]);
    await app.close();
  });
});
