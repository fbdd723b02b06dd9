import { type Static, Type } from "typebox";
import { Id, quantity, record, share, tagged, text } from "./building-blocks.ts";

const monthDay = (title: string) =>
  Type.String({ title, pattern: "^(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$" });

/** Days given as month-day, both included; from may lie after to (over New Year). */
export const Closure = record("Closed days", { from: monthDay("From"), to: monthDay("To") });
export type Closure = Static<typeof Closure>;

const dayShares = (title: string) =>
  Type.Array(share("Share of the level in an hour"), {
    title,
    minItems: 24,
    maxItems: 24,
    description: "Shares of the level, hour by hour of civil time.",
  });

export const Shift = record("Shift", {
  name: text("Shift", 60),
  weekdays: Type.Array(Type.Integer({ minimum: 1, maximum: 7 }), {
    title: "Starts on",
    description: "1 Monday to 7 Sunday",
    minItems: 1,
    maxItems: 7,
  }),
  starts_h: quantity("Starts at", "civil hour", { least: 0, most: 23.75 }),
  ends_h: quantity("Ends at", "civil hour", { least: 0, most: 24 }),
  share: share("Share of the level"),
});
export type Shift = Static<typeof Shift>;

const Week = tagged("by", "Week", [
  record("Shifts", {
    by: Type.Literal("shifts"),
    shifts: Type.Array(Shift, {
      title: "Shifts",
      minItems: 1,
      maxItems: 40,
      description:
        "In quarter hours of civil time, 6.5 for half past six. One that ends at or before its start runs past midnight and counts to the day on which it starts.",
    }),
    between: share("Share between the shifts", "What is drawn on an open day while no shift works."),
  }),
  record("24 shares for each kind of day", {
    by: Type.Literal("hours"),
    weekday: dayShares("Monday to Friday"),
    saturday: dayShares("Saturday"),
    sunday: dayShares("Sunday"),
  }),
]);
export type Week = Static<typeof Week>;

const Campaign = record("Campaign", {
  name: text("Campaign", 60),
  from: monthDay("From"),
  to: monthDay("To"),
  factor: quantity("Factor", "1", { least: 0, most: 10 }),
});

const Holiday = record("Holiday", {
  name: text("Holiday", 60),
  date: monthDay("Date"),
  runsAs: Type.Enum(["closed", "saturday", "sunday"], { title: "Runs as" }),
});

const Ramp = record(
  "Start-up",
  {
    afterIdle_h: quantity("After a rest of at least", "h", { above: 0, most: 336 }),
    lasts_h: quantity("Lasts", "h", { above: 0, most: 24 }),
    startsAt: quantity("Starts at", "of what would be drawn", {
      least: 0,
      most: 5,
      description: "Below 1 for a plant that comes up slowly, above 1 for one that must be heated through.",
    }),
  },
  "After a rest at or below the share between the shifts, what is drawn moves in a straight line from this part of it to all of it.",
);

/** When a factory works, as shares of a level: loads name it by its id. */
export const Calendar = record("Calendar", {
  id: Id,
  name: text("Name", 80),
  week: Week,
  months: Type.Optional(
    Type.Array(quantity("Factor of a month", "1", { least: 0, most: 10 }), {
      title: "Factors by month",
      minItems: 12,
      maxItems: 12,
      description: "January to December; 1 where left out.",
    }),
  ),
  campaigns: Type.Optional(
    Type.Array(Campaign, {
      title: "Campaigns",
      maxItems: 20,
      description:
        "Both days included, as 09-15 for 15 September; on its days a campaign's factor takes the place of the month's.",
    }),
  ),
  holidays: Type.Optional(
    Type.Array(Holiday, {
      title: "Public and works holidays",
      maxItems: 60,
      description: "By their date in the study's calendar year, as 05-01 for 1 May.",
    }),
  ),
  closed: Type.Optional(
    Type.Array(Closure, {
      title: "Shut-downs",
      maxItems: 20,
      description: "Both days included, as 12-24 to 01-06; may run over New Year.",
    }),
  ),
  closedShare: Type.Optional(
    share("Share on closed days", "Of the level, on closed holidays and in shut-downs; 0 where left out."),
  ),
  ramp: Type.Optional(Ramp),
});
export type Calendar = Static<typeof Calendar>;
