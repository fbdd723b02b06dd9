import { describe, expect, it } from "vitest";
import { plainColumn } from "../../../src/formats/weather/plain-columns.ts";
import { writePlainWeather } from "../../../src/formats/weather/write-plain-weather.ts";
import { clearYear, hourly } from "./clear-year.ts";
import { differences, faultCodes, faults, read, wellRead } from "./support.ts";

const year = clearYear();
const written = writePlainWeather(year);

type Row = (index: number, label: { month: number; day: number; hour: number }) => (string | number)[];

/** A plain CSV with the given titles. */
function csv(titles: string, row: Row, delimiter = ","): string {
  return [titles, ...hourly((i, label) => row(i, label).join(delimiter))].join("\n");
}

const usual = "ghi_W_m2,dni_W_m2,dhi_W_m2,ambient_C,wind_m_s,humidity_share,pressure_Pa";
const values = (i: number): number[] => [
  year.ghi_W_m2[i]!,
  year.dni_W_m2[i]!,
  year.dhi_W_m2[i]!,
  year.ambient_C[i]!,
  year.wind_m_s[i]!,
  year.humidity_share[i]!,
  year.pressure_Pa[i]!,
];
const iso = (i: number, end = false) =>
  new Date(Date.UTC(2023, 0, 1) + (i + (end ? 1 : 0)) * 3_600_000).toISOString().slice(0, 16);

