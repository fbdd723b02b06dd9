import { type Static, Type } from "typebox";
import { Id, quantity, record, text } from "./building-blocks.ts";

export const Site = record("Site", {
  name: text("Name", 120),
  latitude_deg: quantity("Latitude", "° north positive", { least: -90, most: 90 }),
  longitude_deg: quantity("Longitude", "° east positive", { least: -180, most: 180 }),
  elevation_m: quantity("Elevation", "m", { least: -450, most: 6000 }),
  utcOffset_h: quantity("Standard time ahead of UTC", "h", { least: -12, most: 14 }),
  timeZone: text("IANA time zone of the factory's clock", 60, "For civil time, e.g. Etc/GMT-3."),
  calendarYear: Type.Integer({
    title: "Calendar year",
    minimum: 1970,
    maximum: 2100,
    description: "Fixes weekdays and daylight saving; a typical weather year has neither.",
  }),
});
export type Site = Static<typeof Site>;

/** One weather year. A plain CSV has named columns with units; see docs/guides/weather-files.md. */
export const Weather = record("Weather", {
  file: text("Weather file", 300, "EPW, TMY3 CSV or plain CSV; relative to the study file."),
  format: Type.Optional(Type.Enum(["epw", "tmy3", "csv"], { title: "Format" })),
  year: Type.Optional(
    Type.Integer({
      title: "Year to take of the file",
      minimum: 1900,
      maximum: 2100,
      description: "Needed only where a plain CSV holds several years.",
    }),
  ),
  distanceAccepted_km: Type.Optional(
    quantity("Accepts a station up to", "km from the site", {
      least: 0,
      most: 20_040,
      description: "Needed only beyond 100 km; the offer then rests on weather of another place.",
    }),
  ),
  diffuseBy: Type.Optional(
    Type.Enum(["erbs", "persistence"], {
      title: "Beam and diffuse, where only global is known",
      description:
        "Erbs goes by the hour's clearness (taken where left out); persistence also by its neighbours and its day.",
    }),
  ),
});
export type Weather = Static<typeof Weather>;

export const Network = record(
  "Heat network",
  {
    id: Id,
    name: text("Name", 80),
    carrier: Type.Enum(["water", "thermal-oil", "steam", "molten-salt", "hot-air"], { title: "Carrier" }),
    supply_C: quantity("Supply", "°C", { least: 20, most: 600 }),
    return_C: quantity("Return", "°C", { least: 0, most: 600 }),
    exchangerApproach_K: quantity("Exchanger approach", "K", { least: 0, most: 60 }),
    collectorIn_C: Type.Optional(quantity("Collector inlet", "°C", { least: 0, most: 650 })),
    collectorOut_C: Type.Optional(quantity("Collector outlet", "°C", { least: 0, most: 650 })),
  },
  "Loads that share a supply and a return temperature. Collector temperatures default to return and " +
    "supply plus the approach; on a steam network both lie above saturation.",
);
export type Network = Static<typeof Network>;
