import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  areaCurve,
  type Chart,
  carpet,
  cashFlow,
  collectorMatch,
  demandProfile,
  duration,
  efficiencyByConcentration,
  faultStrip,
  filmLife,
  forBothWidths,
  loadDuration,
  lossNames,
  lossWaterfall,
  marginalCost,
  monthlyWeather,
  monthlyWeatherSums,
  months,
  weekSlice,
  weeks,
} from "../../src/charts/index.ts";
import { ModelError } from "../../src/core/errors.ts";
import { expectClose } from "../support/close.ts";
import {
  sampleCash,
  sampleCharts,
  sampleConcentration,
  sampleCurve,
  sampleFilmLife,
  sampleLosses,
  sampleMatch,
  sampleMonths,
  sampleNetwork,
  sampleWeather,
} from "../support/sample-charts.ts";

const frame = { prefix: "t" };

/** What must hold of every chart, whatever the data. */
function expectSound(chart: Chart) {
  const { svg, reading, table } = chart;
  expect(svg).not.toMatch(/NaN|Infinity|undefined|null|\[object/);
  expect(reading).not.toMatch(/NaN|Infinity|undefined|null|\[object|-0\b/);
  expect(reading.trim()).toMatch(/\.$/);
  expect(svg).not.toMatch(/\sstyle=|<style|<script|\son[a-z]+=/);
  expect(svg).toMatch(/^<svg [^>]*role="img"/);
  expect(svg).toMatch(/<title id="[^"]+">[^<]+<\/title><desc id="[^"]+">[^<]+<\/desc>/);
  const ids = [...svg.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]);
  expect(new Set(ids).size).toBe(ids.length);
  for (const [, target] of svg.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(target);
  for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
}

/** Fails where tags do not nest: enough of XML for what the charts write. */
function expectWellFormed(svg: string) {
  const open: string[] = [];
  for (const [, close, name, empty] of svg.matchAll(/<(\/?)([a-zA-Z]+)(?:\s[^<>]*?)?(\/?)>/g)) {
    if (close === "/") expect(open.pop()).toBe(name);
    else if (empty !== "/") open.push(name!);
  }
  expect(open).toEqual([]);
}

describe.each(sampleCharts)("$name", ({ name, draw }) => {
  it("is sound and well formed, wide and narrow", () => {
    for (const width of [680, 350]) {
      const chart = draw({ prefix: name, width });
      expectSound(chart);
      expectWellFormed(chart.svg);
    }
  });
  it("gives the same bytes each time", () => expect(draw({ prefix: name })).toEqual(draw({ prefix: name })));
  it("escapes its title and keeps ids apart in both widths", () => {
    const chart = forBothWidths({ prefix: `${name} <&>`, title: `<script>"&'` }, draw);
    expect(chart.svg).not.toContain("<script");
    expect(chart.svg).toContain("&lt;script&gt;&quot;&amp;&#39;</title>");
    const ids = [...chart.svg.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]!);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[A-Za-z][\w-]*$/);
  });
});

const any = fc.oneof(
  fc.double({ min: -1e9, max: 1e9 }),
  fc.constantFrom(0, Number.NaN, Number.POSITIVE_INFINITY, 1e-300),
);
const twelve = fc.array(any, { minLength: 12, maxLength: 12 });
const series = (length: number) =>
  fc
    .tuple(fc.array(any, { minLength: 1, maxLength: 40 }))
    .map(([values]) => Float64Array.from({ length }, (_, index) => values[index % values.length]!));
const record = <K extends string>(...keys: K[]): fc.Arbitrary<Record<K, number>> =>
  fc
    .array(any, { minLength: keys.length, maxLength: keys.length })
    .map(
      (values) => Object.fromEntries(keys.map((key, index) => [key, values[index]!])) as Record<K, number>,
    );

