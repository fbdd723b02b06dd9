/** What a published tariff must keep to, and what is told of it. */
export const tariffProblems = {
  TARIFF_JSON: "A tariff file must be JSON with one tariff.",
  TARIFF_RATES: "A tariff needs rates per kWh for its periods.",
  TARIFF_SCHEDULE:
    "A tariff needs twelve months of 24 hours for weekdays and for weekends, each with a period that it has.",
  TARIFF_NOT_COUNTED: "Parts of a tariff that are read and not counted, such as demand charges.",
} as const;
export type TariffProblemCode = keyof typeof tariffProblems;
