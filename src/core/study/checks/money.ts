import type { Problem } from "../../problem.ts";
import type { Money, Part, Study } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

/** Parts, prices by year, grants, tax, loan, contract and price paths: what a schema cannot see. */
export function checkMoney(study: Study): Problem[] {
  return [
    ...checkParts(study),
    ...checkYearFactors(study),
    ...checkGrants(study.money),
    ...checkTax(study.money),
    ...checkLoan(study.money),
    ...checkContract(study),
    ...checkPaths(study),
  ];
}

function checkParts(study: Study): Problem[] {
  const lists: [string, readonly Part[]][] = [
    ...study.collectors.flatMap(({ parts, pipes }, i): [string, readonly Part[]][] => [
      [`collectors/${i}/parts`, parts],
      [`collectors/${i}/pipes/parts`, pipes?.parts ?? []],
    ]),
    ...study.stores.flatMap(({ parts, charging }, i): [string, readonly Part[]][] => [
      [`stores/${i}/parts`, parts],
      [`stores/${i}/charging/parts`, charging?.parts ?? []],
    ]),
    ...(["stepDowns", "chillers", "backups"] as const).flatMap((list) =>
      study[list].map(({ parts }, i): [string, readonly Part[]] => [`${list}/${i}/parts`, parts]),
    ),
  ];
  return lists.flatMap(([path, parts]) =>
    parts.flatMap((part, i) =>
      part.scaleExponent !== undefined && part.scaleExponent < 1 && part.referenceSize === undefined
        ? [
            fault(
              "STUDY_PART_SCALE",
              `${path}/${i}/referenceSize`,
              `"${part.name}" has a scale exponent of ${part.scaleExponent} and no size at which its price holds; give referenceSize.`,
            ),
          ]
        : [],
    ),
  );
}

function checkYearFactors(study: Study): Problem[] {
  const lists: [string, readonly number[] | undefined][] = [
    ["electricity/yearFactors", study.electricity.yearFactors],
    ...study.backups.map(({ fuel }, i): [string, readonly number[] | undefined] => [
      `backups/${i}/fuel/yearFactors`,
      fuel.yearFactors,
    ]),
    ...(study.money.pricePaths ?? []).map(({ yearFactors }, i): [string, readonly number[] | undefined] => [
      `money/pricePaths/${i}/yearFactors`,
      yearFactors,
    ]),
  ];
  return lists.flatMap(([path, factors]) =>
    factors !== undefined && factors[0] !== 1
      ? [
          fault(
            "STUDY_YEAR_FACTORS",
            `${path}/0`,
            `Prices by year begin with a factor of ${factors[0]}; they count from the first year's price, so the first factor must be 1.`,
          ),
        ]
      : [],
  );
}

function checkGrants({ grants = [] }: Money): Problem[] {
  const onAll = grants.filter(({ on }) => on === "all-new-plant");
  const sum = (list: typeof grants) => list.reduce((all, { share }) => all + share, 0);
  // What counts on all new plant counts on the solar plant too, so one sentence is enough.
  const share = sum(grants);
  if (!(share >= 1)) return [];
  const where = sum(onAll) >= 1 ? "all new plant" : "the solar plant";
  return [
    fault(
      "STUDY_GRANTS",
      "money/grants",
      `Grants and tax credits on ${where} add up to ${perCent(sum(onAll) >= 1 ? sum(onAll) : share)} of its first price; they must stay below 100 %.`,
    ),
  ];
}

function checkTax({ tax }: Money): Problem[] {
  if (tax === undefined) return [];
  const problems: Problem[] = [];
  const missing = (property: string, why: string) =>
    problems.push(fault("STUDY_DEPRECIATION", `money/tax/${property}`, why));
  if (tax.depreciation !== "by-year" && tax.depreciation_years === undefined)
    missing(
      "depreciation_years",
      `Depreciation is ${tax.depreciation} and has no years; give depreciation_years.`,
    );
  if (tax.depreciation === "declining-balance" && tax.decliningRate === undefined)
    missing("decliningRate", "Depreciation by a declining balance has no rate; give decliningRate.");
  if (tax.depreciation === "by-year") {
    const sum = (tax.shares ?? []).reduce((all, share) => all + share, 0);
    if (tax.shares === undefined) missing("shares", "Depreciation by year lists no shares; give shares.");
    else if (sum > 1 + 1e-9)
      missing("shares", `The shares of depreciation add up to ${perCent(sum)}; they must not exceed 100 %.`);
  }
  return problems;
}

function checkLoan({ loan, years }: Money): Problem[] {
  if (loan === undefined) return [];
  const problems: Problem[] = [];
  if (loan.years > years)
    problems.push(
      fault(
        "STUDY_LOAN_PERIOD",
        "money/loan/years",
        `The loan runs over ${loan.years} years and the period of analysis over ${years}; a loan must be repaid within the period.`,
      ),
    );
  const free = loan.interestOnly_years ?? 0;
  if (free >= loan.years)
    problems.push(
      fault(
        "STUDY_LOAN_START",
        "money/loan/interestOnly_years",
        `${free} of the loan's ${loan.years} years are interest only; at least one year must be left to repay it in.`,
      ),
    );
  return problems;
}

function checkContract({ money: { contract }, backups }: Study): Problem[] {
  if (contract === undefined) return [];
  const problems: Problem[] = [];
  const say = (property: string, why: string) =>
    problems.push(fault("STUDY_CONTRACT_INDEX", `money/contract/${property}`, why));
  if (contract.index === "yearly-rate" && contract.index_per_year === undefined)
    say("index_per_year", "The price of heat follows a yearly rate that is not given; give index_per_year.");
  if (contract.index === "fuel-price" && contract.indexFuel === undefined)
    say("indexFuel", "The price of heat follows a fuel price that is not named; name a backup in indexFuel.");
  if (contract.indexFuel !== undefined && !backups.some(({ id }) => id === contract.indexFuel))
    say(
      "indexFuel",
      `There is no backup with the id "${contract.indexFuel}"; name one of the study's backups.`,
    );
  return problems;
}

function checkPaths({ money: { pricePaths = [] }, backups }: Study): Problem[] {
  const known = new Set([...backups.map(({ id }) => id), "electricity", "carbon"]);
  const seen = new Set<string>();
  return pricePaths.flatMap(({ name, of }, i) => {
    const path = `money/pricePaths/${i}/of`;
    const problems: Problem[] = [];
    if (!known.has(of))
      problems.push(
        fault(
          "STUDY_PRICE_PATH",
          path,
          `The price path "${name}" speaks of "${of}", which is no price of this study; allowed are ${[...known].join(", ")}.`,
        ),
      );
    const row = JSON.stringify([name, of]);
    if (seen.has(row))
      problems.push(
        fault(
          "STUDY_PRICE_PATH",
          path,
          `The price path "${name}" gives "${of}" twice; it may give each price once.`,
        ),
      );
    seen.add(row);
    return problems;
  });
}

const perCent = (share: number) => `${Math.round(share * 1000) / 10} %`;
