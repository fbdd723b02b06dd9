import { describe, expect, it } from "vitest";
import { greatCircle_km } from "../../../src/core/sun/great-circle.ts";
import { sunYear } from "../../../src/core/sun/sun-year.ts";
import type { WeatherYear } from "../../../src/core/weather.ts";
import { checkWeather, type WeatherCheck } from "../../../src/formats/weather/check-weather.ts";
import { clockShift_h } from "../../../src/formats/weather/checks/clock-shift.ts";
import { clearYear, phoenix } from "./clear-year.ts";

const sun = sunYear(phoenix);
const clear = clearYear();
/** File lines as in a file whose data begin at line 2. */
const line = Int32Array.from({ length: 8760 }, (_, hour) => hour + 2);

type Series = Exclude<keyof WeatherYear, "description" | "station" | "madeFrom" | "beamEstimatedBy">;

function check(change: (year: WeatherYear) => Partial<WeatherYear>, site = phoenix): WeatherCheck {
  const weather = { ...clear, ...change(clear) };
  return checkWeather({ weather, sun, site, file: "w", line, dniDerived: false });
}
function withValue(series: Series, hour: number, value: number) {
  return (year: WeatherYear) => ({
    [series]: Float64Array.from(year[series], (old, i) => (i === hour ? value : old)),
  });
}
const turned = (series: Float64Array, hours: number) =>
  series.map((_, hour) => series[(hour - hours + 8760) % 8760]!);
const codes = (problems: readonly { code: string }[]) => problems.map(({ code }) => code);

