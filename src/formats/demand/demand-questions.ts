/** What a demand file may leave open: a reading is chosen and shown, and the user may choose another. */
export const demandQuestions = {
  DEMAND_WHICH_SHEET: "a workbook has several sheets, and the first is taken",
  DEMAND_WHICH_TIME: "several columns hold times, and one of them is taken",
  DEMAND_WHICH_VALUE: "several columns hold numbers, and one of them is taken",
  DEMAND_UNIT: "the file does not say the unit of its values",
  DEMAND_COUNTER: "values that only rise can be readings of a counter",
  DEMAND_NAMEPLATE: "the largest hour disagrees with the nameplate, as by a mistaken unit",
  DEMAND_BILLED: "the year disagrees with the bills, as by a mistaken unit",
  DEMAND_STAMP: "the file does not say whether a time marks the start or the end of its interval",
  DEMAND_CLOCK_OFFSET: "a log follows its calendar better when its times are moved by whole hours",
  DEMAND_CLOCK: "the file does not tell standard from civil time",
  DEMAND_DATE_ORDER: "dates can be read day-first or month-first",
  DEMAND_DECIMAL: "a comma or point can be a decimal sign or part thousands",
} as const;