describe("plain CSV", () => {
  it("reads back exactly what was written, description and station too", () => {
    const got = wellRead(read(written));
    expect(got.year).toEqual(year);
    expect(got.findings).toEqual(["w: Times are taken to mark the end of their hour, in standard time."]);
    expect(writePlainWeather(got.year)).toBe(written);
  });

  it("keeps missing humidity missing", () => {
    const bare = { ...year, humidity_share: new Float64Array(8760).fill(Number.NaN) };
    expect(wellRead(read(writePlainWeather(bare))).year.humidity_share.every(Number.isNaN)).toBe(true);
  });

  // Factors: SI, and the definitions of the knot (1852 m/h), mile (1609.344 m) and °F.
  it.each([
    ["ghi_W_m2", 500, 500],
    ["GHI (W/m²)", 500, 500],
    ["GHI [Wh/m2]", 500, 500],
    ["Global horizontal irradiance (kW/m2)", 0.5, 500],
    ["DNI kWh/m2", 0.5, 500],
    ["dhi (kJ/m2)", 1800, 500],
    ["dhi (MJ/m^2)", 1.8, 500],
    ["ghi (J/cm2)", 180, 500],
    ["temperature [°C]", 25, 25],
    ["Dry-bulb (C)", 25, 25],
    ["Air temperature (K)", 298.15, 25],
    ["temp_F", 77, 25],
    ["Wind speed (m/s)", 5, 5],
    ["wind_km_h", 18, 5],
    ["wind [kn]", 3600 / 1852, 1],
    ["wind speed (mph)", 3600 / 1609.344, 1],
    ["humidity_pct", 40, 0.4],
    ["RH (%)", 40, 0.4],
    ["humidity_share", 0.4, 0.4],
    ["pressure_hPa", 1013.25, 101325],
    ["Pressure (mbar)", 1013.25, 101325],
    ["pressure [kPa]", 101.325, 101325],
  ])("understands the title %s", (title, written_, expected) => {
    expect(plainColumn(title)?.convert?.(written_)).toBeCloseTo(expected, 9);
  });

  it("does not take other titles for a quantity", () => {
    for (const title of [
      "wind direction (deg)",
      "dew point (C)",
      "pressure trend (hPa/h)",
      "GHI uncertainty (%)",
    ])
      expect(plainColumn(title)?.convert ?? null).toBeNull();
  });

  it("refuses a column without a unit, and one that is there twice", () => {
    const titles = "month,day,hour,GHI,dni_W_m2,dhi_W_m2,ambient_C,DHI (Wh/m2),wind_m_s";
    const text = csv(titles, (i, { month, day, hour }) => [month, day, hour, ...values(i).slice(0, 4), 1, 2]);
    expect(faults(read(text))).toEqual([
      'w, column GHI: The title "GHI" does not name a unit that can be read; global horizontal radiation may be in W/m2, kW/m2, kJ/m2, MJ/m2, J/cm2.',
      'w, column DHI (Wh/m2): The columns "dhi_W_m2" and "DHI (Wh/m2)" both hold diffuse horizontal radiation; one is allowed.',
    ]);
  });

  it("tells every column that is missing", () => {
    const text = csv("month,day,hour,ghi_W_m2,humidity_pct", (i, { month, day, hour }) => [
      month,
      day,
      hour,
      values(i)[0]!,
      40,
    ]);
    expect(faults(read(text)).map((line) => line.slice(0, 52))).toEqual([
      "w: No column of temperature was found; it is needed,",
      "w: No column of wind speed was found; it is needed, ",
    ]);
  });

  it("computes a missing DNI from GHI and DHI, within rounding where the sun is above 3°", () => {
    const text = csv("month,day,hour,ghi_W_m2,dhi_W_m2,ambient_C,wind_m_s", (i, { month, day, hour }) => {
      const [ghi, , dhi, ambient, wind] = values(i);
      return [month, day, hour, ghi!, dhi!, ambient!, wind!];
    });
    const got = wellRead(read(text));
    expect(got.findings.some((line) => line.includes("(GHI − DHI) / cos θz"))).toBe(true);
    const known = got.year.dni_W_m2.filter((value) => value > 0);
    expect(known.length).toBeGreaterThan(4000);
    got.year.dni_W_m2.forEach((dni, hour) => {
      if (dni > 0) expect(Math.abs(dni - year.dni_W_m2[hour]!)).toBeLessThan(1e-6);
    });
  });

  it("reads time stamps that mark the start or the end, told by the first row", () => {
    for (const end of [false, true]) {
      const got = wellRead(read(csv(`time,${usual}`, (i) => [iso(i, end), ...values(i)])));
      expect(differences(got.year, year).ghi_W_m2).toBe(0);
      expect(got.findings[0]).toContain(`mark the ${end ? "end" : "start"} of their hour`);
    }
  });

  it("reads hours 0–23 as starts and a title that says which", () => {
    const starts = csv(`month,day,hour,${usual}`, (i, { month, day, hour }) => [
      month,
      day,
      hour - 1,
      ...values(i),
    ]);
    expect(differences(wellRead(read(starts)).year, year).ghi_W_m2).toBe(0);
    const titled = csv(`time_end,${usual}`, (i) => [iso(i, true), ...values(i)]);
    expect(differences(wellRead(read(titled)).year, year).ghi_W_m2).toBe(0);
  });

  it("refuses hours 0 and 24 together", () => {
    const text = csv(`month,day,hour,${usual}`, (i, { month, day, hour }) => [
      month,
      day,
      i === 0 ? 0 : hour,
      ...values(i),
    ]);
    expect(faultCodes(read(text))).toContain("WEATHER_LABELS");
  });

  it("moves time stamps in UTC onto the site's clock", () => {
    const utc = (i: number) =>
      `${new Date(Date.UTC(2023, 0, 1) + (i + 7) * 3_600_000).toISOString().slice(0, 16)}Z`;
    const got = wellRead(read(csv(`time_start,${usual}`, (i) => [utc(i), ...values(i)])));
    expect(differences(got.year, year).ghi_W_m2).toBe(0);
  });

  it("reads semicolons with decimal commas and day-first dates", () => {
    const german = (i: number) => {
      const date = new Date(Date.UTC(2023, 0, 1) + i * 3_600_000);
      const two = (value: number) => String(value).padStart(2, "0");
      return `${two(date.getUTCDate())}.${two(date.getUTCMonth() + 1)}.2023 ${two(date.getUTCHours())}:00`;
    };
    const comma = (value: number) => String(value).replace(".", ",");
    const text = csv(
      usual.replaceAll(",", ";").replace(/^/, "time;"),
      (i) => [german(i), ...values(i).map(comma)],
      ";",
    );
    const got = wellRead(read(text));
    for (const difference of Object.values(differences(got.year, year)))
      expect(difference).toBeLessThan(1e-9);
  });

  it("names columns that it does not use", () => {
    const text = csv(`month,day,hour,${usual},Snow (cm)`, (i, { month, day, hour }) => [
      month,
      day,
      hour,
      ...values(i),
      0,
    ]);
    expect(wellRead(read(text)).findings).toContain('w: The column "Snow (cm)" is not used.');
  });

  it("counts file lines past the notes", () => {
    const lines = written.split("\n");
    lines[7 + 12] = lines[7 + 12]!.replace(/,[^,]*$/, ",high");
    expect(faults(read(lines))[0]).toMatch(/^w, row 20, column pressure_Pa: "high" is not a number/);
  });
});
