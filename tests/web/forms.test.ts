import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkCalendars } from "../../src/core/study/checks/calendars.ts";
import type { Mount, Study } from "../../src/core/study/schema/study.ts";
import { validateStudy } from "../../src/formats/study-json.ts";
import { exampleDefinition } from "../../src/store/example-files.ts";
import { applyFields } from "../../src/web/forms/apply-fields.ts";
import { buildForm } from "../../src/web/forms/build-form.ts";
import { addItem, removeItem } from "../../src/web/forms/change-items.ts";
import type { FormField, InputField } from "../../src/web/forms/form-field.ts";
import { calendarKinds, startingCalendar } from "../../src/web/forms/starting-calendar.ts";
import { itemLists, withIds, withIndexes } from "../../src/web/forms/study-paths.ts";
import { smallStudy } from "../support/small-study.ts";

const entries = (fields: Record<string, string | string[]>) =>
  new Map(Object.entries(fields).map(([name, value]) => [name, Array.isArray(value) ? value : [value]]));
const apply = (study: Study, fields: Record<string, string | string[]>) =>
  applyFields(study, entries(fields));

function inputsOf(fields: readonly FormField[]): InputField[] {
  return fields.flatMap((field) =>
    field.kind === "input"
      ? [field]
      : field.kind === "group"
        ? inputsOf(field.fields)
        : field.rows.flatMap(({ cells }) => [...cells]),
  );
}

/** Every input of a study as its form would send it back untouched. */
function untouched(study: Study): Map<string, readonly string[]> {
  const context = { study, fileNames: ["weather.csv", "roasting.csv"], typed: new Map(), problems: [] };
  const paths = itemLists.flatMap((list) => study[list].map((_, index) => `${list}/${index}`));
  const all = ["site", "money", "limits", "electricity", "chosenPoint", ...paths].flatMap((path) =>
    inputsOf(buildForm(context, path)),
  );
  return new Map(
    all.map((field) => [field.path, field.input === "many" ? ["", ...field.values] : [field.value]]),
  );
}

const mounts: Mount[] = [
  { type: "monthly-tilt", tilts_deg: [50, 45, 40, 30, 20, 15, 15, 20, 30, 40, 45, 50.5], azimuth_deg: 170 },
  { type: "one-axis", azimuth_deg: 20, axisTilt_deg: 5, backtracking: false },
  { type: "one-axis", azimuth_deg: 20, axisTilt_deg: 5, mostTurn_deg: 55, backtracking: true },
  { type: "vertical-axis-tilting", leastTilt_deg: 10, mostTilt_deg: 70 },
  { type: "two-axes" },
  { type: "two-axes", leastElevation_deg: 12 },
];

/** The small study with a calendar of one shift that nothing goes by yet. */
function withCalendar(): Study {
  const outcome = addItem(smallStudy(), "calendars", "one-shift", {
    item: { ...startingCalendar("days", "one-shift")! },
    origins: [],
  });
  if (!outcome.ok) throw new Error(outcome.problems[0]!.message);
  return outcome.value.study;
}

/** A network that can drive a chiller. */
function warmStudy(): Study {
  const study = smallStudy();
  return {
    ...study,
    networks: study.networks.map((network) => ({ ...network, supply_C: 90, return_C: 70 })),
  };
}

function onMount(mount: Mount): Study {
  const study = smallStudy();
  return { ...study, collectors: study.collectors.map((collector) => ({ ...collector, mount })) };
}

