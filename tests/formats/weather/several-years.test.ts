import { describe, expect, it } from "vitest";
import { clearYear, hourly } from "./clear-year.ts";
import { faults, read, wellRead } from "./support.ts";

const year = clearYear();

/** Rows of a plain CSV with time stamps at the start of the hour; the radiation of a year times its factor. */
function csv(years: readonly { readonly year: number; readonly factor: number }[]): string[] {
  const two = (value: number) => String(value).padStart(2, "0");
  return [
    "time_start,ghi_W_m2,dni_W_m2,dhi_W_m2,ambient_C,wind_m_s",
    ...years.flatMap(({ year: name, factor }) =>
      hourly((i, { month, day, hour }) =>
        [
          `${name}-${two(month)}-${two(day)} ${two(hour - 1)}:00`,
          ...[year.ghi_W_m2, year.dni_W_m2, year.dhi_W_m2].map((series) => series[i]! * factor),
          year.ambient_C[i],
          year.wind_m_s[i],
        ].join(","),
      ),
    ),
  ];
}

const two = csv([
  { year: 2019, factor: 1 },
  { year: 2021, factor: 0.9 },
]);
const site = undefined;

describe("a file of several years", () => {
  it("is refused with the years that it holds, until one is named", () => {
    expect(faults(read(two))).toEqual([
      "w: The file holds several years: 2019 (8760 rows), 2021 (8760 rows). Say which one to take, in the study as weather/year or weatherYear of a possible year.",
    ]);
    expect(faults(read(two, site, undefined, { year: 2020 }))).toEqual([
      "w: The file does not hold the year 2020; it holds 2019 (8760 rows), 2021 (8760 rows).",
    ]);
  });

  it("gives the year that is named, and says so", () => {
    const first = wellRead(read(two, site, undefined, { year: 2019 })).year;
    const second = wellRead(read(two, site, undefined, { year: 2021 })).year;
    expect(first.ghi_W_m2).toEqual(year.ghi_W_m2);
    expect(second.ghi_W_m2).toEqual(year.ghi_W_m2.map((value) => value * 0.9));
    expect(second.description).toContain("year 2021");
  });

  it("needs no name where one year is put together from several, as a typical year is", () => {
    const [title, ...rows] = csv([{ year: 2019, factor: 1 }]);
    const mixed = rows.map((row) =>
      row.replace(/^2019-(\d\d)/, (_, month) => `${2000 + Number(month)}-${month}`),
    );
    expect(wellRead(read([title!, ...mixed])).year.ghi_W_m2).toEqual(year.ghi_W_m2);
  });

  it("may tell its years in a column beside month, day and hour", () => {
    const rows = [2019, 2020].flatMap((name) =>
      hourly((i, { month, day, hour }) =>
        [name, month, day, hour, year.ghi_W_m2[i], year.dni_W_m2[i], year.dhi_W_m2[i], 20, 3].join(","),
      ),
    );
    const text = ["year,month,day,hour,ghi_W_m2,dni_W_m2,dhi_W_m2,ambient_C,wind_m_s", ...rows];
    expect(faults(read(text))[0]).toContain("2019 (8760 rows), 2020 (8760 rows)");
    const { year: found, findings } = wellRead(read(text, site, undefined, { year: 2020 }));
    expect(found.ghi_W_m2).toEqual(year.ghi_W_m2);
    expect(findings.join()).not.toContain("not used");
  });

  it("is refused by a name where the file tells no years", () => {
    const parts = hourly((i, { month, day, hour }) =>
      [month, day, hour, year.ghi_W_m2[i], year.dni_W_m2[i], year.dhi_W_m2[i], 20, 3].join(","),
    );
    const text = ["month,day,hour,ghi_W_m2,dni_W_m2,dhi_W_m2,ambient_C,wind_m_s", ...parts];
    expect(faults(read(text, site, undefined, { year: 2020 }))).toEqual([
      "w: The file tells no years, so the year 2020 cannot be taken from it; leave the year out.",
    ]);
  });
});
