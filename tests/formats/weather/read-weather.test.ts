import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { placeHours } from "../../../src/formats/weather/place-hours.ts";
import { readEpw } from "../../../src/formats/weather/read-epw.ts";
import { readPlainWeather } from "../../../src/formats/weather/read-plain-weather.ts";
import { readTmy3 } from "../../../src/formats/weather/read-tmy3.ts";
import { formatOf, readWeather } from "../../../src/formats/weather/read-weather.ts";
import { writePlainWeather } from "../../../src/formats/weather/write-plain-weather.ts";
import { clearYear, epwLines, phoenix, tmy3Lines } from "./clear-year.ts";
import { differences, faultCodes, faults, read, wellRead } from "./support.ts";

const year = clearYear();
const epw = epwLines(year);
const tmy3 = tmy3Lines(year);

/** An EPW file with one field of one data row changed; rows and fields count from 0. */
function withField(lines: readonly string[], row: number, field: number, value: string): string[] {
  const changed = [...lines];
  const cells = changed[row]!.split(",");
  cells[field] = value;
  changed[row] = cells.join(",");
  return changed;
}

/** Data row (position in the EPW lines) of a hour index. */
const rowAt = (hour: number) => 8 + hour;

describe("EPW and TMY3 files", () => {
  it("are told apart by their content, and a named format wins", () => {
    expect(formatOf(epw.join("\n"))).toBe("epw");
    expect(formatOf(tmy3.join("\r\n"))).toBe("tmy3");
    expect(formatOf(writePlainWeather(year))).toBe("csv");
    expect(formatOf("hello")).toBeNull();
    expect(faultCodes(read(epw, phoenix, "tmy3"))).toContain("WEATHER_COLUMN_MISSING");
  });

  it.each([
    ["EPW", epw],
    ["TMY3", tmy3],
    ["TMY3 whose columns stand in another order", tmy3.map((line, i) => (i === 0 ? line : reorder(line)))],
  ])("%s is read hour by hour", (_, lines) => {
    const got = wellRead(read(lines));
    expect(got.findings).toEqual([]);
    for (const difference of Object.values(differences(got.year, year)))
      expect(difference).toBeLessThan(1e-9);
    expect(got.year.station).toMatchObject({ latitude_deg: 33.45, longitude_deg: -111.98, utcOffset_h: -7 });
  });

  it("are read with CRLF, a byte-order mark, or Latin-1", () => {
    expect(read(`\ufeff${epw.join("\r\n")}`).ok).toBe(true);
    const text = epw.join("\n").replace("Test field", "Mu\u00f1oz");
    const latin1 = Uint8Array.from(text, (char) => char.charCodeAt(0));
    const got = wellRead(readWeather(latin1, { file: "w", site: phoenix }));
    expect(got.year.station?.name).toBe("Mu\u00f1oz, XX");
    expect(readWeather(Uint8Array.from([0, 1, 2, 0, 3, 0, 0]), { file: "w", site: phoenix })).toMatchObject({
      ok: false,
      problems: [{ code: "WEATHER_NOT_TEXT" }],
    });
  });

  it("find rows by their date, not by their position", () => {
    const shuffled = [...epw.slice(0, 8), ...epw.slice(4000), ...epw.slice(8, 4000)];
    const got = wellRead(read(shuffled));
    expect(got.findings).toEqual([
      "w: The rows do not run from January to December; they were put in order by their dates.",
    ]);
    for (const difference of Object.values(differences(got.year, year)))
      expect(difference).toBeLessThan(1e-9);
  });

  it("drop 29 February and say so", () => {
    const leap = epw.slice(rowAt(58 * 24), rowAt(59 * 24)).map((line) => line.replace(",2,28,", ",2,29,"));
    const got = wellRead(read([...epw.slice(0, rowAt(59 * 24)), ...leap, ...epw.slice(rowAt(59 * 24))]));
    expect(got.findings).toEqual(["w, row 1425: 29 February (24 rows) was left out."]);
  });

  it("tell missing hours in one sentence a run", () => {
    const cut = epw.filter((_, i) => !(i >= rowAt(30) && i < rowAt(35)) && i !== rowAt(100));
    expect(faults(read(cut))).toEqual([
      "w, row 38: 5 hours are missing, month 1 day 2 hour 7 to month 1 day 2 hour 11 (after row 38, before row 39); all 8760 are needed.",
      "w, row 103: 1 hour is missing, month 1 day 5 hour 5 (after row 103, before row 104); all 8760 are needed.",
    ]);
  });

  it("tell doubled hours", () => {
    const doubled = [...epw, epw[rowAt(12)]!, epw[rowAt(13)]!];
    expect(faults(read(doubled))).toEqual([
      "w, row 8769: An hour that another row already holds stands in 2 rows (8769, 8770), first month 1 day 1 hour 13; one row an hour is allowed.",
    ]);
  });

  it("tell finer steps as one fault", () => {
    const half = [...epw.slice(0, 8), ...epw.slice(8).flatMap((line) => [line, line])];
    expect(faultCodes(read(half))).toEqual(["WEATHER_STEP"]);
    const declared = epw.map((line) => line.replace("DATA PERIODS,1,1", "DATA PERIODS,1,2"));
    expect(faults(read(declared))).toEqual(["w, row 8: DATA PERIODS says 2 records an hour; 1 is allowed."]);
  });

  it("bridge up to three missing hours by a straight line and refuse four", () => {
    const noon = 12;
    let three = [...epw];
    for (const hour of [noon, noon + 1, noon + 2]) three = withField(three, rowAt(hour), 6, "99.9");
    const got = wellRead(read(three));
    expect(got.findings).toEqual([
      "w, row 21, column Dry Bulb Temperature: Missing values in 3 rows (21, 22, 23) were filled by straight lines over up to 3 hours.",
    ]);
    const [before, after] = [year.ambient_C[noon - 1]!, year.ambient_C[noon + 3]!];
    expect(got.year.ambient_C[noon + 1]).toBeCloseTo((before + after) / 2, 12);
    expect(got.year.ambient_C[noon + 2]).toBeCloseTo(before + (after - before) * 0.75, 12);
    expect(faults(read(withField(three, rowAt(noon + 3), 6, "99.9")))).toEqual([
      "w, row 21, column Dry Bulb Temperature: The temperature is missing for more than 3 hours running in 4 rows (21, 22, 23, 24); longer gaps are not filled.",
    ]);
  });

  it("bridge over New Year", () => {
    const gap = withField(withField(epw, rowAt(0), 21, "999"), rowAt(8759), 21, "999");
    const { year: got } = wellRead(read(gap));
    const [before, after] = [year.wind_m_s[8758]!, year.wind_m_s[1]!];
    expect(got.wind_m_s[8759]).toBeCloseTo(before + (after - before) / 3, 12);
    expect(got.wind_m_s[0]).toBeCloseTo(before + ((after - before) * 2) / 3, 12);
  });

  it("take missing radiation as zero only while the sun is down", () => {
    let night = [...tmy3];
    for (let hour = 0; hour < 6; hour += 1) night = withField(night, 2 + hour, 9, "-9900");
    const got = wellRead(read(night));
    expect(got.findings).toEqual([
      "w, row 3, column GHI (W/m^2): Missing values in 6 rows (3, 4, 5, 6, 7, … 8), with the sun down, were taken as 0.",
    ]);
    let day = [...tmy3];
    for (let hour = 9; hour < 14; hour += 1) day = withField(day, 2 + hour, 9, "-9900");
    expect(faultCodes(read(day))).toEqual(["WEATHER_VALUE_MISSING"]);
  });

  it("take missing pressure from the standard atmosphere and leave humidity missing, saying both", () => {
    // 97 341 Pa at 337 m: ASHRAE Fundamentals 2017 ch. 1 eq. 3.
    const bare = epw.map((line, i) => (i < 8 ? line : setCells(line, { 8: "999", 9: "999999" })));
    const got = wellRead(read(bare));
    expect(got.findings.map((line) => line.split(": ")[1]!.slice(0, 40))).toEqual([
      "Relative humidity is missing in 8760 row",
      "Pressure is missing in 8760 rows (9, 10,",
    ]);
    expect(got.year.pressure_Pa[0]).toBeCloseTo(101325 * (1 - 2.25577e-5 * 337) ** 5.2559, -0.5);
    expect(got.year.humidity_share.every(Number.isNaN)).toBe(true);
  });

  it("tell all faults of the head and the rows at once", () => {
    let bad = withField(epw, 0, 6, "north");
    bad = withField(bad, rowAt(5), 21, "calm");
    bad = withField(bad, rowAt(7), 3, "25");
    bad[rowAt(9)] = "1,2,3";
    expect(faults(read(bad)).map((line) => line.slice(0, 60))).toEqual([
      "w, row 1: The line LOCATION must give latitude, longitude, U",
      "w, row 18: Fewer than the 22 fields up to wind speed stand i",
      "w, row 16: Month 1–12, day 1–31 and hour 1–24 are not found ",
      'w, row 14, column Wind Speed: "calm" is not a number; cells ',
      "w, row 15: 1 hour is missing, month 1 day 1 hour 8 (after ro",
      "w, row 17: 1 hour is missing, month 1 day 1 hour 10 (after r",
    ]);
  });

  it("need the columns of radiation, temperature and wind by name", () => {
    const renamed = tmy3.map((line, i) => (i === 1 ? line.replace("DNI (W/m^2)", "DNI") : line));
    expect(faults(read(renamed))).toContain(
      'w, row 2: The column "DNI (W/m^2)" is missing; direct normal radiation is needed.',
    );
  });

  it("read 00:00 of the next day as 24:00", () => {
    const other = tmy3.map((line) =>
      line.replace(/^(\d\d)\/(\d\d)\/1999,24:00/, (_, m: string, d: string) => {
        const next = new Date(Date.UTC(1999, Number(m) - 1, Number(d) + 1));
        const two = (value: number) => String(value).padStart(2, "0");
        return `${two(next.getUTCMonth() + 1)}/${two(next.getUTCDate())}/${next.getUTCFullYear()},00:00`;
      }),
    );
    for (const difference of Object.values(differences(wellRead(read(other)).year, year)))
      expect(difference).toBeLessThan(1e-9);
  });

  it("move rows by whole hours where the station's clock is not the site's, and refuse parts of an hour", () => {
    const site = { ...phoenix, utcOffset_h: -8 };
    const got = wellRead(read(epw, site));
    expect(got.findings).toEqual([
      "w: The station's standard time is -7 h from UTC and the site's -8 h; the rows were moved by −1 h onto the site's clock.",
    ]);
    expect(got.year.ghi_W_m2[10]).toBe(year.ghi_W_m2[11]);
    expect(got.year.ambient_C[8759]).toBe(year.ambient_C[0]);
    expect(faultCodes(read(epw, { ...phoenix, utcOffset_h: -6.5 }))).toContain("WEATHER_OFFSET");
  });

  it("never throw on garbage, cut or changed files", () => {
    const texts = [epw, tmy3, writePlainWeather(year).split("\n")].map((lines) =>
      lines.slice(0, 60).join("\n"),
    );
    const broken = fc
      .tuple(fc.constantFrom(...texts), fc.nat(), fc.string(), fc.nat(200))
      .map(([text, at, put, drop]) => {
        const i = at % text.length;
        return text.slice(0, i) + put + text.slice(i + drop);
      });
    fc.assert(
      fc.property(fc.oneof(fc.string(), broken), (text) => {
        for (const rows of [readEpw(text, "w"), readTmy3(text, "w"), readPlainWeather(text, "w", phoenix)]) {
          const { problems } = placeHours(rows, "w", 0);
          expect(rows.problems.length + problems.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 300 },
    );
    fc.assert(
      fc.property(broken, (text) => {
        expect(read(text).ok).toBe(false);
      }),
      { numRuns: 8 },
    );
  });
});

function setCells(line: string, cells: Record<number, string>): string {
  return line
    .split(",")
    .map((cell, i) => cells[i] ?? cell)
    .join(",");
}

/** Date and time stay, the other columns turn round. */
function reorder(line: string): string {
  const cells = line.split(",");
  return [...cells.slice(0, 2), ...cells.slice(2).reverse()].join(",");
}
