import { describe, expect, it } from "vitest";
import { startingCalendar } from "../../src/web/forms/starting-calendar.ts";
import { smallBundle } from "../support/small-bundle.ts";
import { form, upload, webApp } from "../support/web-app.ts";

/** Eight weeks of 2025 of two shifts whose logger was two hours fast. */
function log(): string {
  const rows = Array.from({ length: 56 * 24 }, (_, k) => {
    const time = new Date(Date.UTC(2025, 2, 3, k));
    const works = new Date(time.getTime() - 2 * 3_600_000);
    const drawn = works.getUTCDay() % 6 !== 0 && works.getUTCHours() >= 6 && works.getUTCHours() < 22;
    return `${time.toISOString().slice(0, 16)},${drawn ? 400 : 60}`;
  });
  return ["time,heat [kW]", ...rows].join("\n");
}

describe("a log of part of a year on the upload page", () => {
  it("is shown with its question and its fit, and stored with what was answered", async () => {
    const { app, store } = await webApp();
    const bundle = smallBundle();
    const calendars = [startingCalendar("days", "two-shifts")!];
    const id = await store.create({ ...bundle, study: { ...bundle.study, calendars } });
    const load = bundle.study.loads[0]!;
    const sent = await app.inject({
      method: "POST",
      url: `/studies/${id}/demand/${load.id}`,
      ...upload([{ field: "file", name: "log.csv", text: log() }]),
    });
    const at = sent.headers.location!;
    const bare = await app.inject({ method: "GET", url: at });
    expect(bare.statusCode).toBe(422);
    expect(bare.body).toContain("let a calendar extend the log");
    expect(bare.body).toContain("Should follow the calendar");

    const plan = { calendar: "days", extend: "yes", clock: "standard", stamp: "start" };
    const asked = await app.inject({ method: "POST", url: at, ...form({ ...plan, do: "look" }) });
    expect(asked.statusCode).toBe(200);
    expect(asked.body).toContain("move all times by −2 h");
    expect(asked.body).toContain("How the log was extended");
    expect(asked.body).toContain("Each logged week, foretold by a fit to the others");

    const told = { ...plan, clockOffset_h: "-2", do: "confirm" };
    expect((await app.inject({ method: "POST", url: at, ...form(told) })).statusCode).toBe(303);
    const { study } = (await store.read(id))!;
    expect(study.loads[0]).toMatchObject({
      heat_kW: { from: "file", reading: { calendar: "days", extend: true, clockOffset_h: -2 } },
    });
    const page = await app.inject({ method: "GET", url: `/studies/${id}` });
    expect(page.body).toContain("hours were not logged and go by the calendar");
  });
});
