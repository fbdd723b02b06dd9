import type { Money } from "../study/schema/study.ts";

/** What of money around the plant the study leaves out; what it gives is not named. */
export function moneyNotIncluded(money: Money): string[] {
  const { tax, land, loan, grants = [], sharedCosts = [], inflation_per_year } = money;
  const left = [
    ...(sharedCosts.length > 0 ? [] : ["permits"]),
    ...(tax === undefined ? ["taxes"] : ["taxes but that on the profit"]),
    "duties",
    ...(land === undefined ? ["land price"] : []),
    ...(sharedCosts.some(
      ({ share_per_year = 0, amount_per_year = 0 }) => share_per_year + amount_per_year > 0,
    )
      ? []
      : ["insurance"]),
    ...(loan === undefined ? ["loans"] : []),
    ...(grants.length > 0 ? [] : ["subsidies"]),
    "staff",
  ];
  const inflation = inflation_per_year === undefined ? " and inflation" : "";
  const list =
    inflation === ""
      ? `${left.slice(0, -1).join(", ")} and ${left.at(-1)}`
      : `${left.join(", ")}${inflation}`;
  return [
    `${list.charAt(0).toUpperCase()}${list.slice(1)}; prices of parts do not rise${inflation_per_year === undefined ? "" : " beyond inflation"}.`,
    ...(sharedCosts.length > 0
      ? [
          "Design, transport, site works, commissioning and contingency, but for what parts and shared costs hold.",
        ]
      : [
          "Design, transport, site works, commissioning and contingency, but for what the prices of parts hold.",
        ]),
    ...(grants.length > 0 || tax !== undefined || loan !== undefined
      ? [
          "Whether grants, credits, depreciation and loan are granted as entered: their own rules and the authorities decide.",
        ]
      : []),
    ...(tax !== undefined || loan !== undefined
      ? ["Tax and loan in the sizing: sizes are those of least cost before both."]
      : []),
  ];
}
