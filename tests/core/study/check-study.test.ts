import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkStudy, studyRemarks } from "../../../src/core/study/check-study.ts";
import { studyProblems, studyRemarkCodes } from "../../../src/core/study/checks/study-problems.ts";
import type { Calendar, Shift, Study } from "../../../src/core/study/schema/study.ts";
import { shapedTrough } from "../../support/shaped-trough.ts";
import { smallStudy } from "../../support/small-study.ts";

// biome-ignore lint/suspicious/noExplicitAny: a study that a test breaks has no type
type Loose = Record<string, any>;
type Change = (study: Loose) => void;

const fieldPipes = {
  length_m: 100,
  forAperture_m2: 1000,
  outerDiameter_mm: 60.3,
  wall_mm: 2.9,
  insulation_mm: 60,
  insulation_W_mK: 0.045,
  fluid: "water",
};

/** A study with two networks, a chiller with a cold store, a step-down and a batch dryer, without faults. */
function largerStudy(): Study {
  const study = smallStudy() as Loose;
  study.networks.push({
    id: "oil",
    name: "Oil",
    carrier: "thermal-oil",
    supply_C: 250,
    return_C: 180,
    exchangerApproach_K: 10,
  });
  study.loads.push(
    {
      kind: "cooling",
      id: "cold-room",
      name: "Cold room",
      cold_kW: { from: "constant", level: 50 },
      coldSupply_C: 7,
      electricChiller: { cop: 4 },
    },
    {
      kind: "batch-drying",
      id: "kiln",
      name: "Kiln",
      network: "hot-water",
      heat_kWh_per_batch: 800,
      opens_h: 6,
      lasts_h: 10,
      power_kW: 100,
      weekdays: [1, 2, 3],
    },
    {
      kind: "process-heat",
      id: "press",
      name: "Press",
      network: "oil",
      heat_kW: { from: "file", file: "press.csv" },
    },
    {
      kind: "desalination",
      id: "water",
      name: "Water",
      network: "hot-water",
      order_m3_per_day: 100,
      capacity_m3_h: 5,
      heatUse: { by: "performance-ratio", performanceRatio: 10, convention: "latent-heat", steam_C: 70 },
      electricity_kWh_per_m3: 1,
      tank_m3: 100,
    },
    {
      kind: "steam",
      id: "boil",
      name: "Boil",
      network: "oil",
      flow_kg_h: { from: "constant", level: 100 },
      pressure_bar: 5,
      pressureIs: "gauge",
      condensateReturn_C: 90,
      condensateReturnShare: 0.5,
      makeUp_C: 20,
    },
    {
      kind: "drying",
      id: "dry",
      name: "Dry",
      network: "hot-water",
      wetProduct_kg_h: { from: "constant", level: 100 },
      moistureIn: 0.6,
      moistureOut: 0.1,
      heatUse: { by: "air", air_C: 80, exhaustRelativeHumidity: 0.6, heatLossShare: 0.1 },
    },
  );
  study.collectors[0].networks.push("oil");
  study.collectors[0].highestOutlet_C = 300;
  const small = {
    size: { choice: "free" },
    parts: [{ name: "All", price_per_unit: 100, life_years: 20, upkeep_per_unit_year: 0 }],
  };
  study.stores.push({
    ...study.stores[0],
    id: "ice",
    name: "Cold tank",
    load: "cold-room",
    medium: "chilled-water",
    hot_C: 14,
    cold_C: 6,
  });
  delete study.stores[1].network;
  study.stepDowns.push({
    id: "down",
    from: "oil",
    to: "hot-water",
    approach_K: 5,
    efficiency: 0.99,
    existing_kW: 0,
    ...small,
  });
  study.chillers.push({
    id: "chiller",
    name: "Chiller",
    load: "cold-room",
    network: "hot-water",
    effect: "single",
    cop: 0.7,
    drivingLeast_C: 80,
    electricity_kWh_per_kWh: 0.05,
    existing_kW: 0,
    ...small,
  });
  study.backups.push({ ...study.backups[0], id: "heater", network: "oil" });
  // Through JSON, so that no two items share a part.
  return JSON.parse(JSON.stringify(study)) as Study;
}