describe("the checks of a weather year", () => {
  it("find nothing in a sound year", () => {
    expect(check(() => ({}))).toEqual({ problems: [], findings: [] });
  });

  it.each<[string, Series, number, number, string]>([
    ["negative GHI", "ghi_W_m2", 12, -6, "The global horizontal radiation is -6 W/m²"],
    ["GHI far above the sky", "ghi_W_m2", 12, 1500, "The global horizontal radiation is 1500 W/m²"],
    ["DNI above the solar constant", "dni_W_m2", 4000, 1420, "The direct normal radiation is 1420 W/m²"],
    ["DHI above the sky", "dhi_W_m2", 12, 900, "The diffuse horizontal radiation is 900 W/m²"],
    ["heat beyond any record", "ambient_C", 3, 61, "The temperature is 61 °C; −90 to 60 °C is possible"],
    ["cold beyond any record", "ambient_C", 3, -91, "The temperature is -91 °C"],
    ["negative wind", "wind_m_s", 3, -1, "The wind speed is -1 m/s; 0 to 75 m/s is possible"],
    ["wind beyond any hour", "wind_m_s", 3, 76, "The wind speed is 76 m/s"],
    ["humidity of 150 %", "humidity_share", 3, 1.5, "The relative humidity is 150 %; 0 to 110 % is possible"],
    ["pressure in the wrong unit", "pressure_Pa", 3, 1013, "The pressure is 1013 Pa"],
  ])("refuse %s, with its row", (_, series, hour, value, sentence) => {
    const { problems } = check(withValue(series, hour, value));
    expect(codes(problems)).toEqual(["WEATHER_IMPOSSIBLE"]);
    expect(problems[0]!.message).toContain(sentence);
    expect(problems[0]!.place).toMatchObject({ file: "w", row: hour + 2 });
  });

  it("group like rows", () => {
    const { problems } = check((year) => ({ wind_m_s: year.wind_m_s.map((value) => -value - 0.1) }));
    expect(problems).toHaveLength(1);
    expect(problems[0]!.message).toContain("in 8760 rows (2, 3, 4, 5, 6, … 8761)");
  });

  it("refuse a year without light", () => {
    const dark = new Float64Array(8760);
    expect(codes(check(() => ({ ghi_W_m2: dark, dni_W_m2: dark, dhi_W_m2: dark })).problems)).toContain(
      "WEATHER_NO_LIGHT",
    );
  });

  it("tell the size and the side of a shifted clock", () => {
    for (const hours of [-2, -1, 0, 1, 2])
      expect(clockShift_h(turned(clear.ghi_W_m2, hours), sun, phoenix.latitude_deg)).toBeCloseTo(hours, 1);
    for (const hours of [-1, 1]) {
      const { problems } = check((year) => ({
        ghi_W_m2: turned(year.ghi_W_m2, hours),
        dni_W_m2: turned(year.dni_W_m2, hours),
        dhi_W_m2: turned(year.dhi_W_m2, hours),
      }));
      expect(problems[0]!.code).toBe("WEATHER_CLOCK_SHIFT");
      expect(problems[0]!.message).toContain(`1.0 h ${hours > 0 ? "after" : "before"} the sun's noon`);
    }
  });

  it("remark on half an hour", () => {
    const half = (series: Float64Array) => {
      const later = turned(series, 1);
      return series.map((value, hour) => (value + later[hour]!) / 2);
    };
    const { problems, findings } = check((year) => ({
      ghi_W_m2: half(year.ghi_W_m2),
      dni_W_m2: half(year.dni_W_m2),
      dhi_W_m2: half(year.dhi_W_m2),
    }));
    expect(problems).toEqual([]);
    expect(codes(findings)).toContain("WEATHER_CLOCK_SHIFT");
  });

  it("remark on light at night and refuse much of it", () => {
    const little = check(withValue("ghi_W_m2", 2, 40));
    expect(little.problems).toEqual([]);
    expect(codes(little.findings)).toEqual(["WEATHER_NIGHT_LIGHT"]);
    expect(little.findings[0]!.place.row).toBe(4);
    const much = check((year) => ({
      ghi_W_m2: year.ghi_W_m2.map((value, hour) => (sun.sunlitShare[hour] === 0 ? 30 : value)),
    }));
    expect(codes(much.problems)).toContain("WEATHER_NIGHT_LIGHT");
  });

  it("refuse global and direct radiation in each other's column", () => {
    const { problems } = check((year) => ({
      ghi_W_m2: year.ghi_W_m2.map((ghi, hour) => Math.min(ghi, year.dni_W_m2[hour]!) * 0.4),
    }));
    expect(codes(problems)).toEqual(["WEATHER_CLOSURE"]);
  });

  it("remark on single hours in which the three disagree", () => {
    const noon = 12;
    const { problems, findings } = check(withValue("dni_W_m2", noon, 0));
    expect(problems).toEqual([]);
    expect(codes(findings)).toEqual(["WEATHER_CLOSURE"]);
    expect(findings[0]!.message).toContain("in row 14");
  });

  it("remark on beam above that of a cloudless sky, in many hours only", () => {
    const strong = check((year) => ({
      dni_W_m2: year.dni_W_m2.map((value) => Math.min(1300, 1.4 * value)),
      ghi_W_m2: year.ghi_W_m2.map(
        (value, hour) =>
          value + Math.min(1300 - year.dni_W_m2[hour]!, 0.4 * year.dni_W_m2[hour]!) * sun.up[hour]!,
      ),
    }));
    expect(strong.problems).toEqual([]);
    expect(codes(strong.findings)).toEqual(["WEATHER_ABOVE_CLEAR"]);
    expect(strong.findings[0]!.message).toContain("check its unit and column");
    // A few hours of clearer air are weather.
    const few = check((year) => ({
      dni_W_m2: year.dni_W_m2.map((value, hour) => (hour < 72 ? Math.min(1300, 1.4 * value) : value)),
    }));
    expect(codes(few.findings)).not.toContain("WEATHER_ABOVE_CLEAR");
  });

  it("remark on a station far off, in distance and height", () => {
    // A quarter of a great circle of a sphere of 6371 km: 10 007.5 km.
    expect(
      greatCircle_km({ latitude_deg: 0, longitude_deg: 20 }, { latitude_deg: 90, longitude_deg: 0 }),
    ).toBeCloseTo(10007.5, 1);
    expect(
      greatCircle_km({ latitude_deg: 0, longitude_deg: 170 }, { latitude_deg: 0, longitude_deg: -100 }),
    ).toBeCloseTo(10007.5, 1);
    const far = check(() => ({
      station: { ...clear.station!, latitude_deg: phoenix.latitude_deg + 0.5, elevation_m: 1000 },
    }));
    expect(far.findings.map(({ message }) => message)).toEqual([
      "The station Test field lies 56 km from the site and 663 m above it; the weather is used as it stands.",
    ]);
  });

  const stationAt = (latitude_deg: number, longitude_deg: number) => () => ({
    station: { ...clear.station!, latitude_deg, longitude_deg },
  });

  it("refuse a station of another place, unless the study accepts its distance", () => {
    const away = stationAt(phoenix.latitude_deg + 1, phoenix.longitude_deg);
    const far = check(away);
    expect(far.problems.map(({ message }) => message)).toEqual([
      "The station Test field lies 111 km from the site; up to 100 km is allowed. Take weather of the site, or write the distance to accept into the study as weather/distanceAccepted_km.",
    ]);
    const weather = { ...clear, ...away() };
    const accepting = (distanceAccepted_km: number) =>
      checkWeather({ weather, sun, site: phoenix, file: "w", line, dniDerived: false, distanceAccepted_km });
    expect(codes(accepting(110).problems)).toEqual(["WEATHER_STATION_FAR"]);
    expect(accepting(110).problems[0]!.message).toContain("up to 110 km is allowed");
    expect(accepting(112).problems).toEqual([]);
    expect(codes(accepting(112).findings)).toEqual(["WEATHER_STATION_FAR"]);
  });

  it.each<[string, number, number]>([
    ["the sign of the latitude turned", -33.45, -111.98],
    ["the sign of the longitude turned", 33.45, 111.98],
    ["both signs turned", -33.45, 111.98],
  ])("name a slip of the pen: %s", (slip, latitude_deg, longitude_deg) => {
    const { problems } = check(stationAt(latitude_deg, longitude_deg));
    expect(codes(problems)).toEqual(["WEATHER_PLACE_TURNED"]);
    expect(problems[0]!.message).toContain(`they agree with ${slip}`);
    expect(problems[0]!.message).toContain("33.45° north, 111.98° west");
  });

  it("name latitude and longitude that were swapped", () => {
    const site = { ...phoenix, latitude_deg: 40, longitude_deg: -60, utcOffset_h: -4 };
    const year = { ...clearYear(site), station: { ...clear.station!, latitude_deg: -60, longitude_deg: 40 } };
    const input = { weather: year, sun: sunYear(site), site, file: "w", line, dniDerived: false };
    const { problems } = checkWeather(input);
    expect(codes(problems)).toEqual(["WEATHER_PLACE_TURNED"]);
    expect(problems[0]!.message).toContain("they agree with latitude and longitude swapped.");
  });

  it("say that the latitude's sign looks wrong where a file without a station has its summer in winter", () => {
    const south = { ...phoenix, latitude_deg: -33.45 };
    const weather = { ...clear, station: null };
    const input = { weather, sun: sunYear(south), site: south, file: "w", line, dniDerived: false };
    const { problems } = checkWeather(input);
    expect(codes(problems)).toEqual(["WEATHER_SEASON", "WEATHER_IMPOSSIBLE"]);
    expect(problems[0]!.message).toContain("has its summer when the site at 33.45° south has winter");
  });

  it("ask of a year that nothing else speaks against whether it lies on the other side of the equator", () => {
    // At 16° the light of the other side is not impossible, and the air is colder in the site's summer.
    const north = { ...phoenix, latitude_deg: 16 };
    const south = { ...phoenix, latitude_deg: -16 };
    const seasons = (warmFromApril_K: number) =>
      Float64Array.from({ length: 8760 }, (_, hour) => {
        const day = Math.floor(hour / 24);
        return 20 + (day >= 90 && day < 273 ? warmFromApril_K : 0);
      });
    const cloudy = clearYear(north).ghi_W_m2.map((light) => 0.4 * light);
    const asked = (site: typeof phoenix, ambient_C: Float64Array) => {
      const dark = new Float64Array(8760);
      const light = { ghi_W_m2: cloudy, dhi_W_m2: cloudy, dni_W_m2: dark };
      const weather = { ...clear, ...light, ambient_C, station: null };
      const year = { weather, sun: sunYear(site), site, file: "w", line, dniDerived: true };
      const { problems, findings } = checkWeather(year);
      expect(problems).toEqual([]);
      return findings.filter(({ code }) => code === "WEATHER_SEASON").map(({ message }) => message);
    };
    expect(asked(north, seasons(6))).toEqual([]);
    expect(asked(south, seasons(6))).toHaveLength(1);
    expect(asked(south, seasons(6))[0]).toContain(
      "At 16° south the year's summer is 6.0 K colder than its winter",
    );
    // Light alone is no witness: a rainy summer looks like a winter.
    expect(asked(south, seasons(1))).toEqual([]);
    expect(asked(south, seasons(-6))).toEqual([]);
  });

  it.each([
    ["km/h", 3.6, "a mean above 7 m/s at 10 m is rare on land"],
    ["knots", 3600 / 1852, "a mean above 7 m/s"],
    ["mph", 1 / 0.44704, "a mean above 7 m/s"],
  ])("ask about a year whose wind in %s was read as m/s", (unit, factor, sentence) => {
    // The made year's mean wind is 4.45 m/s.
    const { problems, findings } = check((year) => ({
      wind_m_s: year.wind_m_s.map((wind) => wind * factor),
    }));
    expect(problems).toEqual([]);
    expect(codes(findings)).toEqual(["WEATHER_WIND_UNIT"]);
    expect(findings[0]!.message).toContain(sentence);
    expect(findings[0]!.message).toContain(`${unit} (then the mean is 4.4 m/s)`);
  });

  it("name the unit before an impossible wind, and ask about a hurricane and about hardly any wind", () => {
    const storm = check((year) => ({ wind_m_s: year.wind_m_s.map((wind) => wind * 9) }));
    expect(codes(storm.problems)).toEqual(["WEATHER_WIND_UNIT", "WEATHER_IMPOSSIBLE"]);
    const one = check(withValue("wind_m_s", 99, 35));
    expect(one.findings[0]!.message).toContain("35.0 m/s; an hour from 32.7 m/s on is a hurricane. Is");
    const calm = check((year) => ({ wind_m_s: year.wind_m_s.map((wind) => wind / 5) }));
    expect(codes(calm.findings)).toEqual(["WEATHER_WIND_UNIT"]);
    expect(calm.findings[0]!.message).toContain("a mean below 1 m/s is rare");
  });

  it("remark on wind that stands still for days, and on days without light", () => {
    const still = check((year) => ({
      wind_m_s: year.wind_m_s.map((wind, hour) => (hour >= 1000 && hour < 1072 ? 0 : wind)),
    }));
    expect(still.problems).toEqual([]);
    expect(codes(still.findings)).toEqual(["WEATHER_STUCK"]);
    expect(still.findings[0]!.message).toContain("The wind is 0 m/s for 72 hours without a break");
    expect(still.findings[0]!.place.row).toBe(1002);
    const night = (series: Float64Array) =>
      series.map((value, hour) => (hour >= 2400 && hour < 2424 ? 0 : value));
    const dark = check((year) => ({
      ghi_W_m2: night(year.ghi_W_m2),
      dni_W_m2: night(year.dni_W_m2),
      dhi_W_m2: night(year.dhi_W_m2),
    }));
    expect(dark.problems).toEqual([]);
    expect(codes(dark.findings)).toEqual(["WEATHER_DARK_DAY"]);
    expect(dark.findings[0]!.message).toContain("begin in row 2402");
  });

  it("refuse a clock that is put forward in summer", () => {
    const saving = (series: Float64Array) => {
      const later = turned(series, 1);
      return series.map((value, hour) => (hour >= 90 * 24 && hour < 300 * 24 ? later[hour]! : value));
    };
    const { problems } = check((year) => ({
      ghi_W_m2: saving(year.ghi_W_m2),
      dni_W_m2: saving(year.dni_W_m2),
      dhi_W_m2: saving(year.dhi_W_m2),
    }));
    expect(codes(problems)).toContain("WEATHER_CLOCK_SEASONS");
    expect(problems.find(({ code }) => code === "WEATHER_CLOCK_SEASONS")!.message).toContain(
      "moves by 1.0 h against the sun between winter and summer",
    );
  });
});
