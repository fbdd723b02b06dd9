/** A run of hours; `from` is an hour index, the run may go over the year's end. */
export interface HourRun {
  readonly from: number;
  readonly lasts_h: number;
}

export interface FilledSeries {
  /** New array; hours of refused gaps stay NaN. */
  readonly hourly: Float64Array;
  /** What was filled by which rule; a rule that was not needed is not listed. */
  readonly filled: readonly { readonly rule: string; readonly hours: readonly number[] }[];
  /** Gaps that no rule covers. */
  readonly refused: readonly HourRun[];
}

export const fillLimits = {
  /** Gaps up to here are bridged by a straight line between their neighbours. */
  line_h: 3,
  /** Gaps up to here take the same hour of the weeks (or days) before and after. */
  week_h: 24,
  /** More hours than this share of the year filled in all is refused by the reader. */
  totalShare: 0.05,
} as const;

const rules = {
  line: "straight line between the hours before and after (gaps up to 3 h)",
  week: "mean of the same hour one week before and one week after, or the one of them that is known (gaps up to 24 h)",
  day: "mean of the same hour one day before and one day after, where neither week is known (gaps up to 24 h)",
} as const;

/**
 * Fills short gaps (NaN) of a year by named rules and lists every filled hour. The year is taken as a
 * ring, so a gap at New Year has neighbours on both sides. Only metered hours serve as sources.
 */
export function fillGaps(series: Float64Array): FilledSeries {
  const hourly = series.slice();
  const hours: Record<keyof typeof rules, number[]> = { line: [], week: [], day: [] };
  const refused: HourRun[] = [];
  const n = series.length;
  const at = (index: number) => series[((index % n) + n) % n];

  for (const gap of gapsOf(series)) {
    const { from, lasts_h } = gap;
    if (lasts_h >= n || lasts_h > fillLimits.week_h) {
      refused.push(gap);
      continue;
    }
    const places = Array.from({ length: lasts_h }, (_, k) => (from + k) % n);
    if (lasts_h <= fillLimits.line_h) {
      const before = at(from - 1);
      const after = at(from + lasts_h);
      places.forEach((hour, k) => {
        hourly[hour] = before + ((after - before) * (k + 1)) / (lasts_h + 1);
      });
      hours.line.push(...places);
      continue;
    }
    const byWeek = places.map((hour) => meanKnown(at(hour - 168), at(hour + 168)));
    const byDay = places.map((hour) => meanKnown(at(hour - 24), at(hour + 24)));
    if (places.some((_, k) => Number.isNaN(byWeek[k]) && Number.isNaN(byDay[k]))) {
      refused.push(gap);
      continue;
    }
    places.forEach((hour, k) => {
      const rule = Number.isNaN(byWeek[k]) ? "day" : "week";
      hourly[hour] = rule === "week" ? byWeek[k]! : byDay[k]!;
      hours[rule].push(hour);
    });
  }
  const filled = (["line", "week", "day"] as const)
    .filter((rule) => hours[rule].length > 0)
    .map((rule) => ({ rule: rules[rule], hours: hours[rule].sort((a, b) => a - b) }));
  return { hourly, filled, refused };
}

/** Runs of NaN, in order, taking the year as a ring. */
export function gapsOf(series: Float64Array): HourRun[] {
  const n = series.length;
  const firstKnown = series.findIndex((value) => !Number.isNaN(value));
  if (firstKnown < 0) return n === 0 ? [] : [{ from: 0, lasts_h: n }];
  const gaps: HourRun[] = [];
  for (let k = 0; k < n; k += 1) {
    const index = (firstKnown + k) % n;
    if (!Number.isNaN(series[index])) continue;
    let lasts_h = 1;
    while (Number.isNaN(series[(index + lasts_h) % n])) lasts_h += 1;
    gaps.push({ from: index, lasts_h });
    k += lasts_h - 1;
  }
  return gaps.sort((a, b) => a.from - b.from);
}

function meanKnown(a: number, b: number): number {
  if (Number.isNaN(a)) return b;
  return Number.isNaN(b) ? a : (a + b) / 2;
}
