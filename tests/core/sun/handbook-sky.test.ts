import { describe, expect, it } from "vitest";
import { clearDiffuse_W_m2 } from "../../../src/core/sun/clear-sky.ts";
import {
  extraterrestrialDay_J_m2,
  extraterrestrialNormal_W_m2,
  extraterrestrialSpan_J_m2,
  sunsetHourAngle_deg,
} from "../../../src/core/sun/extraterrestrial.ts";
import {
  clearBeam_W_m2,
  erbsDiffuseShare,
  hourlyExtraterrestrialShare,
  hourlyGlobalShare,
} from "../../../src/core/sun/radiation.ts";
import { radians } from "../../../src/core/units.ts";
import { expectClose, expectPrinted } from "../../support/close.ts";
import {
  cooper_deg,
  cosZenith,
  erbsDay,
  erbsMonth,
  hottel,
  kleinUtilizability,
  liuJordanDiffuse,
  monthOnPlane,
  monthUtilizability,
} from "../../support/handbook-sky.ts";

// Worked examples of Duffie & Beckman (D&B), 4th ed. 2013; answers from memory unless said otherwise.

describe("the handbook's day and month (in tests beside the hourly chain)", () => {
  // Values of the printed coefficients.
  it("has the diffuse shares of Erbs's daily and monthly curves", () => {
    expectPrinted(erbsDay(0.5, 80), "0.5688");
    expectPrinted(erbsDay(0.5, 90), "0.6083");
    expectPrinted(erbsDay(0.7, 80), "0.1641");
    expectPrinted(erbsDay(0.7, 90), "0.2357");
    expectPrinted(erbsMonth(0.5, 80), "0.3911");
    expectPrinted(erbsMonth(0.5, 90), "0.4291");
  });

  // D&B example 2.11.1: St Louis, 38.6°, 3 September, 23 MJ/m²: K_T 0.69, H_d 6.0 MJ/m². The book reads the share
  // from a figure (0.26); the equation gives 0.253, so 4 % are allowed there.
  it("gives the diffuse light of example 2.11.1", () => {
    const declination = cooper_deg(246);
    const above = extraterrestrialDay_J_m2(extraterrestrialNormal_W_m2(246), 38.6, declination) / 1e6;
    expectPrinted(23 / above, "0.69");
    const share = erbsDay(23 / above, sunsetHourAngle_deg(38.6, declination));
    expect(Math.abs(share / 0.26 - 1)).toBeLessThan(0.04);
    expect(Math.abs((share * 23) / 6 - 1)).toBeLessThan(0.04);
  });

  // D&B example 2.12.1: Madison, June, 23 MJ/m²: K_T 0.55, H_d/H 0.38; June's mean day is the 162nd.
  it("gives the diffuse share of example 2.12.1", () => {
    const declination = cooper_deg(162);
    const above = extraterrestrialDay_J_m2(extraterrestrialNormal_W_m2(162), 43, declination) / 1e6;
    expectPrinted(23 / above, "0.55");
    expectPrinted(erbsMonth(23 / above, sunsetHourAngle_deg(43, declination)), "0.38");
  });

  // D&B example 2.14.1: 45°, 4 March, slope 60° south: R_b averaged from sunrise to 7:00 is about 4.6.
  it("averages the beam ratio near sunrise as example 2.14.1 does", () => {
    const declination = cooper_deg(63);
    const sunset = sunsetHourAngle_deg(45, declination);
    const span = (latitude: number) => extraterrestrialSpan_J_m2(1, latitude, declination, -sunset, -75);
    expectPrinted(span(45 - 60) / span(45), "4.6");
  });

  // D&B example 2.20.1: Madison, slope 60° south. Station's table and ground from checks.md 2.15; January and
  // February printed (from memory), the other months computed apart there from the same equations.
  it("gives example 2.20.1 month by month", () => {
    const global = [6.44, 9.89, 12.86, 16.05, 21.36, 23.04, 22.58, 20.33, 14.59, 10.48, 6.37, 5.74];
    const albedo = [0.7, 0.7, 0.4, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.4];
    const middle = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344];
    const months = middle.map((day, month) => {
      const declination_deg = cooper_deg(day);
      return monthOnPlane({
        ...{ latitude_deg: 43, declination_deg, tilt_deg: 60, albedo: albedo[month]! },
        global: global[month]!,
        above: extraterrestrialDay_J_m2(extraterrestrialNormal_W_m2(day), 43, declination_deg) / 1e6,
        sunset_deg: sunsetHourAngle_deg(43, declination_deg),
      });
    });
    expectPrinted(months[0]!.clearness, "0.48");
    expectPrinted(months[0]!.diffuseShare, "0.41");
    expectPrinted(months[0]!.beamRatio, "2.79");
    expectPrinted(months[0]!.onPlane, "13.7");
    // Printed 17.2; the equations give 17.25, which prints either way.
    expect(Math.abs(months[1]!.onPlane - 17.2)).toBeLessThan(0.06);
    const computed = "13.71 17.25 15.79 14.69 16.58 16.53 16.76 17.47 15.58 15.19 11.36 12.72".split(" ");
    // The tabulated declinations and Cooper's differ in the last digit, hence 0.3 %.
    months.forEach(({ onPlane }, month) => {
      expectClose(onPlane / Number(computed[month]!), 1, 0.003);
    });
  });

  // D&B example 2.18.2, inputs printed: east–west axis, 35°, 13 April, 22.8 MJ/m², 13–14 h; answers computed apart.
  it("gives the beam on a concentrator of example 2.18.2", () => {
    const declination = cooper_deg(103);
    const sunset = sunsetHourAngle_deg(35, declination);
    const normal = extraterrestrialNormal_W_m2(103);
    const clearness = 22.8 / (extraterrestrialDay_J_m2(normal, 35, declination) / 1e6);
    expectPrinted(clearness, "0.642");
    expectPrinted(erbsDay(clearness, sunset), "0.351");
    const globalHour = 22.8 * hourlyGlobalShare(22.5, sunset);
    const diffuseHour = 22.8 * erbsDay(clearness, sunset) * hourlyExtraterrestrialShare(22.5, sunset);
    expectPrinted(globalHour - diffuseHour, "1.847");
    const cosine = Math.sqrt(1 - (Math.cos(declination * radians) * Math.sin(22.5 * radians)) ** 2);
    expectPrinted(Math.acos(cosine) / radians, "22.23");
    const beam = ((globalHour - diffuseHour) / cosZenith(35, declination, 22.5)) * cosine;
    expectPrinted(beam, "2.05");
  });
});

