import { describe, expect, it } from "vitest";
import { mountWords } from "../../../src/app/summary/mount-words.ts";
import { absorbedYear } from "../../../src/core/collector/absorbed-year.ts";
import { collectorFaults } from "../../../src/core/collector/collector-faults.ts";
import type { Collector, Mount } from "../../../src/core/study/schema/study.ts";
import { expectClose } from "../../support/close.ts";
import { desert, desertSun, madeWeather, ofRecord, perfect } from "./support.ts";

const climate = { latitude_deg: desert.latitude_deg, sun: desertSun, weather: madeWeather() };
const axis = (more: object = {}): Mount => ({
  type: "one-axis",
  azimuth_deg: 180,
  axisTilt_deg: 0,
  backtracking: false,
  ...more,
});
const codes = (collector: Collector) =>
  collectorFaults(collector, "collectors/0").map(({ code, place }) => [code, place.path]);

describe("a collector on a mount with limits", () => {
  it("loses the focus of a concentrator at its limit, and tells it as light that passes the aperture", () => {
    const free = absorbedYear(perfect(axis()), climate, 1);
    const held = absorbedYear(perfect(axis({ mostTurn_deg: 60 })), climate, 1);
    // A flat plate keeps the cosine in those hours (its diffuse light left aside).
    const plate = absorbedYear({ ...perfect(axis({ mostTurn_deg: 60 })), diffuseModifier: 1e-9 }, climate, 1);
    expect(held.absorbed_kWh_per_m2).toBeLessThan(plate.absorbed_kWh_per_m2 - 100);
    expect(plate.absorbed_kWh_per_m2).toBeLessThan(free.absorbed_kWh_per_m2 - 10);
    const lost = Object.values(held.losses).reduce((all, part) => all + part, 0);
    expectClose(held.absorbed_kWh_per_m2 + lost, held.dni_kWh_per_m2, 1e-9);
    expectClose(held.losses.cosine, held.dni_kWh_per_m2 - held.absorbed_kWh_per_m2, 1e-9);
  });

  it("keeps the focus of a line on a vertical axis, not that of a point", () => {
    const mount: Mount = { type: "vertical-axis-tilting", leastTilt_deg: 40, mostTilt_deg: 40 };
    const modified = { ...perfect(mount), endLoss: { focalLength_m: 1e-9, rowLength_m: 1 } };
    const line = absorbedYear(modified, climate, 1);
    const raft = absorbedYear(perfect({ type: "vertical-axis", tilt_deg: 40 }), climate, 1);
    expectClose(line.absorbed_kWh_per_m2, raft.absorbed_kWh_per_m2, 1e-6);
    expect(absorbedYear(perfect(mount), climate, 1).absorbed_kWh_per_m2).toBe(0);
  });

  it("gives a tilted row the end loss of the angle along its own axis", () => {
    const ends = { endLoss: { focalLength_m: 1, rowLength_m: 10 } };
    const polar = axis({ axisTilt_deg: desert.latitude_deg, mostTurn_deg: 180 });
    const { losses } = absorbedYear({ ...perfect(polar), ...ends }, climate, 1);
    // On an axis parallel to the earth's θL = |δ|: cos δ · (f/L) · tan |δ| of the beam.
    const expected = climate.weather.dni_W_m2.reduce(
      (all, dni, hour) =>
        all + (dni * 0.1 * Math.abs(Math.sin((desertSun.declination_deg[hour]! * Math.PI) / 180))) / 1000,
      0,
    );
    expectClose(losses.endLoss, expected, 1e-4);
  });
});

describe("faults of a mount", () => {
  it("names a range the wrong way round", () => {
    const wrong: Mount = { type: "vertical-axis-tilting", leastTilt_deg: 50, mostTilt_deg: 40 };
    const tilt = ["COLLECTOR_TILT_RANGE", "collectors/0/mount/leastTilt_deg"];
    expect(codes(perfect(wrong))).toEqual([tilt]);
    expect(codes(perfect({ ...wrong, mostTilt_deg: 50 }))).toEqual([]);
  });

  it("names round apertures that would overlap, where they shade each other", () => {
    const cover = ["COLLECTOR_ROUND_COVER", "collectors/0/groundCover"];
    expect(codes(ofRecord("inflated-film-dish", { groundCover: 0.79 }))).toEqual([cover]);
    expect(codes(ofRecord("inflated-film-dish", { groundCover: 0.785 }))).toEqual([]);
    expect(codes(ofRecord("inflated-film-dish", { groundCover: 0.79, rowShading: false }))).toEqual([]);
  });

  it("names backtracking of a concentrator", () => {
    const back = ["COLLECTOR_BACKTRACKING", "collectors/0/mount/backtracking"];
    const mount = axis({ backtracking: true });
    expect(codes(ofRecord("inflated-film-trough", { mount }))).toEqual([back]);
    expect(codes(ofRecord("flat-plate", { mount }))).toEqual([]);
    expect(codes(ofRecord("inflated-film-trough", { mount: axis() }))).toEqual([]);
  });

  it("wants a mount that keeps the focus of a shape", () => {
    const optics = {
      by: "shape" as const,
      shape: "dish" as const,
      concentration: 500,
      rimAngle_deg: 45,
      filmTransmittance: 0.92,
      filmPasses: 2 as const,
      reflectance: 0.88,
      absorptance: 0.92,
      slopeError_mrad: 3,
      specularity_mrad: 1,
      trackingError_mrad: 2,
      sunShape: "disc" as const,
      receiverShadow: 0,
    };
    const on = (mount: Mount, shape: "dish" | "trough") =>
      codes(
        ofRecord("inflated-film-dish", {
          mount,
          optics: { ...optics, shape, concentration: shape === "dish" ? 500 : 20 },
        }),
      );
    const fault = [["COLLECTOR_SHAPE_MOUNT", "collectors/0/mount/type"]];
    const raft: Mount = { type: "vertical-axis-tilting", leastTilt_deg: 10, mostTilt_deg: 80 };
    const monthly: Mount = { type: "monthly-tilt", tilts_deg: Array(12).fill(30), azimuth_deg: 180 };
    expect(on(raft, "dish")).toEqual([]);
    expect(on(axis(), "dish")).toEqual(fault);
    expect(on(axis(), "trough")).toEqual([]);
    expect(on(monthly, "trough")).toEqual(fault);
  });
});

describe("mountWords(mount)", () => {
  it.each<[Mount, string]>([
    [axis({ azimuth_deg: 210 }), "turning on a horizontal axis along 30° from north"],
    [
      axis({ axisTilt_deg: 20, mostTurn_deg: 55, backtracking: true }),
      "turning on an axis that falls 20° toward 180° from north, at most 55° to either side, turning back where rows would shade each other",
    ],
    [
      { type: "monthly-tilt", tilts_deg: [60, 50, 40, 30, 20, 10, 15, 25, 35, 45, 55, 65], azimuth_deg: 180 },
      "tilted 10° to 65°, set anew by the month",
    ],
    [
      { type: "vertical-axis-tilting", leastTilt_deg: 20, mostTilt_deg: 80 },
      "turning on a vertical axis and tilting from 20° to 80°",
    ],
    [
      { type: "two-axes", leastElevation_deg: 10 },
      "following the sun on two axes, down to 10° above the horizon",
    ],
  ])("says how it moves", (mount, words) => expect(mountWords(mount)).toBe(words));
});