describe("applyFields(study, entries)", () => {
  it.each([
    ["the small study", smallStudy()],
    ["the worked example", exampleDefinition().study],
    ...mounts.map((mount): [string, Study] => [`a mount "${mount.type}"`, onMount(mount)]),
  ])("leaves %s as it was where every field comes back untouched", (_name, study) => {
    const { study: after, problems } = applyFields(study, untouched(study));
    expect(problems).toEqual([]);
    expect(after).toEqual(study);
  });

  it("takes field pipes and frost protection in where something is written, and leaves them out where nothing is", () => {
    const study = smallStudy();
    const context = { study, fileNames: [], typed: new Map(), problems: [] };
    const groups = buildForm(context, "collectors/0").filter((field) => field.kind === "group");
    for (const title of ["Field pipes", "Frost protection"])
      expect(groups.find((group) => group.title === title)).toMatchObject({ optional: true, folded: true });
    const written = apply(study, {
      "collectors/0/pipes/length_m": "150",
      "collectors/0/pipes/forAperture_m2": "1 000",
      "collectors/0/pipes/outerDiameter_mm": "60.3",
      "collectors/0/pipes/wall_mm": "2.9",
      "collectors/0/pipes/insulation_mm": "60",
      "collectors/0/pipes/insulation_W_mK": "0.045",
      "collectors/0/pipes/surface_W_m2K": "",
      "collectors/0/pipes/fluid": "water",
      "collectors/0/frost/by": "drain",
      "collectors/0/frost/keepAbove_C": "4",
      "collectors/0/frost/refill_h": "",
    });
    expect(written.problems).toEqual([]);
    expect(validateStudy(written.study, "study.json").ok).toBe(true);
    expect(written.study.collectors[0]).toMatchObject({
      pipes: { length_m: 150, forAperture_m2: 1000, fluid: "water" },
      frost: { by: "drain", keepAbove_C: 4 },
    });
    const cleared = apply(
      written.study,
      Object.fromEntries(
        [
          "length_m",
          "forAperture_m2",
          "outerDiameter_mm",
          "wall_mm",
          "insulation_mm",
          "insulation_W_mK",
          "fluid",
        ]
          .map((key) => [`collectors/0/pipes/${key}`, ""])
          .concat([
            ["collectors/0/frost/by", ""],
            ["collectors/0/frost/keepAbove_C", ""],
          ]),
      ),
    );
    expect(cleared.study.collectors[0]!.pipes).toBeUndefined();
    expect(cleared.study.collectors[0]!.frost).toBeUndefined();
  });

  it("does not change the study that it was given", () => {
    const study = smallStudy();
    const { study: after } = apply(study, { "networks/0/supply_C": "95.5" });
    expect(after.networks[0]!.supply_C).toBe(95.5);
    expect(study).toEqual(smallStudy());
  });

  it("reads numbers with blanks between thousands and the typographic minus, exactly", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const text = String(value).replace("-", "−");
        const { study, problems } = apply(smallStudy(), {
          "money/carbonPrice_per_t": text.replace("e−", "e-"),
        });
        expect(problems).toEqual([]);
        expect(study.money.carbonPrice_per_t === value).toBe(true);
      }),
    );
    expect(apply(smallStudy(), { "limits/budget": "1 250 000" }).study.limits.budget).toBe(1_250_000);
  });

  it.each(["1,5", "abc", "1.2.3", "NaN", "Infinity", "0x10", "--1", "1e"])(
    "refuses %s as a number and keeps the old one",
    (text) => {
      const { study, problems } = apply(smallStudy(), { "networks/0/supply_C": text });
      expect(problems).toHaveLength(1);
      expect(problems[0]!.code).toBe("FORM_NUMBER");
      expect(problems[0]!.message).toContain(text);
      expect(problems[0]!.place.path).toBe("networks/0/supply_C");
      expect(study.networks[0]!.supply_C).toBe(90);
    },
  );

  it("tells every fault at once", () => {
    const { problems } = apply(smallStudy(), {
      "networks/0/supply_C": "hot",
      "networks/0/return_C": "",
      "loads/0/heat_kW/level": "many",
      "collectors/0/mount/type": "sideways",
    });
    expect(problems.map(({ code }) => code).sort()).toEqual(["FORM_EMPTY", "FORM_NUMBER", "FORM_NUMBER"]);
  });

  it("ignores names that are no place of the schema, those of prototypes too", () => {
    const { study, problems } = apply(smallStudy(), {
      "__proto__/polluted": "1",
      "networks/0/__proto__/polluted": "1",
      "networks/0/constructor": "1",
      formatVersion: "2",
      nonsense: "1",
      "remove:__proto__/0": "1",
    });
    expect(problems).toEqual([]);
    expect(study).toEqual(smallStudy());
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  it("brings the new variant's starting values, valid and marked as assumptions", () => {
    const choices: [string, string][] = [
      ["collectors/0/mount/type", "fixed"],
      ["collectors/0/mount/type", "monthly-tilt"],
      ["collectors/0/mount/type", "one-axis"],
      ["collectors/0/mount/type", "vertical-axis"],
      ["collectors/0/mount/type", "vertical-axis-tilting"],
      ["collectors/0/mount/type", "two-axes"],
      ["collectors/0/optics/by", "computed"],
      ["collectors/0/modifier/type", "table"],
      ["collectors/0/modifier/type", "polynomial"],
      ["collectors/0/heatLoss/by", "receiver-tube"],
      ["loads/0/heat_kW/from", "calendar"],
      ["calendars/0/week/by", "hours"],
    ];
    for (const [path, value] of choices) {
      const { study, problems } = apply(withCalendar(), { [path]: value });
      expect(problems).toEqual([]);
      expect(validateStudy(study, "study.json").ok, `${path} ${value}`).toBe(true);
      const group = withIds(study, path.slice(0, path.lastIndexOf("/")));
      expect(study.origins).toContainEqual(expect.objectContaining({ path: group, status: "assumption" }));
    }
  });

  it("keeps what two variants share: the level of a profile", () => {
    const { study } = apply(withCalendar(), { "loads/0/heat_kW/from": "calendar" });
    expect(study.loads[0]).toMatchObject({ heat_kW: { from: "calendar", level: 500, calendar: "days" } });
  });

  it("adds a row where the empty one was filled, and drops the rows marked for it", () => {
    const added = apply(smallStudy(), {
      "collectors/0/parts/2/name": "Piping",
      "collectors/0/parts/2/price_per_unit": "9",
      "collectors/0/parts/2/life_years": "20",
      "collectors/0/parts/2/upkeep_per_unit_year": "0",
    }).study;
    expect(added.collectors[0]!.parts.map(({ name }) => name)).toEqual([
      "Frame and receiver",
      "Film",
      "Piping",
    ]);
    const dropped = apply(added, { "remove:collectors/0/parts/0": "1" }).study;
    expect(dropped.collectors[0]!.parts.map(({ name }) => name)).toEqual(["Film", "Piping"]);
    const blank = apply(smallStudy(), {
      "collectors/0/parts/2/name": "",
      "collectors/0/parts/2/price_per_unit": "",
    });
    expect(blank.problems).toEqual([]);
    expect(blank.study).toEqual(smallStudy());
  });

  it("adds an optional group and leaves it out again", () => {
    const point = { "chosenPoint/aperture_m2": "900", "chosenPoint/storePerAperture_kWh_m2": "0.5" };
    const added = apply(smallStudy(), point).study;
    expect(added.chosenPoint).toEqual({ aperture_m2: 900, storePerAperture_kWh_m2: 0.5 });
    const empty = { "chosenPoint/aperture_m2": "", "chosenPoint/storePerAperture_kWh_m2": "" };
    const { study, problems } = apply(added, empty);
    expect(problems).toEqual([]);
    expect(study).toEqual(smallStudy());
  });

  it("adds a choice that may be left out, changes it and leaves it out again", () => {
    const added = (study: Study, list: "loads" | "chillers", kind: string) => {
      const outcome = addItem(study, list, kind);
      return outcome.ok ? outcome.value.study : study;
    };
    const before = added(added(warmStudy(), "loads", "cooling"), "chillers", "");
    const load = before.loads.findIndex(({ kind }) => kind === "cooling");
    for (const by of ["characteristic", "points"]) {
      for (const from of ["wet-tower", "dry-cooler", "by-month"]) {
        const chosen = apply(before, { "chillers/0/byTemperature/by": by }).study;
        const { study, problems } = apply(chosen, { "chillers/0/byTemperature/coolingWater/from": from });
        expect(problems).toEqual([]);
        expect(validateStudy(study, "study.json").ok, `${by} ${from}`).toBe(true);
        expect(study.chillers[0]!.byTemperature).toMatchObject({ by, coolingWater: { from } });
        expect(applyFields(study, untouched(study)).study).toEqual(study);
        const out = apply(study, { "chillers/0/byTemperature/by": "" });
        expect(out.problems).toEqual([]);
        expect(out.study.chillers).toEqual(before.chillers);
      }
    }
    for (const by of ["slope", "reversible-share"]) {
      const path = `loads/${load}/electricChiller/byAmbient/by`;
      const { study } = apply(before, { [path]: by });
      expect(validateStudy(study, "study.json").ok, by).toBe(true);
      expect(study.loads[load]).toMatchObject({ electricChiller: { byAmbient: { by } } });
      expect(apply(study, { [path]: "" }).study.loads).toEqual(before.loads);
    }
  });

  it("adds a sized charging power to a store and leaves it out again", () => {
    const fields = {
      "stores/0/charging/existing_kW": "0",
      "stores/0/charging/size/choice": "bounded",
      "stores/0/charging/size/most": "400",
    };
    const { study, problems } = apply(smallStudy(), fields);
    expect(problems).toEqual([]);
    expect(study.stores[0]!.charging).toEqual({
      existing_kW: 0,
      size: { choice: "bounded", most: 400 },
      parts: [],
    });
    const priced = apply(study, {
      "stores/0/charging/parts/0/name": "Pumps",
      "stores/0/charging/parts/0/price_per_unit": "20",
      "stores/0/charging/parts/0/life_years": "15",
      "stores/0/charging/parts/0/upkeep_per_unit_year": "0",
    });
    expect(validateStudy(priced.study, "study.json").ok).toBe(true);
    expect(priced.study.stores[0]!.charging!.parts).toHaveLength(1);
    expect(applyFields(priced.study, untouched(priced.study)).study).toEqual(priced.study);
    const blank = Object.fromEntries(Object.keys(fields).map((path) => [path, ""]));
    const without = apply(priced.study, { ...blank, "remove:stores/0/charging/parts/0": "on" });
    expect(without.problems).toEqual([]);
    expect(without.study).toEqual(smallStudy());
  });

  it("adds a shift with the days that are ticked, holidays and a start-up to a calendar", () => {
    const { study, problems } = apply(withCalendar(), {
      "calendars/0/week/shifts/1/name": "Night",
      "calendars/0/week/shifts/1/weekdays": ["", "1", "2", "4"],
      "calendars/0/week/shifts/1/starts_h": "22",
      "calendars/0/week/shifts/1/ends_h": "6",
      "calendars/0/week/shifts/1/share": "0.5",
      "calendars/0/holidays/0/name": "Works day",
      "calendars/0/holidays/0/date": "05-01",
      "calendars/0/holidays/0/runsAs": "sunday",
      "calendars/0/ramp/afterIdle_h": "10",
      "calendars/0/ramp/lasts_h": "2",
      "calendars/0/ramp/startsAt": "1.4",
    });
    expect(problems).toEqual([]);
    expect(validateStudy(study, "study.json").ok).toBe(true);
    expect(study.calendars[0]).toMatchObject({
      week: { shifts: [{ name: "Day" }, { name: "Night", weekdays: [1, 2, 4], starts_h: 22, ends_h: 6 }] },
      holidays: [{ date: "05-01", runsAs: "sunday" }],
      ramp: { startsAt: 1.4 },
    });
    expect(applyFields(study, untouched(study)).study).toEqual(study);
  });

  it("starts a calendar of every kind, and keeps one while a load goes by it", () => {
    for (const [kind] of calendarKinds) {
      const outcome = addItem(smallStudy(), "calendars", kind);
      if (!outcome.ok) throw new Error(kind);
      const { study } = outcome.value;
      expect(validateStudy(study, "study.json").ok, kind).toBe(true);
      expect(checkCalendars(study), kind).toEqual([]);
    }
    const used = apply(withCalendar(), { "loads/0/heat_kW/from": "calendar" }).study;
    const removed = removeItem(used, "calendars", "days");
    expect(!removed.ok && removed.problems[0]!.message).toContain("Washing");
    const { study } = apply(used, { "calendars/0/id": "shifts" });
    expect(study.loads[0]).toMatchObject({ heat_kW: { calendar: "shifts" } });
    const choices = (from: Study) =>
      inputsOf(buildForm({ study: from, fileNames: [], typed: new Map(), problems: [] }, "loads/0"))
        .find(({ path }) => path === "loads/0/heat_kW/from")!
        .choices.map(({ value }) => value);
    expect(choices(smallStudy())).toEqual(["constant"]);
    expect(choices(withCalendar())).toEqual(["calendar", "bills", "constant"]);
  });

  it("renames an item everywhere it is named", () => {
    const { study } = apply(smallStudy(), { "networks/0/id": "warm" });
    expect(
      [study.loads[0], study.stores[0], study.backups[0]].map(
        (item) => (item as { network: string }).network,
      ),
    ).toEqual(["warm", "warm", "warm"]);
    expect(study.collectors[0]!.networks).toEqual(["warm"]);
  });
});