function codes(change: Change): string[] {
  const study = largerStudy() as Loose;
  change(study);
  return checkStudy(study as Study).map(({ code, place }) => `${code} ${place.path}`);
}

const early: Shift = { name: "Early", weekdays: [1, 2], starts_h: 6, ends_h: 14, share: 1 };
const shiftCalendar = (shifts: Shift[]): Calendar => ({
  id: "days",
  name: "Days",
  week: { by: "shifts", shifts, between: 0 },
});

const cases: [string, Change, string[]][] = [
  [
    "an id used twice",
    (s) => {
      s.stores[0].id = "boiler";
    },
    ["STUDY_ID_TWICE backups/0/id"],
  ],
  [
    "a load on no network",
    (s) => {
      s.loads[0].network = "nowhere";
    },
    ["STUDY_REFERENCE loads/0/network"],
  ],
  [
    "a load on a collector",
    (s) => {
      s.loads[0].network = "trough";
    },
    ["STUDY_REFERENCE loads/0/network"],
  ],
  [
    "a collector on no network",
    (s) => {
      s.collectors[0].networks = ["nowhere"];
    },
    ["STUDY_REFERENCE collectors/0/networks/0"],
  ],
  [
    "a collector twice on a network",
    (s) => {
      s.collectors[0].networks = ["oil", "oil"];
    },
    ["STUDY_REFERENCE_TWICE collectors/0/networks/1"],
  ],
  [
    "a chiller on a heat load",
    (s) => {
      s.chillers[0].load = "wash";
    },
    ["STUDY_REFERENCE chillers/0/load"],
  ],
  [
    "a chiller on no network",
    (s) => {
      s.chillers[0].network = "cold-room";
    },
    ["STUDY_REFERENCE chillers/0/network"],
  ],
  [
    "a backup on no network",
    (s) => {
      s.backups[0].network = "gas";
    },
    ["STUDY_REFERENCE backups/0/network"],
  ],
  [
    "a step-down from nowhere",
    (s) => {
      s.stepDowns[0].from = "gas";
    },
    ["STUDY_REFERENCE stepDowns/0/from"],
  ],
  [
    "an empty weather file name",
    (s) => {
      s.weather.file = " ";
    },
    ["STUDY_FILE_NAME weather/file"],
  ],
  [
    "an empty demand file name",
    (s) => {
      s.loads[3].heat_kW.file = "";
    },
    ["STUDY_FILE_NAME loads/3/heat_kW/file"],
  ],
  [
    "an empty price file name",
    (s) => {
      s.electricity.priceFile = "";
    },
    ["STUDY_FILE_NAME electricity/priceFile"],
  ],
  [
    "an empty name of a file of fuel prices",
    (s) => {
      s.backups[0].fuel.priceFile = " ";
    },
    ["STUDY_FILE_NAME backups/0/fuel/priceFile"],
  ],
  [
    "an unknown time zone",
    (s) => {
      s.site.timeZone = "Mars/Olympus";
    },
    ["STUDY_TIME_ZONE site/timeZone"],
  ],
  [
    "an offset that is not the zone's",
    (s) => {
      s.site.utcOffset_h = -6;
    },
    ["STUDY_UTC_OFFSET site/utcOffset_h"],
  ],
  [
    "a return as hot as the supply",
    (s) => {
      s.networks[1].return_C = 250;
    },
    ["STUDY_NETWORK_LEVELS networks/1/return_C"],
  ],
  [
    "a collector inlet below the return",
    (s) => {
      s.networks[0].collectorIn_C = 69;
    },
    ["STUDY_COLLECTOR_LEVELS networks/0/collectorIn_C"],
  ],
  [
    "a collector outlet below the inlet",
    (s) => {
      s.networks[0].collectorIn_C = 96;
    },
    ["STUDY_COLLECTOR_LEVELS networks/0/collectorOut_C"],
  ],
  [
    "a collector outlet below the supply",
    (s) => {
      s.networks[1].collectorOut_C = 249;
    },
    ["STUDY_COLLECTOR_LEVELS networks/1/collectorOut_C"],
  ],
  [
    "existing collectors on two networks",
    (s) => {
      s.collectors[0].existing_m2 = 100;
    },
    ["STUDY_EXISTING_COLLECTOR collectors/0/networks"],
  ],
  [
    "a film part that is no part",
    (s) => {
      s.collectors[0].filmPart = "Foil";
    },
    ["COLLECTOR_FILM_PART collectors/0/filmPart"],
  ],
  [
    "two film parts",
    (s) => {
      s.collectors[0].parts[0].name = "Film";
    },
    ["STUDY_PART_TWICE collectors/0/filmPart"],
  ],
  [
    "a modifier table of uneven length",
    (s) => {
      s.collectors[0].modifier = { type: "table", angles_deg: [0, 30, 60], longitudinal: [1, 0.9] };
    },
    ["COLLECTOR_MODIFIER_LENGTH collectors/0/modifier/longitudinal"],
  ],
  [
    "a modifier table out of order",
    (s) => {
      s.collectors[0].modifier = { type: "table", angles_deg: [0, 60, 30], longitudinal: [1, 0.9, 0.8] };
    },
    ["COLLECTOR_MODIFIER_ORDER collectors/0/modifier/angles_deg/2"],
  ],
  [
    "a return wind above the wind that stows",
    (s) => {
      s.collectors[0].storm = { stowWind_m_s: 12, returnWind_m_s: 12.5, backAfter_h: 1 };
    },
    ["COLLECTOR_RETURN_WIND collectors/0/storm/returnWind_m_s"],
  ],
  [
    "dirt that leaves no light before washing",
    (s) => {
      s.collectors[0].soiling = { lossPerDay: 0.02, washEvery_days: 51 };
    },
    ["COLLECTOR_SOILING_LOST collectors/0/soiling/lossPerDay"],
  ],
  [
    "a pipe whose walls leave no bore",
    (s) => {
      s.collectors[0].pipes = { ...fieldPipes, outerDiameter_mm: 20, wall_mm: 10 };
    },
    ["COLLECTOR_PIPE_WALL collectors/0/pipes/wall_mm"],
  ],
  [
    "a fluid in the pipes that freezes at the network's temperature",
    (s) => {
      s.collectors[0].pipes = { ...fieldPipes, fluid: "molten-salt" };
    },
    // On both of its networks.
    ["COLLECTOR_PIPE_FLUID collectors/0/pipes/fluid", "COLLECTOR_PIPE_FLUID collectors/0/pipes/fluid"],
  ],
  [
    "time to fill a loop that is heated and not drained",
    (s) => {
      s.collectors[0].frost = { by: "electric", keepAbove_C: 5, refill_h: 1 };
    },
    ["COLLECTOR_FROST_REFILL collectors/0/frost/refill_h"],
  ],
  [
    "a loop never to be colder than its inlet",
    (s) => {
      s.collectors[0].frost = { by: "drain", keepAbove_C: 100 };
    },
    ["COLLECTOR_FROST_ABOVE collectors/0/frost/keepAbove_C"],
  ],
  [
    "an outage from a day that does not exist",
    (s) => {
      s.collectors[0].outages = [{ fromMonth: 2, fromDay: 29, days: 7 }];
    },
    ["COLLECTOR_OUTAGE_DATE collectors/0/outages/0/fromDay"],
  ],
  [
    "outages that overlap over the year's end",
    (s) => {
      s.collectors[0].outages = [
        { fromMonth: 1, fromDay: 5, days: 3 },
        { fromMonth: 6, fromDay: 1, days: 7 },
        { fromMonth: 12, fromDay: 30, days: 8 },
      ];
    },
    ["COLLECTOR_OUTAGE_OVERLAP collectors/0/outages/2"],
  ],
  [
    "oil as hot as it decomposes",
    (s) => {
      Object.assign(s.networks[1], { supply_C: 405, return_C: 300 });
    },
    ["STUDY_CARRIER_LIMIT networks/1/supply_C"],
  ],
  [
    "oil that only the collectors make too hot",
    (s) => {
      s.networks[1].collectorOut_C = 410;
    },
    ["STUDY_CARRIER_LIMIT networks/1/collectorOut_C"],
  ],
  [
    "salt that freezes on its way back",
    (s) => {
      Object.assign(s.networks[1], { carrier: "molten-salt", supply_C: 450, return_C: 200 });
    },
    ["STUDY_CARRIER_LIMIT networks/1/return_C"],
  ],
  [
    "steam beyond the critical point",
    (s) => {
      Object.assign(s.networks[1], { carrier: "steam", supply_C: 380 });
    },
    ["STUDY_CARRIER_LIMIT networks/1/supply_C"],
  ],
  [
    "a modifier table that begins late",
    (s) => {
      s.collectors[0].modifier = { type: "table", angles_deg: [10, 60], longitudinal: [1, 0.9] };
    },
    ["STUDY_MODIFIER_START collectors/0/modifier/angles_deg/0"],
  ],
  [
    "a fixed size without its value",
    (s) => {
      s.backups[0].size = { choice: "fixed" };
    },
    ["STUDY_SIZE backups/0/size/fixed"],
  ],
  [
    "a bounded size without its bound",
    (s) => {
      s.stores[0].size = { choice: "bounded", least: 1 };
    },
    ["STUDY_SIZE stores/0/size/most"],
  ],
  [
    "bounds the wrong way round",
    (s) => {
      s.stepDowns[0].size = { choice: "bounded", least: 2, most: 1 };
    },
    ["STUDY_SIZE stepDowns/0/size/least"],
  ],
  [
    "a step-down to itself",
    (s) => {
      s.stepDowns[0].to = "oil";
    },
    ["STUDY_STEP_DOWN stepDowns/0/to"],
  ],
  [
    "a step up",
    (s) => {
      Object.assign(s.stepDowns[0], { from: "hot-water", to: "oil" });
    },
    ["STUDY_STEP_DOWN stepDowns/0/from", "STUDY_STEP_DOWN stepDowns/0/from"],
  ],
  [
    "a step-down with too cool a return",
    (s) => {
      s.networks[1].return_C = 74;
    },
    ["STUDY_STEP_DOWN stepDowns/0/from"],
  ],
  [
    "two step-downs of one pair",
    (s) => {
      s.stepDowns.push({ ...s.stepDowns[0], id: "down-2" });
    },
    ["STUDY_STEP_DOWN_TWICE stepDowns/1"],
  ],
  [
    "step-downs in a circle",
    (s) => {
      s.networks.push({ ...s.networks[0], id: "other" });
      s.stepDowns.push(
        { ...s.stepDowns[0], id: "d2", from: "hot-water", to: "other", approach_K: 0 },
        { ...s.stepDowns[0], id: "d3", from: "other", to: "hot-water", approach_K: 0 },
      );
    },
    ["STUDY_STEP_DOWN_CYCLE stepDowns"],
  ],
  [
    "a store of nothing",
    (s) => {
      delete s.stores[0].network;
    },
    ["STUDY_STORE_OWNER stores/0"],
  ],
  [
    "a store of two",
    (s) => {
      s.stores[0].load = "cold-room";
    },
    ["STUDY_STORE_OWNER stores/0"],
  ],
  [
    "two stores on a network",
    (s) => {
      s.stores.push({ ...s.stores[0], id: "tank-2" });
    },
    ["STUDY_STORE_OWNER stores/2"],
  ],
  [
    "chilled water on a heat network",
    (s) => {
      Object.assign(s.stores[0], { medium: "chilled-water" });
    },
    [
      "STORE_MEDIUM_RANGE stores/0/hot_C",
      "STORE_MEDIUM_RANGE stores/0/cold_C",
      "STUDY_STORE_MEDIUM stores/0/medium",
    ],
  ],
  [
    "water for a cooling load",
    (s) => {
      s.stores[1].medium = "water";
    },
    ["STUDY_STORE_MEDIUM stores/1/medium"],
  ],
  [
    "a store colder when hot",
    (s) => {
      Object.assign(s.stores[1], { hot_C: 5 });
    },
    ["STORE_TEMPERATURES stores/1/hot_C"],
  ],
  [
    "water above boiling",
    (s) => {
      Object.assign(s.stores[0], { hot_C: 120 });
      s.networks[0].collectorOut_C = 120;
    },
    ["STORE_MEDIUM_RANGE stores/0/hot_C"],
  ],
  [
    "salt that freezes",
    (s) => {
      Object.assign(s.stores[0], { medium: "molten-salt" });
    },
    ["STORE_MEDIUM_RANGE stores/0/hot_C", "STORE_MEDIUM_RANGE stores/0/cold_C"],
  ],
  [
    "a store hotter than the collectors",
    (s) => {
      s.stores[0].hot_C = 96;
    },
    ["STUDY_STORE_LEVELS stores/0/hot_C"],
  ],
  [
    "a store cooler than the supply",
    (s) => {
      s.stores[0].hot_C = 89;
    },
    ["STUDY_STORE_LEVELS stores/0/hot_C"],
  ],
  [
    "a charging power without the bound that its choice needs",
    (s) => {
      s.stores[0].charging = { existing_kW: 0, size: { choice: "bounded" }, parts: [] };
    },
    ["STUDY_SIZE stores/0/charging/size/most"],
  ],
  [
    "a store colder than the return",
    (s) => {
      s.stores[0].cold_C = 69;
    },
    ["STUDY_STORE_LEVELS stores/0/cold_C"],
  ],
  [
    "a cold store too warm",
    (s) => {
      s.stores[1].cold_C = 8;
    },
    ["STUDY_STORE_LEVELS stores/1/cold_C"],
  ],
  [
    "a chiller that is not driven",
    (s) => {
      s.chillers[0].drivingLeast_C = 91;
    },
    ["STUDY_CHILLER_DRIVING chillers/0/drivingLeast_C"],
  ],
  [
    "a negative price without a limit",
    (s) => {
      s.backups[0].fuel.price_per_kWh = -0.01;
    },
    ["STUDY_BACKUP_LIMIT backups/0/existing_kW"],
  ],
  [
    "a fuel price that is negative at night without a limit",
    (s) => {
      s.backups[0].fuel.hourFactors = Array.from({ length: 24 }, (_, hour) => (hour < 5 ? -0.2 : 1));
    },
    ["STUDY_BACKUP_LIMIT backups/0/existing_kW"],
  ],
  [
    "a cold store without a limit where electricity has a negative price at night",
    (s) => {
      s.electricity.hourFactors = Array.from({ length: 24 }, (_, hour) => (hour < 5 ? -0.2 : 1));
    },
    ["STUDY_STORE_LIMIT stores/1/chargeLimit_kW"],
  ],
  [
    "steam hotter than its network",
    (s) => {
      s.loads[5].network = "hot-water";
    },
    ["LOAD_NETWORK_TOO_COLD loads/5/network"],
  ],
  [
    "drying air hotter than its network",
    (s) => {
      s.loads[6].heatUse.air_C = 100;
    },
    ["LOAD_NETWORK_TOO_COLD loads/6/network"],
  ],
  [
    "heating steam hotter than its network",
    (s) => {
      s.loads[4].heatUse.steam_C = 120;
    },
    ["LOAD_NETWORK_TOO_COLD loads/4/network"],
  ],
  [
    "a product that gets wetter",
    (s) => {
      s.loads[6].moistureOut = 0.7;
    },
    ["LOAD_MOISTURE loads/6/moistureOut"],
  ],
  [
    "latent heat at no temperature",
    (s) => {
      delete s.loads[4].heatUse.steam_C;
    },
    ["STUDY_LATENT_HEAT loads/4/heatUse/steam_C"],
  ],
  [
    "a batch too large for its window",
    (s) => {
      s.loads[2].heat_kWh_per_batch = 1001;
    },
    ["LOAD_BATCH_POWER loads/2/power_kW"],
  ],
  [
    "windows that overlap",
    (s) => {
      s.loads[2].lasts_h = 25;
    },
    ["STUDY_BATCH_OVERLAP loads/2/lasts_h"],
  ],
  [
    "a weekday twice",
    (s) => {
      s.loads[2].weekdays = [1, 1];
    },
    ["STUDY_REFERENCE_TWICE loads/2/weekdays"],
  ],
  [
    "a day that is none",
    (s) => {
      s.loads[2].closed = [{ from: "02-29", to: "04-31" }];
    },
    ["STUDY_DATE loads/2/closed/0/from", "STUDY_DATE loads/2/closed/0/to"],
  ],
  [
    "a shift off the quarter hour",
    (s) => {
      s.calendars = [shiftCalendar([{ ...early, starts_h: 6.1 }])];
    },
    ["STUDY_SHIFT_TIME calendars/0/week/shifts/0/starts_h"],
  ],
  [
    "shifts that overlap, also past Sunday's midnight into Monday",
    (s) => {
      const late = { ...early, name: "Late", starts_h: 13, ends_h: 22 };
      const night = { ...early, name: "Night", weekdays: [7], starts_h: 22, ends_h: 7 };
      s.calendars = [shiftCalendar([early, { ...late, weekdays: [2] }, night])];
    },
    ["STUDY_SHIFTS_OVERLAP calendars/0/week/shifts/1", "STUDY_SHIFTS_OVERLAP calendars/0/week/shifts/0"],
  ],
  [
    "campaigns that share days over New Year",
    (s) => {
      s.calendars = [
        {
          ...shiftCalendar([early]),
          campaigns: [
            { name: "Winter", from: "11-15", to: "01-10", factor: 2 },
            { name: "January", from: "01-05", to: "01-31", factor: 1.5 },
          ],
        },
      ];
    },
    ["STUDY_CAMPAIGNS_OVERLAP calendars/0/campaigns/1"],
  ],
  [
    "a holiday twice, and one that is no day",
    (s) => {
      s.calendars = [
        {
          ...shiftCalendar([early]),
          holidays: [
            { name: "A", date: "05-01", runsAs: "closed" },
            { name: "B", date: "05-01", runsAs: "sunday" },
            { name: "C", date: "06-31", runsAs: "closed" },
          ],
        },
      ];
    },
    ["STUDY_DATE calendars/0/holidays/2/date", "STUDY_CALENDAR_TWICE calendars/0/holidays/1/date"],
  ],
  [
    "a calendar that is not there",
    (s) => {
      s.loads[0].heat_kW = { from: "calendar", level: 10, calendar: "days" };
    },
    ["STUDY_REFERENCE loads/0/heat_kW/calendar"],
  ],
  // Their sentences are held in check-money.test.ts.
  [
    "faults of money and of ranges",
    (s) => {
      s.stores[0].parts[0].scaleExponent = 0.6;
      s.electricity.yearFactors = [2];
      s.money.grants = [{ name: "A", on: "solar-plant", share: 1, paid: "with-purchase" }];
      s.money.tax = { rate: 0.2, depreciation: "straight-line", losses: "used-at-once" };
      s.money.loan = {
        share: 0.5,
        interest_per_year: 0.05,
        years: 40,
        repayment: "annuity",
        interestOnly_years: 40,
      };
      s.money.contract = { wantedReturn_per_year: 0.1, sellerShare: 0, index: "yearly-rate" };
      s.money.pricePaths = [{ name: "A", of: "coal", escalation_per_year: 0 }];
      s.sureness = {
        ranges: [{ input: "demand", low: 2, high: 1, distribution: "none" }],
        draws: 10,
        seed: 0,
      };
    },
    [
      "STUDY_PART_SCALE stores/0/parts/0/referenceSize",
      "STUDY_YEAR_FACTORS electricity/yearFactors/0",
      "STUDY_GRANTS money/grants",
      "STUDY_DEPRECIATION money/tax/depreciation_years",
      "STUDY_LOAN_PERIOD money/loan/years",
      "STUDY_LOAN_START money/loan/interestOnly_years",
      "STUDY_CONTRACT_INDEX money/contract/index_per_year",
      "STUDY_PRICE_PATH money/pricePaths/0/of",
      "STUDY_RANGE sureness/ranges/0/high",
    ],
  ],
];

