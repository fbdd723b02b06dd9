import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { tell } from "../../../src/core/problem.ts";
import { aboveTheAir_kWh_m2, meansQuantities, monthNames } from "../../../src/formats/weather/means-cells.ts";
import { readMeans } from "../../../src/formats/weather/read-means.ts";
import { expectClose } from "../../support/close.ts";
import { bytesOf } from "./support.ts";

const site = {
  latitude_deg: 43,
  longitude_deg: -89.4,
  elevation_m: 270,
  utcOffset_h: -6,
  calendarYear: 2026,
};
const head = "month,clearness,ambient_C,dailySwing_K,humidity_share,wind_m_s";
const rows = monthNames.map((_, month) => `${month + 1},0.5,${month},8,0.6,3.5`);
const read = (text: string) => readMeans(bytesOf(text), "m.csv", site);
const faults = (text: string) => {
  const outcome = read(text);
  return outcome.ok ? [] : outcome.problems.map(tell);
};
const value = (text: string) => {
  const outcome = read(text);
  if (!outcome.ok) throw new Error(outcome.problems.map(tell).join("\n"));
  return outcome.value;
};

describe("readMeans(bytes, file, site)", () => {
  it("reads a CSV in any order of months and columns, with names, percent and notes", () => {
    const wanted = value([head, ...rows].join("\n"));
    expect(wanted.ambient_C).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
    const other = monthNames.map((name, month) => `3,5;60;8;${month};0,5;${name.slice(0, 3)}`).reverse();
    const titles = "wind_m_s;humidity_pct;dailySwing_K;ambient_C;clearness;month";
    expect(value(["# from a friend", titles, ...other].join("\r\n"))).toEqual(wanted);
  });

  it("reads the worked example's own means", () => {
    const bytes = readFileSync(
      new URL("../../../fixtures/worked-example/monthly-means.json", import.meta.url),
    );
    const outcome = readMeans(bytes, "monthly-means.json", site);
    const { seed: _, ...means } = JSON.parse(bytes.toString());
    expect(outcome).toEqual({ ok: true, value: means, findings: [] });
  });

  // D&B example 2.20.1: Madison, January, 6.44 MJ/m² a day is a clearness of 0.48 (from memory, sure).
  it("turns irradiation into the handbook's clearness", () => {
    const fair = [6.44 / 3.6, 3, 4, 5, 6, 6, 6, 6, 5, 3, 2, 1.5];
    const short = [
      head.replace("clearness", "ghi_kWh_m2_day"),
      ...rows.map((row, month) => row.replace(",0.5,", `,${fair[month]},`)),
    ];
    // 0.4819 by the handbook's equations. Cooper's declination of 17 January lies 0.29° south of the sun's own, which
    // makes H₀ 1.6 % smaller, and the mean day stands 0.4 % below the month's mean; the program uses the sun's own.
    expectClose(value(short.join("\n")).clearness[0]! / 0.4819, 1, 0.021);
  });

  it("tells every fault at once with its row and column", () => {
    const text = [
      head.replace("wind_m_s", "rain"),
      "1,0.5,x,8,0.6,3",
      "1,0.5,1,8,0.6,3",
      "2,0.95,,8,0.6,3",
      "13,1,1,1,1,1",
    ];
    expect(faults(text.join("\n"))).toEqual([
      'm.csv, row 1, column rain: The title "rain" is not known; month, clearness, ghi_kWh_m2_day, ambient_C, dailySwing_K, humidity_share, humidity_pct, wind_m_s are allowed.',
      "m.csv, row 3, column month: January stands in row 2 already; one row a month is allowed.",
      'm.csv, row 5, column month: The month is "13"; 1 to 12 or an English name is allowed.',
      "m.csv: No row was found for March, April, May, June, July, August, September, October, November, December; each month needs one.",
      "m.csv: No column wind_m_s (mean wind at 10 m) was found; it is needed.",
      'm.csv, row 4, column clearness: The clearness index of February is "0.95"; a number from 0.1 to 0.8 is allowed.',
      "m.csv, row 4, column ambient_C: The mean temperature of February is missing; a number from −60 to 55 °C is allowed.",
      'm.csv, row 2, column ambient_C: The mean temperature of January is "x"; a number from −60 to 55 °C is allowed.',
    ]);
    expect(faults('{"clearness":[1,2],"snow":[]}').length).toBe(6);
    expect(faults("{")[0]).toContain("not JSON");
    expect(faults("")[0]).toContain("No column month");
  });

  it("refuses more light than the sky has, and says what the sky has", () => {
    const text = [head.replace("clearness", "ghi_kWh_m2_day"), ...rows.map((row) => row.replace("0.5", "9"))];
    const above = aboveTheAir_kWh_m2(site)[0]!;
    expect(faults(text.join("\n"))[0]).toContain(
      `The irradiation of January is 9 kWh/m² a day, ${(9 / above).toFixed(2)} of the ${above.toFixed(2)} kWh/m² above the air at latitude 43°`,
    );
    expect(
      faults(
        text
          .map((row) => `${row},1`)
          .map((row, i) => (i === 0 ? row.replace(",1", ",clearness") : row))
          .join("\n"),
      )[0],
    ).toBe(
      "m.csv, column ghi_kWh_m2_day: Both clearness and ghi_kWh_m2_day are given; one of them is allowed.",
    );
  });

  it("reads any means within the ranges, and refuses any beyond", () => {
    const names = ["clearness", "ambient_C", "dailySwing_K", "humidity_share", "wind_m_s"] as const;
    const one = fc.tuple(
      ...names.map((name) =>
        fc.double({ min: meansQuantities[name].least, max: meansQuantities[name].most, noNaN: true }),
      ),
    );
    fc.assert(
      fc.property(
        fc.array(one, { minLength: 12, maxLength: 12 }),
        fc.nat(11),
        fc.nat(4),
        (months, month, column) => {
          const text = (values: readonly (readonly number[])[]) =>
            [head, ...values.map((row, i) => [i + 1, ...row].join(","))].join("\n");
          const means = value(text(months));
          names.forEach((name, i) => {
            // −0 is written as 0.
            expect(means[name]).toEqual(months.map((row) => row[i]! + 0));
          });
          const beyond = months.map((row, i) => row.map((x, j) => (i === month && j === column ? 1000 : x)));
          expect(faults(text(beyond)).length).toBe(1);
        },
      ),
      { numRuns: 50 },
    );
  });
});