describe("clear sky", () => {
  const declination = cooper_deg(234);
  const normal = extraterrestrialNormal_W_m2(234);
  const noonish = cosZenith(43, declination, -7.5);

  // D&B examples 2.8.1–2.8.2: Madison, 270 m, 22 August, 11:30.
  it("gives Hottel's beam and Liu & Jordan's diffuse of the worked example", () => {
    const sky = hottel(0.27, noonish);
    expectPrinted(sky.a0 / 0.97, "0.154");
    expectPrinted(sky.a1 / 0.99, "0.736");
    // 0.36345 here; recalled as 0.363.
    expectPrinted(sky.k / 1.02, "0.363");
    expectPrinted(sky.beam, "0.62");
    expectClose(normal * sky.beam, 830, 1e-3);
    expectClose(normal * sky.beam * noonish, 702, 1e-3);
    expectPrinted(liuJordanDiffuse(sky.beam), "0.089");
    expectClose(normal * liuJordanDiffuse(sky.beam) * noonish, 101, 0.006);
  });

  // D&B example 2.8.2's day: about 22.8 MJ/m², beam 19.0 (from memory, unsure; hourly sum computed apart).
  const handbookDay = () => {
    let beam = 0;
    let diffuse = 0;
    for (let angle = -97.5; angle <= 97.5; angle += 15) {
      const cosine = cosZenith(43, declination, angle);
      if (!(cosine > 0)) continue;
      const sky = hottel(0.27, cosine);
      beam += normal * sky.beam * cosine * 0.0036;
      diffuse += normal * liuJordanDiffuse(sky.beam) * cosine * 0.0036;
    }
    return { beam, global: beam + diffuse };
  };
  it("adds up to the handbook's clear day", () => {
    expectPrinted(handbookDay().global, "22.8");
    expectPrinted(handbookDay().beam, "19.0");
  });

  // Two published models apart. Visibility of 23 km is somewhat hazy: Linke turbidity 4 gives the same beam to 1 %.
  it("has the program's clear sky round the handbook's day, and its bound above it", () => {
    const day = (turbidity: number) => {
      let beam = 0;
      let global = 0;
      for (let angle = -97.5; angle <= 97.5; angle += 15) {
        const cosine = cosZenith(43, declination, angle);
        if (!(cosine > 0)) continue;
        const direct = clearBeam_W_m2(normal, Math.acos(cosine) / radians, 98_000, turbidity) * cosine;
        beam += direct * 0.0036;
        global += (direct + clearDiffuse_W_m2(normal, cosine, turbidity)) * 0.0036;
      }
      return { beam, global };
    };
    const { beam, global } = handbookDay();
    expect(Math.abs(day(4).beam / beam - 1)).toBeLessThan(0.01);
    // They disagree about the diffuse: 5.5 MJ/m² by ESRA, 3.8 by Liu & Jordan, which was fitted to clearer days. So
    // the program's cloudless global lies 8 % above the handbook's; as a bound it errs to the safe side.
    expect(day(4).global / global).toBeGreaterThan(1);
    expect(day(4).global / global).toBeLessThan(1.1);
    expect(day(2).beam).toBeGreaterThan(1.15 * beam);
  });
});

describe("utilizability", () => {
  // No printed worked answer was found: a constructed case from Klein's equations (station and January of example
  // 2.20.1, slope 60°, critical 145 W/m²), and the limits that any utilizability has.
  it("has the constructed case and the limits of Klein's curve", () => {
    expectPrinted(kleinUtilizability(0.4819, 1.587 / 2.129, 0.2848), "0.671");
    const declination_deg = cooper_deg(17);
    const january = monthUtilizability(
      {
        ...{ latitude_deg: 43, declination_deg, tilt_deg: 60, albedo: 0.7 },
        global: 6440 / 3.6,
        above: extraterrestrialDay_J_m2(extraterrestrialNormal_W_m2(17), 43, declination_deg) / 3600,
        sunset_deg: sunsetHourAngle_deg(43, declination_deg),
      },
      145,
    );
    expectPrinted(january.noonGlobal, "0.1794");
    expectPrinted(january.noonDiffuse, "0.1670");
    expectPrinted(january.noonBeamRatio, "2.269");
    expectPrinted(january.ratio, "2.129");
    expectPrinted(january.noonRatio, "1.587");
    expectPrinted(january.critical, "0.2848");
    expectPrinted(january.share, "0.671");
    expect(kleinUtilizability(0.5, 1, 0)).toBe(1);
    for (let x = 0; x < 1.2; x += 0.1)
      expect(kleinUtilizability(0.5, 1, x + 0.1)).toBeLessThan(kleinUtilizability(0.5, 1, x));
  });
  it("knows no hour beyond the ends of Erbs's curve", () => {
    expect(erbsDiffuseShare(0)).toBe(1);
    expect(erbsDiffuseShare(1)).toBe(0.165);
  });
});