describe("origins", () => {
  const assumed = (): Study => ({
    ...smallStudy(),
    origins: [
      { path: "collectors/trough/cleanliness", status: "assumption", source: "a guess" },
      { path: "collectors/trough/parts/1/life_years", status: "assumption", source: "the maker" },
      { path: "money", status: "assumption", source: "a guess" },
    ],
  });

  it("are dropped by a change, and overruled within an assumed group", () => {
    const { study } = apply(assumed(), { "collectors/0/cleanliness": "0.9", "money/years": "25" });
    expect(study.origins).not.toContainEqual(
      expect.objectContaining({ path: "collectors/trough/cleanliness" }),
    );
    expect(study.origins).toContainEqual(expect.objectContaining({ path: "money", status: "assumption" }));
    expect(study.origins).toContainEqual(
      expect.objectContaining({ path: "money/years", status: "confirmed" }),
    );
  });

  it("are confirmed one by one or all of a thing", () => {
    const one = apply(assumed(), { "confirm:collectors/0/cleanliness": "1" }).study;
    expect(one.origins?.map(({ status }) => status)).toEqual(["confirmed", "assumption", "assumption"]);
    const all = apply(assumed(), { "confirm-under:collectors/0": "1" }).study;
    expect(all.origins?.map(({ status }) => status)).toEqual(["confirmed", "confirmed", "assumption"]);
  });

  it("move with their rows", () => {
    const { study } = apply(assumed(), { "remove:collectors/0/parts/0": "1" });
    expect(study.origins?.map(({ path }) => path)).toContain("collectors/trough/parts/0/life_years");
  });

  it("are found by id, by name or by place", () => {
    const study = smallStudy();
    expect(withIndexes(study, "collectors/trough/parts/Film/life_years")).toBe(
      "collectors/0/parts/1/life_years",
    );
    expect(withIds(study, "collectors/0/parts/1/life_years")).toBe("collectors/trough/parts/1/life_years");
  });
});

