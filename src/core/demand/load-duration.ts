/** The hourly figures from the largest to the smallest, a new array of the same length; NaN comes last. */
export function loadDuration(hourly: Float64Array): Float64Array {
  // A typed array sorts by number and puts NaN last, so reversing would bring NaN to the front.
  const negated = Float64Array.from(hourly, (value) => -value).sort();
  return negated.map((value) => 0 - value);
}
