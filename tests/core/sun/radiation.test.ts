import { describe, expect, it } from "vitest";
import { hourIndex } from "../../../src/core/calendar.ts";
import { sum } from "../../../src/core/series.ts";
import {
  extraterrestrialDay_J_m2,
  extraterrestrialHorizontal_W_m2,
  extraterrestrialNormal_W_m2,
  extraterrestrialSpan_J_m2,
  sunsetHourAngle_deg,
} from "../../../src/core/sun/extraterrestrial.ts";
import {
  airMass,
  clearBeam_W_m2,
  erbsDiffuseShare,
  hourlyGlobalShare,
  isotropicPlane,
  rayleighThickness,
} from "../../../src/core/sun/radiation.ts";
import { sunYear } from "../../../src/core/sun/sun-year.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";

describe("irradiance above the air", () => {
  // D&B eq. 1.4.1a with 1367 W/m² (from memory).
  it("follows the seasons", () => {
    expectPrinted(extraterrestrialNormal_W_m2(3), "1412");
    expectPrinted(extraterrestrialNormal_W_m2(185), "1322");
  });

  // D&B examples 1.10.1 and 1.10.2: lat 43, 15 April (n 105, declination 9.4); answers from memory.
  it("gives the printed H0 and I0", () => {
    const normal = extraterrestrialNormal_W_m2(105);
    expectPrinted(sunsetHourAngle_deg(43, 9.4), "98.88");
    expectPrinted(extraterrestrialDay_J_m2(normal, 43, 9.4) / 1e6, "33.8");
    expectPrinted(extraterrestrialSpan_J_m2(normal, 43, 9.4, -30, -15) / 1e6, "3.79");
  });

  // D&B example 2.20.1: Madison, January (n 17, declination -20.9), 13.4 MJ/m².
  it("gives the printed H0 of January", () => {
    expectPrinted(extraterrestrialDay_J_m2(extraterrestrialNormal_W_m2(17), 43, -20.9) / 1e6, "13.4");
  });

  it("adds up hour by hour to the handbook's day", () => {
    const sun = sunYear({
      latitude_deg: 43,
      longitude_deg: -89.4,
      elevation_m: 270,
      utcOffset_h: -6,
      calendarYear: 2026,
    });
    const hourly = extraterrestrialHorizontal_W_m2(sun, 43);
    // Half an hour off noon moves the declination (1.5e-4), and the true solar day is not 24 h (1.7e-4).
    const noon = hourIndex(4, 15, 12);
    const start = hourIndex(4, 15, 0);
    const whole = extraterrestrialDay_J_m2(
      sun.extraterrestrialNormal_W_m2[noon]!,
      43,
      sun.declination_deg[noon]!,
    );
    expectClose(sum(hourly.slice(start, start + 24)) * 3600, whole, 5e-4);
  });

  it("gives nothing in polar night and all day in polar day", () => {
    expect(extraterrestrialDay_J_m2(1400, 75, -23)).toBe(0);
    expect(sunsetHourAngle_deg(75, 23)).toBe(180);
  });
});

describe("airMass(zenith)", () => {
  // Kasten & Young 1989 (from memory).
  it.each([
    [60, "1.994"],
    [80, "5.59"],
    [85, "10.3"],
    [90, "37.9"],
  ])("at %d degrees", (zenith, printed) => expectPrinted(airMass(zenith), printed));
});

describe("erbsDiffuseShare(clearness)", () => {
  // Values of the printed coefficients (D&B eq. 2.10.1).
  it.each([
    [0.1, "0.9910"],
    [0.22, "0.9802"],
    [0.3, "0.9486"],
    [0.4, "0.8400"],
    [0.5, "0.6591"],
    [0.6, "0.4395"],
    [0.7, "0.2440"],
    [0.8, "0.1653"],
    [0.9, "0.1650"],
  ])("at %d", (k, printed) => expectPrinted(erbsDiffuseShare(k), printed));
});

describe("isotropicPlane(light, cosine, tilt, albedo)", () => {
  // D&B example 2.15.1: I 1.04, Id 0.796, Ib 0.244, Rb 1.71, slope 60, albedo 0.6 -> 0.417 + 0.597 + 0.156 = 1.17 MJ/m².
  it("gives the printed parts", () => {
    const light = { ghi_W_m2: 1.04, dni_W_m2: 0.244, dhi_W_m2: 0.796 };
    // With DNI standing for the horizontal beam, the "cosine" is Rb; the sum is linear in their product.
    const part = isotropicPlane(light, 1.71, 60, 0.6);
    expectPrinted(part.beam_W_m2, "0.417");
    expectPrinted(part.sky_W_m2, "0.597");
    expectPrinted(part.ground_W_m2, "0.156");
    expectPrinted(part.beam_W_m2 + part.sky_W_m2 + part.ground_W_m2, "1.17");
  });

  // Same example: k 0.445 gives Id 0.796 of 1.04.
  it("takes its diffuse light from Erbs", () =>
    expectPrinted(erbsDiffuseShare(1.04 / 2.3349) * 1.04, "0.796"));
});

describe("hourlyGlobalShare(hourAngle, sunset)", () => {
  // D&B example 2.13.2: Madison, 23 August, 13-14 h: r_t 0.118 and 3.7 of 31.4 MJ/m² (from memory).
  it("gives the printed share", () => {
    expectPrinted(hourlyGlobalShare(22.5, 100.49), "0.118");
    expectPrinted(31.4 * hourlyGlobalShare(22.5, 100.49), "3.7");
  });
  it("gives the computed share of D&B example 2.13.1", () => {
    expectPrinted(hourlyGlobalShare(-52.5, 107.4), "0.0759");
  });
  it("adds up to about one", () => {
    for (const sunset of [80, 90, 100, 113]) {
      let total = 0;
      for (let angle = -172.5; angle < 180; angle += 15)
        if (Math.abs(angle) < sunset) total += hourlyGlobalShare(angle, sunset);
      expect(total).toBeGreaterThan(0.985);
      expect(total).toBeLessThan(1.01);
    }
  });
});

describe("clearBeam_W_m2(normal, zenith, pressure, turbidity)", () => {
  // The factor 0.8662 ties Kasten 1996 to the earlier thickness 1/(9.4 + 0.9 m) at air mass 2 (from memory).
  it("meets the earlier pyrheliometric formula at air mass 2", () => {
    expectClose(0.8662 * rayleighThickness(2), 1 / (9.4 + 0.9 * 2), 1e-4);
  });
  it("joins its two branches at air mass 20", () => {
    expectClose(rayleighThickness(20), rayleighThickness(20.0001), 0.002);
  });
  it("lies above the measured beam of clear deserts, below that of space", () => {
    const noon = clearBeam_W_m2(1367, 0, 101325, 2);
    expect(noon).toBeGreaterThan(1050);
    expect(noon).toBeLessThan(1150);
    for (let zenith = 1; zenith <= 90; zenith += 1) {
      expect(clearBeam_W_m2(1367, zenith, 101325, 2)).toBeLessThan(
        clearBeam_W_m2(1367, zenith - 1, 101325, 2),
      );
    }
  });
});
