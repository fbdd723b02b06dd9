/** Faults in what was typed into a form. */
export const formProblems = {
  FORM_NUMBER: "a field that takes a number holds something else",
  FORM_CHOICE: "a field with given choices holds another value",
  FORM_EMPTY: "a value that the study needs was left empty",
  FORM_CHANGED_MEANWHILE: "the study was changed elsewhere after this page was shown",
  FORM_STILL_USED: "an item cannot be removed while another item of the study names it",
  FORM_TOO_MANY: "a list of the study is as long as it may be",
} as const;
