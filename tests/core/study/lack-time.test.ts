import { describe, expect, it } from "vitest";
import { hourIndex, studyCalendar } from "../../../src/core/calendar.ts";
import { lackTime, shortLabel } from "../../../src/core/study/lack-time.ts";

const athens = studyCalendar({ utcOffset_h: 2, timeZone: "Europe/Athens", calendarYear: 2025 });
const lacking = (...hours: readonly (readonly [month: number, day: number, hour: number, kW: number])[]) => {
  const year = new Float64Array(8760);
  for (const [month, day, hour, kW] of hours) year[hourIndex(month, day, hour)] = kW;
  return year;
};

describe("the time of a lack", () => {
  it("is told from first to last, with the worst hour, in civil time", () => {
    // Summer time is one hour ahead: July 9:00 standard time is 10:00 on the works' clock.
    const time = lackTime(lacking([1, 17, 7, 5], [7, 2, 9, 8], [12, 30, 6, 7]), athens);
    expect(time.first).toBe("2025-01-17T07:00+02:00");
    expect(time.last).toBe("2025-12-30T06:00+02:00");
    expect(time.worst).toBe(hourIndex(7, 2, 9));
    expect(shortLabel("2025-07-02T10:00+03:00")).toBe("2 Jul 10:00");
  });

  it.each([
    [
      "on December mornings",
      [
        [12, 3, 6, 5],
        [12, 4, 7, 5],
        [12, 5, 7, 4],
        [6, 5, 12, 3],
      ],
    ],
    [
      "in December",
      [
        [12, 3, 1, 5],
        [12, 4, 7, 5],
        [12, 5, 13, 4],
        [12, 6, 19, 5],
        [6, 5, 12, 3],
      ],
    ],
    [
      "on mornings in December and January",
      [
        [12, 3, 6, 5],
        [1, 4, 7, 5],
        [6, 5, 12, 3],
      ],
    ],
    [
      "from November to January",
      [
        [11, 3, 6, 4],
        [12, 3, 12, 4],
        [1, 3, 17, 4],
        [6, 3, 1, 2],
      ],
    ],
    [
      "in the evening",
      [
        [2, 3, 19, 4],
        [5, 3, 18, 4],
        [8, 3, 18, 4],
        [11, 3, 20, 4],
      ],
    ],
    [
      "at night",
      [
        [2, 3, 23, 4],
        [5, 3, 1, 4],
        [8, 3, 2, 4],
        [11, 3, 4, 4],
      ],
    ],
    [
      "",
      [
        [2, 3, 23, 4],
        [5, 3, 7, 4],
        [8, 3, 11, 4],
        [11, 3, 19, 4],
      ],
    ],
    ["", [[2, 3, 23, 4]]],
  ] as const)("falls mostly “%s”", (words, hours) => {
    expect(lackTime(lacking(...hours), athens).mostly).toBe(words);
  });
});