describe("charts of any data whatever draw no NaN", () => {
  const few = { numRuns: 40 };
  it("months, also with none", () => {
    const month = fc.tuple(
      fc.integer({ min: 1, max: 12 }),
      record("demand_kWh", "direct_kWh", "fromStore_kWh", "backup_kWh", "spill_kWh"),
    );
    fc.assert(
      fc.property(fc.uniqueArray(month, { selector: ([number]) => number }), (list) => {
        expectSound(
          months(
            list.map(([number, rest]) => ({ month: number, ...rest })),
            frame,
          ),
        );
      }),
      few,
    );
  });
  it("monthly weather", () => {
    fc.assert(
      fc.property(twelve, twelve, twelve, twelve, (dni_kWh_m2, ghi_kWh_m2, dhi_kWh_m2, ambient_C) => {
        expectSound(monthlyWeather({ dni_kWh_m2, ghi_kWh_m2, dhi_kWh_m2, ambient_C }, frame));
      }),
      few,
    );
  });
  it("carpets", () => {
    fc.assert(
      fc.property(series(8760), (values) => {
        expectSound(carpet({ name: "Any", values, unit: "kW", scale: "load" }, frame));
      }),
      { numRuns: 8 },
    );
  });
  it("weeks", () => {
    const all = fc.tuple(series(168), series(168), series(168), series(168));
    fc.assert(
      fc.property(fc.array(all, { maxLength: 2 }), (list) => {
        const slices = list.map(([demand_kW, direct_kW, backup_kW, content_kWh], index) => ({
          name: `Week ${index}`,
          firstWeekday: 1 + index,
          demand_kW,
          direct_kW,
          fromStore_kW: backup_kW,
          stepIn_kW: direct_kW,
          backup_kW,
          intoStore_kW: demand_kW,
          spill_kW: content_kWh,
          content_kWh,
        }));
        expectSound(weeks(slices, frame));
      }),
      few,
    );
  });
  it("load duration, from one hour on", () => {
    fc.assert(
      fc.property(fc.nat(30).chain(series), fc.option(series(20), { nil: null }), (demand_kW, backup_kW) => {
        expectSound(loadDuration(backup_kW === null ? { demand_kW } : { demand_kW, backup_kW }, frame));
      }),
      few,
    );
  });
  it("area curves, also without lines", () => {
    const point = fc
      .record({
        by: fc.constantFrom("replay" as const, "lp" as const),
        figures: record(
          "aperture_m2",
          "store_kWh",
          "solarFraction",
          "fuelCostAvoided",
          "annualCost",
          "spilled_kWh",
          "unmet_kWh",
        ),
      })
      .map(({ by, figures }) => ({ by, ...figures }));
    const line = fc.record({
      storeFactor: fc.constantFrom(0, 0.5, 1, 2),
      storePerAperture_kWh_m2: any,
      points: fc.array(point, { maxLength: 5 }),
    });
    const curve = fc.record({
      optimum: point,
      optimumReplay: point,
      chosen: fc.option(point, { nil: null }),
      chosenBound: fc.option(point, { nil: null }),
      lines: fc.array(line, { maxLength: 4 }),
      bound: fc.array(point, { maxLength: 3 }),
      boundAt_m2: fc.array(any, { maxLength: 3 }),
      split: fc.constant([]),
      remarks: fc.constant([]),
    });
    fc.assert(
      fc.property(curve, (one) => expectSound(areaCurve(one, "XTS", frame))),
      few,
    );
  });
  it("marginal cost, also without networks", () => {
    fc.assert(
      fc.property(fc.array(series(8760), { maxLength: 2 }), (list) => {
        const networks = list.map((marginal_per_kWh, index) => ({ name: `N${index}`, marginal_per_kWh }));
        expectSound(marginalCost({ currency: "XTS", networks }, frame));
      }),
      { numRuns: 8 },
    );
  });
  it("marginal cost by demand where there is any", () => {
    const marginal_per_kWh = new Float64Array(8760).fill(1).fill(5, 0, 24);
    const demand_kW = new Float64Array(8760).fill(7, 0, 24);
    const weighted = marginalCost(
      { currency: "XTS", networks: [{ name: "N", marginal_per_kWh, demand_kW }] },
      frame,
    );
    const winter = weighted.table.rows.find(([, season]) => season === "Dec–Feb")!;
    expect(winter.slice(2)).toEqual(new Array(24).fill(5));
    expect(weighted.table.rows.find(([, season]) => season === "Jun–Aug")!.slice(2)).toEqual(
      new Array(24).fill(1),
    );
  });
  it("cash flow, also without years", () => {
    const amounts = record("capital", "replacements", "upkeep", "avoided", "residual", "net", "cumulative");
    fc.assert(
      fc.property(fc.array(amounts, { maxLength: 31 }), (list) => {
        expectSound(
          cashFlow(
            list.map((year, index) => ({ year: index, ...year })),
            "XTS",
            frame,
          ),
        );
      }),
      few,
    );
  });
  it("collector match, also without rows", () => {
    const row = fc.record({
      collector: fc.constantFrom("A", "B"),
      network: fc.constantFrom("P", "Q", "R"),
      possible: fc.boolean(),
      meanFluid_C: any,
      useful_kWh_per_m2: any,
    });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 8 }), (list) => {
        expectSound(
          collectorMatch(
            list.map((one) => ({ ...sampleMatch()[0]!, ...one })),
            frame,
          ),
        );
      }),
      few,
    );
  });
  it("loss waterfalls, also without networks", () => {
    const losses = record(...(Object.keys(lossNames) as (keyof typeof lossNames)[]));
    const chain = fc
      .tuple(
        record("beam_kWh_per_m2", "diffuse_kWh_per_m2", "useful_kWh_per_m2", "spilled_kWh_per_m2"),
        fc.option(any, { nil: null }),
        losses,
      )
      .map(([sums, used_kWh_per_m2, lost]) => ({ ...sums, used_kWh_per_m2, losses: lost }));
    const panel = fc.record({ name: fc.constantFrom("A", "B"), meanFluid_C: any, chain });
    fc.assert(
      fc.property(fc.array(panel, { maxLength: 5 }), (list) => expectSound(lossWaterfall(list, frame))),
      few,
    );
  });
  it("efficiency by concentration, also without curves", () => {
    const curve = fc.record({
      meanFluid_C: any,
      slopeError_mrad: any,
      concentration: fc.array(any, { maxLength: 5 }),
      efficiency: fc.array(any, { maxLength: 5 }),
      best: record("concentration", "efficiency"),
    });
    fc.assert(
      fc.property(fc.array(curve, { maxLength: 4 }), (list) =>
        expectSound(efficiencyByConcentration(list, frame)),
      ),
      few,
    );
  });
  it("film life, also without prices", () => {
    const curve = fc.record({
      filmPrice_per_m2: any,
      cost_per_kWh: fc.array(any, { maxLength: 5 }),
      best: record("life_years", "cost_per_kWh"),
    });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 5 }), fc.array(curve, { maxLength: 3 }), (life_years, curves) =>
        expectSound(filmLife({ life_years, curves }, "XTS", frame)),
      ),
      few,
    );
  });
  it("strips round any fault, at any place of the series", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 900 }).chain((n) => fc.tuple(series(n), fc.nat(n - 1), fc.nat(n - 1))),
        ([values, a, b]) => {
          const place = { from: Math.min(a, b), to: Math.max(a, b), sentence: "Noticed." };
          expectSound(faultStrip({ ...place, values, unit: "kW" }, frame));
        },
      ),
      few,
    );
    const values = new Float64Array(48);
    expect(() => faultStrip({ values, from: 40, to: 48, unit: "kW", sentence: "" }, frame)).toThrow(
      "SERIES_LENGTH",
    );
  });
  it("demand profiles of any length", () => {
    fc.assert(
      fc.property(fc.nat(400).chain(series), (values) => {
        const weekday = Uint8Array.from(values, (_, index) => (Math.floor(index / 24) % 7) + 1);
        const hour = Uint8Array.from(values, (_, index) => index % 24);
        expectSound(demandProfile({ values, weekday, hour, unit: "kW" }, frame));
      }),
      few,
    );
  });
});

