/**
 * Hours in which the collector is stowed or emptied of air: 1, else 0. It is stowed in an hour whose mean wind lies
 * above `stowWind_m_s`, stays so while the wind lies above `returnWind_m_s`, and for the `backAfter_h` hours that
 * follow; wind above `returnWind_m_s` in these begins them anew. The year is a ring: a storm on 31 December
 * reaches into 1 January. Gusts are not in hourly means; the limit must leave room for them.
 *
 * @param storm without `returnWind_m_s` the collector returns at the wind that stows it
 */
export function stowedHours(
  wind_m_s: Float64Array,
  storm: { readonly stowWind_m_s: number; readonly returnWind_m_s?: number; readonly backAfter_h: number },
): Uint8Array {
  const { stowWind_m_s, returnWind_m_s = stowWind_m_s, backAfter_h } = storm;
  const n = wind_m_s.length;
  const stowed = new Uint8Array(n);
  let windy = false;
  let left = 0;
  // Twice round the ring: the first round finds how the year begins, and a storm in it makes both rounds alike.
  for (let step = 0; step < 2 * n; step += 1) {
    const i = step % n;
    windy = wind_m_s[i]! > (windy || left > 0 ? returnWind_m_s : stowWind_m_s);
    stowed[i] = windy || left > 0 ? 1 : 0;
    if (windy) left = backAfter_h;
    else if (left > 0) left -= 1;
  }
  return stowed;
}