describe("the cross-checks of a study", () => {
  it("find nothing in sound studies", () => {
    expect(checkStudy(smallStudy())).toEqual([]);
    expect(checkStudy(largerStudy())).toEqual([]);
  });

  it.each(cases)("find %s", (_, change, expected) => {
    expect(codes(change)).toEqual(expected);
  });

  it("have a case for every code of the catalogue", () => {
    const covered = new Set(cases.flatMap(([, , expected]) => expected.map((line) => line.split(" ")[0])));
    expect(Object.keys(studyProblems).filter((code) => !covered.has(code))).toEqual([]);
  });

  it("say what was found and what is allowed", () => {
    const study = smallStudy() as Loose;
    study.stores[0].hot_C = 96;
    study.loads[0].network = "boiler";
    expect(checkStudy(study as Study).map(({ message }) => message)).toEqual([
      '"boiler" is the id of the item at backups/0; a heat network is needed, and hot-water is there.',
      "The store's hot side is 96 °C and the collectors deliver 95 °C; it cannot be hotter.",
    ]);
  });

  it("take the winter offset for standard time, in the south too, and refuse the summer one", () => {
    // Offsets of the IANA time zone database.
    const at = (timeZone: string, utcOffset_h: number) =>
      codes((s) => Object.assign(s.site, { timeZone, utcOffset_h })).filter((code) => code.includes("OFFSET"))
        .length;
    expect([at("Europe/Athens", 2), at("Europe/Athens", 3)]).toEqual([0, 1]);
    expect([at("Australia/Adelaide", 9.5), at("Australia/Adelaide", 10.5)]).toEqual([0, 1]);
    expect([at("Etc/GMT-3", 3), at("Etc/GMT-3", -3)]).toEqual([0, 1]);
    expect(at("Asia/Kathmandu", 5.75)).toBe(0);
  });

  it("let daily windows of 24 h stand where the clock never changes, and not where it does", () => {
    const daily: Change = (s) => Object.assign(s.loads[2], { lasts_h: 24, weekdays: [1, 2, 3, 4, 5, 6, 7] });
    expect(codes(daily)).toEqual([]);
    const withSummerTime: Change = (s) => {
      daily(s);
      Object.assign(s.site, { timeZone: "America/Denver" });
    };
    expect(codes(withSummerTime)).toEqual(["STUDY_BATCH_OVERLAP loads/2/lasts_h"]);
  });

  it("take a negative price where the boiler's power is finite", () => {
    expect(
      codes((s) => {
        s.backups[0].fuel.price_per_kWh = -0.01;
        s.backups[0].existing_kW = 600;
      }),
    ).toEqual([]);
  });

  it("take a negative price of electricity where cold stores have a charging limit", () => {
    expect(
      codes((s) => {
        s.electricity.price_per_kWh = -0.01;
        s.stores[1].chargeLimit_kW = 30;
      }),
    ).toEqual([]);
  });

  it("never throw when references are shuffled", () => {
    const ids = ["hot-water", "oil", "wash", "cold-room", "trough", "tank", "nothing"];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...ids), { minLength: 8, maxLength: 8 }), (picked) => {
        const study = largerStudy() as Loose;
        study.loads[0].network = picked[0];
        study.collectors[0].networks = [picked[1], picked[2]];
        study.stores[0].network = picked[3];
        study.stores[1].load = picked[4];
        Object.assign(study.stepDowns[0], { from: picked[5], to: picked[6] });
        Object.assign(study.chillers[0], { load: picked[7], network: picked[0] });
        for (const problem of checkStudy(study as Study)) expect(problem.place.path).toBeTruthy();
      }),
    );
  });
});

