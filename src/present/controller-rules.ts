import type { Study } from "../core/study/schema/study.ts";
import { joined } from "./joined.ts";
import { asGiven } from "./numbers.ts";
import { percent, power } from "./quantities.ts";
import { writingOf } from "./writing-of.ts";

/** What the controllers of the replay keep to in this study: what they know, then each item's own rules. */
export function controllerRules(study: Study): string[] {
  const rules = itemRules(study);
  return [
    "The simple controller looks at the hour alone: sun first, hotter networks first, spare heat into what can wait and into stores, stores before backup.",
    "The plan two days ahead is made anew each midnight by a small linear program. It expects each hour’s sun to be the mean of that hour over the last three days and demand to be that of a week ago; it knows prices.",
    "Both begin the year with empty stores, and what is left at its end is worth nothing. The sizes are those found with perfect foresight; a plant sized for its controller could do better by it.",
    ...(rules.length > 0
      ? rules
      : [
          "The study gives no least loads, start-up times or dead bands, so equipment runs at any part of its power here too. Give them under Plant and Heat wanted where they matter.",
        ]),
  ];
}

function itemRules(study: Study): string[] {
  const w = writingOf(study);
  const share = (value: number) => percent(value, w);
  const load = (value: number | undefined, of: string) =>
    (value ?? 0) > 0 ? [`runs at ${share(value!)} of its ${of} or more, or stands still`] : [];
  const start = (hours: number | undefined, product: string) =>
    (hours ?? 0) > 0
      ? [`draws full heat for ${asGiven(hours!, w.locale)} h without ${product} after standing still`]
      : [];
  const said = (name: string, rules: readonly string[]) =>
    rules.length > 0 ? [`${name} ${joined(rules)}.`] : [];
  return [
    ...study.backups.flatMap(({ name, order }) =>
      order === undefined ? [] : [`${name} is called in place ${order} on its network, whatever it costs.`],
    ),
    ...study.backups.flatMap(({ name, leastLoadShare, existing_kW }) =>
      (leastLoadShare ?? 0) > 0 && existing_kW === undefined
        ? [`${name} has no effective least load: its power is not given, so it is large enough for any hour.`]
        : said(name, load(leastLoadShare, "power")),
    ),
    ...study.chillers.flatMap(({ name, leastLoadShare, startUp_h }) =>
      said(name, [...load(leastLoadShare, "power"), ...start(startUp_h, "cold")]),
    ),
    ...study.loads.flatMap((one) =>
      one.kind === "desalination"
        ? said(one.name, [...load(one.leastLoadShare, "capacity"), ...start(one.startUp_h, "water")])
        : [],
    ),
    ...study.stores.flatMap(({ name, leastPower_kW, contentDeadBand }) =>
      said(name, [
        ...((leastPower_kW ?? 0) > 0
          ? [`neither charges nor discharges below ${power(leastPower_kW!, w)}`]
          : []),
        ...((contentDeadBand ?? 0) > 0
          ? [
              `gives heat again only from ${share(contentDeadBand!)} of its capacity on once empty, and takes heat again only from as much below full`,
            ]
          : []),
      ]),
    ),
  ];
}