describe("items", () => {
  it("of every list and kind can be added to a study and leave it valid against the schema", () => {
    const kinds = ["process-heat", "steam", "desalination", "drying", "batch-drying", "cooling"];
    let study = smallStudy();
    for (const [list, kind] of [
      ["networks", ""],
      ...kinds.map((kind) => ["loads", kind]),
      ["collectors", "own"],
      ["stores", "heat"],
      ["stores", "cold"],
      ["stepDowns", ""],
      ["chillers", ""],
      ["backups", ""],
    ] as [(typeof itemLists)[number], string][]) {
      const outcome = addItem(study, list, kind);
      if (!outcome.ok) throw new Error(outcome.problems[0]!.message);
      study = outcome.value.study;
      expect(validateStudy(study, "study.json"), `${list} ${kind}`).toMatchObject({ ok: true });
    }
  });

  it("that others name cannot be removed; the sentence says by whom", () => {
    const outcome = removeItem(smallStudy(), "networks", "hot-water");
    expect(outcome.ok).toBe(false);
    expect(!outcome.ok && outcome.problems[0]!.message).toContain("Washing");
  });

  it("are removed with what was said of their values", () => {
    const study = {
      ...smallStudy(),
      origins: [{ path: "stores/tank/hot_C", status: "assumption" as const, source: "" }],
    };
    const outcome = removeItem(study, "stores", "tank");
    expect(outcome.ok && outcome.value.stores).toEqual([]);
    expect(outcome.ok && outcome.value.origins).toEqual([]);
  });

  it("cannot be added where what they need is missing", () => {
    expect(addItem(smallStudy(), "chillers", "").ok).toBe(false);
    expect(addItem(smallStudy(), "stepDowns", "").ok).toBe(false);
    expect(addItem(smallStudy(), "loads", "nonsense").ok).toBe(false);
  });
});

