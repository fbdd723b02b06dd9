import type { CashFlowYear } from "../study/result.ts";

/** The columns of a cash flow after its year, for every table of it; credits only where there are any. */
export function cashFlowColumns(
  years: readonly CashFlowYear[],
): readonly { readonly title: string; readonly of: (year: CashFlowYear) => number }[] {
  const hasCredits = years.some(({ credits = 0 }) => credits !== 0);
  return [
    { title: "First cost", of: ({ capital }) => capital },
    { title: "Replacements", of: ({ replacements }) => replacements },
    { title: "Upkeep", of: ({ upkeep }) => upkeep },
    { title: "Cost avoided", of: ({ avoided }) => avoided },
    ...(hasCredits ? [{ title: "Credits", of: ({ credits = 0 }: CashFlowYear) => credits }] : []),
    { title: "Value left", of: ({ residual }) => residual },
    { title: "Net", of: ({ net }) => net },
    { title: "Sum so far", of: ({ cumulative }) => cumulative },
  ];
}
