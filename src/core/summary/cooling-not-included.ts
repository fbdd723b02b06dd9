import type { Study } from "../study/schema/study.ts";

/** What the figures do not count of chillers and cold, a sentence each; none without cold. */
export function coolingNotIncluded({ chillers, loads }: Study): string[] {
  const cooling = loads.filter((load) => load.kind === "cooling");
  const moved = chillers.filter(({ byTemperature }) => byTemperature !== undefined);
  const electricMoved = cooling.filter(({ electricChiller }) => electricChiller.byAmbient !== undefined);
  if (chillers.length === 0 && cooling.length === 0) return [];
  if (moved.length === 0 && electricMoved.length === 0)
    return [
      "Part load of chillers: each chiller has one COP, whatever the weather, the driving temperature and the load; " +
        "the heat that it rejects is not followed, and its water and fans count only as far as its electricity per " +
        "kWh of cold holds them.",
    ];
  const constant = [
    ...chillers.filter((chiller) => !moved.includes(chiller)),
    ...cooling
      .filter((load) => !electricMoved.includes(load))
      .map(({ name }) => ({ name: `electric chiller of ${name}` })),
  ].map(({ name }) => name);
  return [
    "Part load of chillers: each has the COP of full load in the hour's weather; driving and cold temperatures stay " +
      "the same all year, and a tower's or cooler's approach at any load." +
      (constant.length > 0 ? ` One COP in every hour: ${constant.join(", ")}.` : ""),
    ...(chillers.length > 0
      ? [
          "Pumps, fans and water treatment of the heat rejection, but for what a chiller's electricity per kWh of cold " +
            "and its parts hold; the price and drift of tower water.",
        ]
      : []),
  ];
}