describe("buildForm(context, path)", () => {
  const form = (study: Study, path: string) =>
    buildForm({ study, fileNames: [], typed: new Map(), problems: [] }, path);
  const group = (fields: readonly FormField[], title: string) => {
    const found = fields.find((field) => field.title === title);
    if (found?.kind !== "group") throw new Error(`no group ${title}`);
    return found;
  };

  it("gathers the rules of running under one title, folded until one of them is given", () => {
    const study = smallStudy();
    const rules = group(form(study, "stores/0"), "How it must be run");
    expect(rules.fields.map(({ path }) => path)).toEqual([
      "stores/0/leastPower_kW",
      "stores/0/contentDeadBand",
    ]);
    expect(rules.folded).toBe(true);
    study.stores[0]!.contentDeadBand = 0.05;
    expect(group(form(study, "stores/0"), "How it must be run").folded).toBe(false);
    expect(group(form(study, "backups/0"), "How it must be run").fields).toHaveLength(1);
  });

  it("folds a charging power that the store does not have, and opens it for what was refused there", () => {
    const study = smallStudy();
    const title = "Charging power with a size of its own";
    expect(group(form(study, "stores/0"), title).folded).toBe(true);
    const typed = new Map([["stores/0/charging/existing_kW", ["many"]]]);
    const again = buildForm({ study, fileNames: [], typed, problems: [] }, "stores/0");
    expect(group(again, title).folded).toBe(false);
  });

  it("gives every input of every thing a title in words, and a size the unit of its thing", () => {
    const { study } = exampleDefinition();
    for (const list of itemLists)
      for (const [index] of study[list].entries())
        for (const { title, path } of inputsOf(form(study, `${list}/${index}`))) {
          // Words, or a coefficient by its symbol in ISO 9806.
          expect(title, path).toMatch(/^([A-Z]|[a-z]\d\b)/);
          expect(title === "Id", path).toBe(path.endsWith("/id"));
        }
    const units = (path: string) =>
      inputsOf(form(study, path)).flatMap(({ path: own, unit }) => (own.endsWith("size/most") ? [unit] : []));
    expect(units("collectors/0")).toEqual(["m²"]);
    expect(units("stores/0")).toEqual(["kWh", "kW"]);
    expect(units("backups/0")).toEqual(["kW"]);
  });
});

