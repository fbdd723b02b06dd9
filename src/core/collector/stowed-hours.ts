/**
 * Hours in which the collector is stowed or emptied of air: 1 where the hourly mean wind lies above the
 * limit and in the `backAfter_h` hours that follow, else 0. The year is a ring: a storm on 31 December
 * reaches into 1 January. Gusts are not in hourly means; the limit must leave room for them.
 */
export function stowedHours(
  wind_m_s: Float64Array,
  storm: { stowWind_m_s: number; backAfter_h: number },
): Uint8Array {
  const n = wind_m_s.length;
  const stowed = new Uint8Array(n);
  let left = 0;
  for (let i = n - storm.backAfter_h; i < n; i += 1) {
    if (wind_m_s[i]! > storm.stowWind_m_s) left = storm.backAfter_h + 1;
    if (left > 0) left -= 1;
  }
  for (let i = 0; i < n; i += 1) {
    if (wind_m_s[i]! > storm.stowWind_m_s) left = storm.backAfter_h + 1;
    if (left > 0) {
      stowed[i] = 1;
      left -= 1;
    }
  }
  return stowed;
}