describe("the remarks on a study", () => {
  const remarkCases: [string, Change, string][] = [
    [
      "a calendar that no load goes by",
      (s) => {
        s.calendars = [shiftCalendar([early])];
      },
      "REMARK_CALENDAR_IDLE",
    ],
    [
      "a network without a backup",
      (s) => {
        s.backups = [];
      },
      "REMARK_NO_BACKUP",
    ],
    [
      "a study without collectors",
      (s) => {
        s.collectors = [];
      },
      "REMARK_NO_COLLECTOR",
    ],
    [
      "a network that nothing draws from",
      (s) => {
        s.loads[0].network = "elsewhere";
      },
      "REMARK_IDLE_NETWORK",
    ],
    [
      "a collector too cool for its networks",
      (s) => {
        s.collectors[0].highestOutlet_C = 94;
      },
      "REMARK_COLLECTOR_TOO_COOL",
    ],
    [
      "water under pressure",
      (s) => {
        s.networks[0].collectorOut_C = 110;
      },
      "REMARK_PRESSURE",
    ],
    [
      "a collector hotter than it was tested",
      (s) => {
        s.collectors[0].testReport = {
          source: "Laboratory",
          basis: "aperture",
          efficiencyIs: "beam",
          highestTested_C: 80,
        };
      },
      "REMARK_BEYOND_TEST",
    ],
    [
      "electricity without CO2",
      (s) => {
        delete s.electricity.co2_kg_per_kWh;
      },
      "REMARK_ELECTRICITY_CO2",
    ],
    [
      "a bound that is not used",
      (s) => {
        s.collectors[0].size.most = 5;
      },
      "REMARK_SIZE_UNUSED",
    ],
    [
      "a charging power without a price",
      (s) => {
        s.stores[0].charging = { existing_kW: 0, size: { choice: "free" }, parts: [] };
      },
      "REMARK_FREE_NEW_PLANT",
    ],
    [
      "new plant without a price",
      (s) => {
        s.stores[0].parts = [];
      },
      "REMARK_FREE_NEW_PLANT",
    ],
    [
      "a receiver of two concentrations",
      (s) => {
        s.collectors[0].optics = { ...shapedTrough };
        s.collectors[0].heatLoss = {
          by: "computed",
          receiver: "bare-tube",
          concentration: 25,
          width_m: 0.07,
          emittance: 0.1,
        };
      },
      "REMARK_CONCENTRATIONS",
    ],
    [
      "ageing without a film part",
      (s) => {
        delete s.collectors[0].filmPart;
      },
      "REMARK_AGEING",
    ],
  ];

  it("are none for a plain study", () => {
    expect(studyRemarks(smallStudy())).toEqual([]);
  });

  it.each(remarkCases)("tell of %s", (_, change, code) => {
    const study = smallStudy() as Loose;
    change(study);
    expect(studyRemarks(study as Study).map((remark) => remark.code)).toEqual([code]);
  });

  it("have a case for every code of the catalogue", () => {
    const told = new Set(remarkCases.map(([, , code]) => code));
    expect(Object.keys(studyRemarkCodes).sort()).toEqual([...told].sort());
  });
});