describe("tables hold the figures drawn", () => {
  it("months", () => {
    const figures = sampleMonths();
    const { rows } = months(figures, frame).table;
    expect(rows.map((row) => row.slice(1))).toEqual(
      figures.map((m) => [m.demand_kWh, m.direct_kWh, m.fromStore_kWh, m.backup_kWh, m.spill_kWh]),
    );
  });
  it("cash flow", () => {
    const years = sampleCash();
    expect(cashFlow(years, "XTS", frame).table.rows.map((row) => row[7])).toEqual(
      years.map((year) => year.cumulative),
    );
  });
  it("monthly weather", () => {
    expect(monthlyWeather(sampleWeather(), frame).table.rows.map((row) => row[1])).toEqual(
      sampleWeather().dni_kWh_m2,
    );
  });
  it("area curve: every point of every line, bounds, least cost and chosen", () => {
    const curve = sampleCurve();
    expect(areaCurve(curve, "XTS", frame).table.rows).toHaveLength(4 * 13 + 3 + 2 * 2);
  });
  it("loss waterfall: every loss, however small, and each column adds up", () => {
    const panels = sampleLosses();
    const { columns, rows } = lossWaterfall(panels, frame).table;
    expect(rows).toHaveLength(2 + Object.keys(lossNames).length + 3);
    for (let column = 1; column < columns.length; column += 1) {
      const cell = (row: number) => rows[row]![column] as number;
      const losses = Object.keys(lossNames).map((_, index) => cell(2 + index));
      const useful = cell(2 + losses.length);
      expectClose(cell(0) + cell(1) - losses.reduce((sum, loss) => sum + loss, 0), useful, 1e-9);
    }
  });
  it("efficiency by concentration and film life: every point and every best", () => {
    const curves = sampleConcentration();
    const { table } = efficiencyByConcentration(curves, frame);
    expect(table.rows).toHaveLength(3 * (40 + 1));
    expect(table.rows[5]!.slice(1)).toEqual([
      curves[0]!.concentration[5],
      ...curves.slice(0, 3).map(({ efficiency }) => efficiency[5]),
    ]);
    const { rows } = filmLife(sampleFilmLife(), "XTS", frame).table;
    expect(rows).toHaveLength(20 + 1);
    expect(rows.at(-1)!.slice(1)).toEqual(sampleFilmLife().curves.map(({ best }) => best.life_years));
  });
  it("carpet: the months' means weighed by their hours give the year's sum", () => {
    const { demand_kW } = sampleNetwork();
    const { rows } = carpet({ name: "Demand", values: demand_kW, unit: "kW", scale: "load" }, frame).table;
    const hours = [744, 672, 744, 720, 744, 720, 744, 744, 720, 744, 720, 744];
    const total = rows.reduce((sum, row, index) => sum + (row[1] as number) * hours[index]!, 0);
    expectClose(
      total,
      demand_kW.reduce((sum, value) => sum + value, 0),
      1e-9,
    );
  });
});

