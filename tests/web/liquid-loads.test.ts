import { describe, expect, it } from "vitest";
import { resolveStudy } from "../../src/app/resolve-study.ts";
import {
  embeddedStudyId,
  embeddedStudyType,
  embedStudy,
  extractStudy,
} from "../../src/formats/summary-study.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { form, profileCsv, upload, webApp } from "../support/web-app.ts";

describe("loads of hot water and thermal oil on the page of a study", () => {
  it("are added with starting values that can be sized, and saved as they are shown", async () => {
    const { app, store } = await webApp();
    const id = await store.create(smallBundle());
    for (const kind of ["hot-water", "thermal-oil", "steam"]) {
      const url = `/studies/${id}/items/loads`;
      const added = await app.inject({ method: "POST", url, ...form({ kind }) });
      expect(added.statusCode).toBe(303);
    }
    const kept = (await store.read(id))!;
    // The small study has a network whose id is hot-water.
    expect(kept.study.loads.map(({ id: own }) => own)).toEqual([
      "wash",
      "hot-water-2",
      "thermal-oil",
      "steam",
    ]);
    expect(resolveStudy({ study: kept.study, files: kept.files }).ok).toBe(true);
    const page = (await app.inject({ url: `/studies/${id}` })).body;
    expect(page).toContain("made from cold water of");
    const edited = await app.inject({
      method: "POST",
      url: `/studies/${id}/edit`,
      ...form({
        revision: kept.revision,
        at: "at-loads-1",
        "loads/1/use_C": "95",
        "loads/1/coldWater_C": "12",
      }),
    });
    // 95 °C from a network of 90 °C.
    expect(edited.statusCode).toBe(422);
    expect(edited.body).toContain("The load needs 95.0 °C and its network hot-water supplies 90.0 °C.");
    await app.close();
  });

  it("take an uploaded draw in m³/h, and keep it through the summary's study", async () => {
    const bundle = smallBundle();
    const csv = profileCsv((hour) => (hour % 24 === 7 ? 6 : 0)).replace("heat [kW]", "draw [m3/h]");
    const load = {
      kind: "hot-water" as const,
      id: "wash",
      name: "Washing",
      network: "hot-water",
      draw_m3_h: { from: "file" as const, file: "draw.csv" },
      use_C: 60,
      coldWater_C: 20,
      tank_m3: 8,
      heater_kW: 60,
    };
    const own = {
      study: { ...bundle.study, loads: [load] },
      files: new Map([...bundle.files, ["draw.csv", new TextEncoder().encode(csv)]]),
    };
    const resolved = resolveStudy(own);
    if (!resolved.ok) throw new Error(JSON.stringify(resolved.problems));
    const [order] = resolved.value.loads;
    if (order?.kind !== "water") throw new Error("hot water is an order of water");
    const most = order.order_m3_h.reduce((high, value) => Math.max(high, value), 0);
    expect(most).toBeCloseTo(6, 9);
    const html = `<html><script type="${embeddedStudyType}" id="${embeddedStudyId}">${embedStudy(own, resolved.value)}</script></html>`;
    const again = extractStudy(html);
    if (!again.ok) throw new Error(JSON.stringify(again.problems));
    const second = resolveStudy(again.value);
    if (!second.ok) throw new Error(JSON.stringify(second.problems));
    const [same] = second.value.loads;
    expect(same?.kind === "water" ? same.order_m3_h : null).toEqual(order.order_m3_h);

    const { app, store } = await webApp();
    const id = await store.create({
      ...own,
      study: { ...own.study, loads: [{ ...load, draw_m3_h: { from: "constant", level: 1 } }] },
    });
    const sent = await app.inject({
      method: "POST",
      url: `/studies/${id}/demand/wash`,
      ...upload([{ field: "file", name: "draw.csv", text: csv }]),
    });
    expect(sent.statusCode).toBe(303);
    const understood = await app.inject({ url: String(sent.headers.location) });
    expect(understood.statusCode).toBe(200);
    expect(understood.body).toContain("m3/h");
    await app.close();
  });
});
