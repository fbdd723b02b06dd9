import type { Problem } from "../../problem.ts";

/** What the parts of a study must keep to among each other, beyond the schema. */
export const studyProblems = {
  STUDY_ID_TWICE: "an id may be used once in a study",
  STUDY_REFERENCE: "a reference must name an item of the right kind",
  STUDY_REFERENCE_TWICE: "a list of references may name an item once",
  STUDY_FILE_NAME: "a file name cannot be empty",
  STUDY_TIME_ZONE: "the time zone must be an IANA name",
  STUDY_UTC_OFFSET: "the site's UTC offset must be the standard time of its time zone",
  STUDY_NETWORK_LEVELS: "a network's supply must lie above its return",
  STUDY_CARRIER_LIMIT:
    "a network's temperatures, and those of its collectors, must lie within what its carrier bears",
  STUDY_COLLECTOR_LEVELS: "collector temperatures must lie above those of the network they heat",
  STUDY_EXISTING_COLLECTOR: "existing collectors must belong to one network",
  STUDY_PART_TWICE: "a part that sets the film's age must have a name of its own",
  STUDY_MODIFIER_START: "a modifier table must begin at normal incidence",
  STUDY_SIZE: "a size must give the bounds that its choice needs",
  STUDY_STEP_DOWN: "heat steps down from a hotter network to a cooler one",
  STUDY_STEP_DOWN_TWICE: "two networks may have one step-down between them",
  STUDY_STEP_DOWN_CYCLE: "step-downs cannot lead back to the network where they begin",
  STUDY_STORE_OWNER: "a store serves one network or one cooling load",
  STUDY_STORE_MEDIUM: "chilled water is for cooling loads, every other medium for heat networks",
  STUDY_STORE_LEVELS: "a store's temperatures must fit what charges it and what it serves",
  STUDY_CHILLER_DRIVING: "a chiller's network must be hot enough to drive it",
  STUDY_BACKUP_LIMIT: "a boiler whose fuel can have a negative price must have a finite power",
  STUDY_STORE_LIMIT: "a cold store must have a charging limit where the price of electricity can be negative",
  STUDY_LATENT_HEAT: "a performance ratio on latent heat needs the temperature of the heating steam",
  STUDY_BATCH_OVERLAP: "a batch's window must close before the next one opens",
  STUDY_DATE: "a closed day, holiday or campaign must be a day of the study's year",
  STUDY_SHIFT_TIME: "a shift must start and end on a quarter hour",
  STUDY_SHIFTS_OVERLAP: "shifts of a calendar must not overlap",
  STUDY_CAMPAIGNS_OVERLAP: "campaigns of a calendar must not share days",
  STUDY_CALENDAR_TWICE: "a calendar must name a holiday's date once",
  STUDY_PART_SCALE: "a part with a scale exponent needs the size at which its price holds",
  STUDY_YEAR_FACTORS: "prices by year must begin with the first year's own, a factor of 1",
  STUDY_GRANTS: "grants and tax credits must stay below the whole price",
  STUDY_DEPRECIATION: "a way of depreciation must have the years, rate or shares that it needs",
  STUDY_LOAN_PERIOD: "a loan must be repaid within the period of analysis",
  STUDY_LOAN_START: "a loan must have at least one year in which it is repaid",
  STUDY_CONTRACT_INDEX: "what a contract's price of heat follows must be given",
  STUDY_RANGE: "a range of an uncertain input must be in order, given once, and of factors above 0",
  STUDY_PRICE_PATH: "a price path may speak of each price of the study once",
} as const;

/** What is odd in a study and does not stop the work. */
export const studyRemarkCodes = {
  REMARK_NO_BACKUP: "a heat network without a backup may leave heat unmet",
  REMARK_NO_COLLECTOR: "a study without collectors has no solar heat",
  REMARK_IDLE_NETWORK: "a heat network has no load, chiller or step-down that draws from it",
  REMARK_COLLECTOR_TOO_COOL: "a collector cannot reach the temperature of any network that it may serve",
  REMARK_CALENDAR_IDLE: "a calendar that no load goes by",
  REMARK_PRESSURE: "water above 100 °C is under pressure",
  REMARK_ELECTRICITY_CO2: "electricity without a CO2 factor is left out of the emissions",
  REMARK_SIZE_UNUSED: "a bound that the size's choice does not use",
  REMARK_FREE_NEW_PLANT: "new plant without a price costs nothing, so its size means nothing",
  REMARK_BEYOND_TEST: "a loss relation is used beyond the temperature at which it was tested",
  REMARK_CONCENTRATIONS: "optics and heat loss of one collector name different concentrations",
  REMARK_AGEING: "ageing without a film part runs through the life of the longest-lived part",
} as const;

export type StudyProblemCode = keyof typeof studyProblems;
export type StudyRemarkCode = keyof typeof studyRemarkCodes;

export function fault(code: StudyProblemCode | StudyRemarkCode, path: string, message: string): Problem {
  return { code, message, place: { path } };
}