describe("what is drawn", () => {
  it("stacks a month's bars without gap to the month's heat", () => {
    const month = {
      month: 1,
      demand_kWh: 100,
      direct_kWh: 50,
      fromStore_kWh: 30,
      backup_kWh: 20,
      spill_kWh: 0,
    };
    const { svg } = months([month], frame);
    const bars = [...svg.matchAll(/<rect x="[\d.]+" y="([\d.]+)" width="[\d.]+" height="([\d.]+)"/g)]
      .map((match) => [Number(match[1]), Number(match[2])] as const)
      .filter(([, height]) => height > 15);
    expect(bars).toHaveLength(3);
    const [direct, store, backup] = bars as [
      readonly [number, number],
      readonly [number, number],
      readonly [number, number],
    ];
    expectClose(store[0] + store[1], direct[0], 1e-3);
    expectClose(backup[0] + backup[1], store[0], 1e-3);
    expectClose(direct[1] / backup[1], 2.5, 1e-3);
  });
  it("lets each loss begin where the one before ended, and end at the useful heat", () => {
    const [panel] = sampleLosses();
    const { svg } = lossWaterfall([panel!], frame);
    const bars = [...svg.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)" height="11"/g)].map(
      (match) => ({ left: Number(match[1]), right: Number(match[1]) + Number(match[2]) }),
    );
    const useful = bars.length - 3;
    for (let at = 1; at < useful; at += 1)
      expectClose(bars[at]!.right, bars[at - 1]![at === 1 ? "right" : "left"], 1e-3);
    expectClose(bars[useful]!.right, bars[useful - 1]!.left, 1e-3);
    expectClose(bars[useful + 2]!.right, bars[useful + 1]!.left, 1e-3);
    expectClose((bars[useful]!.right - bars[0]!.left) / (bars[0]!.right - bars[0]!.left), 777 / 1960, 1e-3);
  });
  it("draws losses below a two-hundredth of the light as one, unless one network loses more", () => {
    const { svg } = lossWaterfall(sampleLosses().slice(0, 1), frame);
    expect(svg).toContain(">other losses<");
    for (const small of ["past the ends", "warming up"]) expect(svg).not.toContain(`>${small}<`);
    expect(lossWaterfall(sampleLosses(), frame).svg).toContain(">warming up<");
  });
  it("draws waterfalls to be compared on one scale", () => {
    const three = sampleLosses();
    const dim = three.slice(0, 1).map(({ chain, ...panel }) => ({
      ...panel,
      chain: { ...chain, beam_kWh_per_m2: 980, useful_kWh_per_m2: 0 },
    }));
    const firstBar = ({ svg }: Chart) => Number(svg.match(/width="([\d.]+)" height="11"/)![1]);
    const alone = firstBar(lossWaterfall(three, frame));
    expectClose(firstBar(lossWaterfall(dim, frame, [three, dim])), alone / 2, 1e-3);
  });
  it("tells of a collector that is not built its useful heat only", () => {
    const chart = lossWaterfall(sampleLosses().slice(2), frame);
    expect(chart.svg).not.toContain(">spilled<");
    expect(chart.table.rows.at(-1)![1]).toBe("not built");
  });
  it("marks the least of each film price at its life", () => {
    const { reading, svg } = filmLife(sampleFilmLife(), "XTS", frame);
    expect(svg.match(/<circle/g)).toHaveLength(3);
    expect(reading).toMatch(/at 3 XTS\/m² 2.5 years .* at 12 XTS\/m² 4 years/);
  });
  it("sorts the load duration curve and counts the backup's hours", () => {
    const chart = loadDuration(
      { demand_kW: Float64Array.of(1, 3, 2), backup_kW: Float64Array.of(0, 2, 0) },
      frame,
    );
    expect(chart.table.rows).toEqual([
      [1, 3, 2],
      [3, 1, 0],
    ]);
    expect(chart.reading).toContain("peaks at 2 kW and runs 1 hour,");
  });
  it("names the year of pay-back only where the sum stays above zero", () => {
    const year = { ...sampleCash()[0]!, capital: 0, replacements: 0 };
    const flow = [-10, 5, -1, 2, 4].map((cumulative, index) => ({ ...year, year: index, cumulative }));
    expect(cashFlow(flow, "XTS", frame).reading).toContain("from year 3");
  });
  it("counts no hour for what a solver's tolerance leaves of zero", () => {
    const demand_kW = new Float64Array(8760).fill(1000);
    const backup_kW = Float64Array.from(demand_kW, (_, hour) => (hour < 100 ? 400 : 3e-4));
    const traces_kW = new Float64Array(8760).fill(3e-4);
    expect(loadDuration({ demand_kW, backup_kW }, frame).reading).toContain("runs 100 hours");
    expect(loadDuration({ demand_kW, backup_kW: traces_kW }, frame).reading).toContain(
      "the backup never runs",
    );
    const { reading, table } = carpet(
      { name: "Backup", values: backup_kW, unit: "kW", scale: "backup" },
      frame,
    );
    expect(reading).toContain("above zero in 100 of 8,760 hours, with a mean of 400 kW");
    expect(table.rows.reduce((sum, row) => sum + Number(row[3]), 0)).toBe(100);
  });

  it("colours temperatures from the lowest on, and tells lowest, mean and highest", () => {
    const values = new Float64Array(8760).fill(10);
    values[4000] = -20;
    values[5000] = 40;
    const chart = carpet({ name: "Air", values, unit: "°C", scale: "content", lowest: -20 }, frame);
    expect(chart.reading).toMatch(
      /^Air lies between -?−?20 °C on .* and 40 °C on .*, with a mean of 10 °C\.$/,
    );
    expect(chart.table.rows[0]).toEqual(["January", 10, 10, 10]);
    expect(chart.table.rows[5]).toEqual(["June", expect.closeTo(10 - 30 / 720, 9), -20, 10]);
    expect(chart.svg).not.toContain("hatched");
    const warm = carpet(
      { name: "Air", values: values.map((t) => t + 20), unit: "°C", scale: "content", lowest: 0 },
      frame,
    );
    const picture = (svg: string) => /href="(data:[^"]+)"/.exec(svg)![1];
    expect(picture(warm.svg)).toBe(picture(chart.svg));
  });

  it("keeps the words of limits close together off each other and off their lines", () => {
    const values = Float64Array.from({ length: 8760 }, (_, hour) => (16 * hour) / 8760);
    const limits = [12, 13, 14, 14, 5].map((at, n) => ({ name: `Kind ${n}`, at }));
    for (const given of [limits, limits.slice(0, 2), limits.slice(3)]) {
      const { svg } = duration({ name: "Wind", unit: "m/s", values, limits: given }, frame);
      const words = [...svg.matchAll(/<text[^>]* y="([\d.-]+)"[^>]*>Kind/g)].map(([, y]) => Number(y));
      const lines = [...svg.matchAll(/d="M[\d.]+ ([\d.]+)H[\d.]+"[^>]*dasharray/g)].map(([, y]) => Number(y));
      expect(words).toHaveLength(given.length);
      expect(lines).toHaveLength(given.length);
      expect(Math.min(...words)).toBeGreaterThan(10);
      for (const [n, word] of words.toSorted((a, b) => a - b).entries()) {
        if (n > 0) expect(word - words.toSorted((a, b) => a - b)[n - 1]!).toBeGreaterThanOrEqual(15);
        for (const line of lines) expect(line > word + 3 || line < word - 10, `${line} ${word}`).toBe(true);
      }
    }
  });

  it("says in hatching which hours of a carpet are missing", () => {
    const values = new Float64Array(8760).fill(1);
    values[100] = Number.NaN;
    const chart = carpet({ name: "Sun", values, unit: "W/m²", scale: "sun" }, frame);
    expect(chart.svg).toContain("hatched: no data");
    expect(chart.reading).toContain("1 hour has no data");
  });
  it("leaves pairings that are not possible out of the match but in the table", () => {
    const chart = collectorMatch(sampleMatch(), frame);
    expect(chart.reading).toContain("1 of 12 pairings are not possible");
    expect(chart.table.rows).toHaveLength(12);
  });
  it("splits a week so that its sources meet demand and step-downs", () => {
    const network = sampleNetwork();
    const slice = weekSlice(network, { name: "w", firstHour: 4000, firstWeekday: 1 });
    for (let hour = 0; hour < 168; hour += 1) {
      const met =
        slice.direct_kW[hour]! + slice.fromStore_kW[hour]! + slice.stepIn_kW[hour]! + slice.backup_kW[hour]!;
      expectClose(met, slice.demand_kW[hour]!, 1e-9);
    }
  });
  it("does not change its input", () => {
    const values = Float64Array.of(3, 1, 2);
    loadDuration({ demand_kW: values }, frame);
    expect([...values]).toEqual([3, 1, 2]);
  });
  it("sums a weather year by month in kWh/m²", () => {
    const flat = (value: number) => new Float64Array(8760).fill(value);
    const sums = monthlyWeatherSums({
      description: "flat",
      ghi_W_m2: flat(100),
      dni_W_m2: flat(200),
      dhi_W_m2: flat(50),
      ambient_C: flat(20),
      humidity_share: flat(0.5),
      wind_m_s: flat(1),
      pressure_Pa: flat(101325),
      station: null,
    });
    expectClose(sums.dni_kWh_m2[0]!, 148.8, 1e-12);
    expectClose(sums.ambient_C[1]!, 20, 1e-12);
  });
  it("refuses series that do not fit each other", () => {
    expect(() => carpet({ name: "x", values: new Float64Array(5), unit: "kW", scale: "sun" }, frame)).toThrow(
      ModelError,
    );
    expect(() =>
      demandProfile({ values: new Float64Array(5), weekday: [1], hour: [0], unit: "kW" }, frame),
    ).toThrow(ModelError);
  });
});
