import { type Static, Type } from "typebox";
import { Backup } from "./backup.ts";
import { text } from "./building-blocks.ts";
import { Calendar } from "./calendar.ts";
import { Chiller } from "./chiller.ts";
import { Collector } from "./collector.ts";
import { Electricity } from "./electricity.ts";
import { Future } from "./future.ts";
import { Load } from "./load.ts";
import { ChosenPoint, Limits, Money, Origin } from "./money.ts";
import { Network, Site, Weather } from "./site.ts";
import { StepDown } from "./step-down.ts";
import { Store } from "./store.ts";
import { Pinch, Stream } from "./stream.ts";
import { Sureness } from "./sureness.ts";

export const currentFormatVersion = 2;

/**
 * A study: everything the user says. This schema is the one source of the TypeScript type, of the
 * validation (formats/study-json.ts) and of docs/study-reference.md.
 */
export const Study = Type.Object(
  {
    formatVersion: Type.Literal(currentFormatVersion),
    title: text("Title", 160),
    client: Type.Optional(text("Client", 160)),
    author: Type.Optional(text("Author", 160)),
    note: Type.Optional(text("Note", 4000)),
    site: Site,
    weather: Weather,
    networks: Type.Array(Network, { title: "Heat networks", minItems: 1, maxItems: 8 }),
    streams: Type.Optional(
      Type.Array(Stream, {
        title: "Process streams",
        maxItems: 60,
        description:
          "What the factory heats and cools, for the least heat that it needs before a collector is bought. They change no size and no cost.",
      }),
    ),
    pinch: Type.Optional(Pinch),
    calendars: Type.Array(Calendar, {
      title: "Calendars",
      maxItems: 20,
      description: "When the factory works; loads name them.",
    }),
    loads: Type.Array(Load, { title: "Loads", minItems: 1, maxItems: 30 }),
    collectors: Type.Array(Collector, { title: "Collectors", maxItems: 12 }),
    stores: Type.Array(Store, { title: "Stores", maxItems: 12 }),
    stepDowns: Type.Array(StepDown, { title: "Step-downs", maxItems: 20 }),
    chillers: Type.Array(Chiller, { title: "Absorption chillers", maxItems: 10 }),
    backups: Type.Array(Backup, { title: "Backups", maxItems: 12 }),
    electricity: Electricity,
    money: Money,
    limits: Limits,
    chosenPoint: Type.Optional(ChosenPoint),
    futures: Type.Optional(
      Type.Array(Future, {
        title: "Possible years",
        maxItems: 30,
        description:
          "Weather years and price paths with their probabilities, together 1, for one set of sizes that suits them all. They change nothing else.",
      }),
    ),
    sureness: Type.Optional(Sureness),
    origins: Type.Optional(Type.Array(Origin, { title: "Origins of values", maxItems: 2000 })),
  },
  { title: "Study", additionalProperties: false, $schema: "https://json-schema.org/draft/2020-12/schema" },
);
export type Study = Static<typeof Study>;

export type { Backup } from "./backup.ts";
export type { Part, Size } from "./building-blocks.ts";
export type { Calendar, Closure, Shift, Week } from "./calendar.ts";
export type { Chiller } from "./chiller.ts";
export type { Collector, HeatLoss, IncidenceModifier, Mount, Optics } from "./collector.ts";
export type { Electricity } from "./electricity.ts";
export type { Contract, Grant, LandPrice, Loan, PricePath, SharedCost, Tax } from "./finance.ts";
export type { Fuel } from "./fuel.ts";
export type { Future } from "./future.ts";
export type { Load, LoadOf } from "./load.ts";
export type { ChosenPoint, Limits, Money, Origin } from "./money.ts";
export type { BillsProfile, DemandReading, Profile } from "./profile.ts";
export type { Network, Site, Weather } from "./site.ts";
export type { StepDown } from "./step-down.ts";
export type { Store } from "./store.ts";
export type { Pinch, Stream } from "./stream.ts";
export type { Sureness } from "./sureness.ts";
