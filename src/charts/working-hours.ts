/**
 * The value from which an hour counts as one with heat, light or water: a hundred-thousandth of the
 * highest. Less is what a solver's tolerance leaves of zero: fractions of a watt in thousands of hours.
 */
export const leastThatCounts = (highest: number): number => 1e-5 * highest;
