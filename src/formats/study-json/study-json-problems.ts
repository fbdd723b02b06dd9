/** Faults of a study.json. Each names its place by the path in the study. */
export const studyJsonProblems = {
  STUDY_JSON_SYNTAX: "a study file must be JSON",
  STUDY_JSON_VERSION: "a study's formatVersion must be one that this program reads",
  STUDY_JSON_MISSING: "a required property must be there",
  STUDY_JSON_UNKNOWN: "an object may hold the properties of the schema and no others",
  STUDY_JSON_TYPE: "a value must be of the kind that its property asks for",
  STUDY_JSON_RANGE: "a number must lie in its property's range",
  STUDY_JSON_CHOICE: "a choice must be one of those offered",
  STUDY_JSON_LENGTH: "a list or text must have an allowed length",
  STUDY_JSON_FORM: "a text must have the form that its property asks for",
} as const;
export type StudyJsonProblemCode = keyof typeof studyJsonProblems;