describe("the money of a study in its form", () => {
  function moneyed(): Study {
    const study = smallStudy();
    study.money = {
      ...study.money,
      inflation_per_year: 0.02,
      sharedCosts: [{ name: "Permits", on: "solar-plant", amount: 5000 }],
      land: { price_per_m2: 3, rent_per_m2_year: 0 },
      grants: [{ name: "Grant", on: "solar-plant", share: 0.2, most: 60_000, paid: "with-purchase" }],
      tax: { rate: 0.25, depreciation: "by-year", shares: [0.5, 0.5], losses: "carried-forward" },
      loan: { share: 0.6, interest_per_year: 0.05, years: 12, repayment: "annuity" },
      contract: { wantedReturn_per_year: 0.1, sellerShare: 0.3, index: "fuel-price", indexFuel: "boiler" },
      pricePaths: [
        { name: "Dear", of: "boiler", escalation_per_year: 0.05, yearFactors: [1, 1.4] },
        { name: "Dear", of: "electricity", escalation_per_year: 0.02 },
      ],
    };
    return study;
  }

  it("comes back as it was where nothing is touched", () => {
    const outcome = applyFields(moneyed(), untouched(moneyed()));
    expect(outcome).toMatchObject({ problems: [], study: moneyed() });
  });

  it("has an input for every column of its lists, and a choice where another thing is named", () => {
    const fields = buildForm({ study: moneyed(), fileNames: [], typed: new Map(), problems: [] }, "money");
    const lists = fields.filter((field) => field.kind === "rows");
    expect(lists.map(({ path }) => path)).toEqual(["money/sharedCosts", "money/grants", "money/pricePaths"]);
    for (const { columns, rows } of lists)
      for (const { cells } of rows) expect(cells).toHaveLength(columns.length);
    const named = inputsOf(fields).filter(({ path }) => /\/(of|indexFuel)$/.test(path));
    expect(named.map(({ input }) => input)).toEqual(named.map(() => "choice"));
  });
});
