import {
  type Chart,
  type ChartFrame,
  efficiencyByConcentration as efficiencyChart,
  filmLife,
  type LossPanel,
  lossWaterfall,
} from "../../charts/index.ts";
import { efficiencyByConcentration } from "../../core/collector/efficiency-by-concentration.ts";
import { collectorLevel } from "../../core/collector/network-levels.ts";
import { breakEvenFilmPrice_per_m2, filmLifeCosts } from "../../core/economics/film-life-costs.ts";
import { annualCostPerUnit } from "../../core/economics/part-cost.ts";
import type { Result } from "../../core/study/result.ts";
import type { Collector, Study } from "../../core/study/schema/study.ts";
import { collectorYears, isBuilt, type NamedCollectorYear } from "../../present/collector-losses.ts";
import { asGiven } from "../../present/numbers.ts";
import { money } from "../../present/quantities.ts";
import type { ChartView } from "./document-charts.ts";

type Show = (prefix: string, draw: (frame: ChartFrame) => Chart, title?: string) => ChartView;

/** A waterfall for each collector, its heat networks beside each other; all on the scale of the brightest. */
export function lossCharts(study: Study, result: Result, show: Show): ChartView[] {
  const years = collectorYears(study, result);
  const charts = [...new Set(years.map(({ id }) => id))].map((id) => {
    const own = years.filter((year) => year.id === id);
    return { id, name: own[0]!.collector, panels: own.map(lossPanel) };
  });
  const all = charts.map(({ panels }) => panels);
  return charts.map(({ id, name, panels }) =>
    show(`losses-${id}`, (frame) => lossWaterfall(panels, frame, all), `Where does the light on ${name} go?`),
  );
}

function lossPanel(year: NamedCollectorYear): LossPanel {
  const { figures, network, meanFluid_C } = year;
  return {
    name: network,
    meanFluid_C,
    chain: isBuilt(year) ? figures : { ...figures, used_kWh_per_m2: null },
  };
}

/** Prices of the film beside its own, as factors. */
const filmPriceFactors = [0.5, 1, 2];

/** What each built collector's film could cost and how long it should be kept, at the network where most is built. */
export function filmLifeCharts(study: Study, result: Result, show: Show): ChartView[] {
  const { currency, realDiscountRate: rate, locale = "en" } = study.money;
  const built = collectorYears(study, result)
    .filter(isBuilt)
    .sort((a, b) => b.aperture_m2 - a.aperture_m2);
  const drawn = new Set<string>();
  return built.flatMap(({ id, collector: name, network, figures }) => {
    const collector = study.collectors.find((one) => one.id === id);
    const film = collector?.parts.find((part) => part.name === collector.filmPart);
    const match = result.match.find((row) => row.collector === id && row.network === figures.network);
    const lives = figures.filmLives ?? null;
    if (lives === null || collector === undefined || film === undefined || drawn.has(id)) return [];
    if (!(film.price_per_unit > 0) || lives.life_years.length < 2 || !(match?.cost_per_kWh != null))
      return [];
    drawn.add(id);
    const { cost_per_kWh } = match;
    const running_per_m2_year =
      cost_per_kWh * figures.useful_kWh_per_m2 - annualCostPerUnit(collector.parts, rate);
    const input = { parts: collector.parts, film, rate, running_per_m2_year, ...lives };
    const curves = filmLifeCosts(
      input,
      filmPriceFactors.map((factor) => factor * film.price_per_unit),
    );
    const data = { life_years: lives.life_years, curves };
    const title = `After how many years does changing the film of ${name} pay?`;
    const view = show(`film-life-${id}`, (frame) => filmLife(data, currency, frame), title);
    const w = { locale, currency };
    const twice = lives.life_years.indexOf(2 * film.life_years);
    const allowed = twice < 0 ? 0 : breakEvenFilmPrice_per_m2(input, cost_per_kWh, twice);
    const durable =
      allowed > 0
        ? ` A film that ages as fast and is kept ${asGiven(2 * film.life_years, locale)} years instead of ${asGiven(film.life_years, locale)} may cost ${money(allowed, w)} per m² instead of ${money(film.price_per_unit, w)}.`
        : "";
    return [{ ...view, reading: `${view.reading} Drawn for heat to ${network}.${durable}` }];
  });
}

/** A clear hour for which efficiency against concentration is drawn; the page says it. */
const clearHour = { beam_W_m2: 900, ambient_C: 25, wind_m_s: 3 };

/** Beside a collector whose optics come from its shape: what more or less concentration would give. */
export function concentrationCharts(study: Study, collector: Collector, show: Show): ChartView[] {
  const { optics } = collector;
  if (optics.by !== "shape") return [];
  const served = study.networks.filter(({ id }) => collector.networks.includes(id));
  const temperatures = served.map((network) => {
    const { collectorIn_C, collectorOut_C } = collectorLevel(network);
    return (collectorIn_C + collectorOut_C) / 2;
  });
  const own_mrad = optics.slopeError_mrad;
  const found = efficiencyByConcentration(collector, {
    ...clearHour,
    meanFluid_C: [...new Set(temperatures)],
    slopeError_mrad: own_mrad > 0 ? [own_mrad / 2, own_mrad, 2 * own_mrad] : [0, 2, 5],
  });
  if (found === null || found.curves.length === 0) return [];
  const title = `How much concentration would suit ${collector.name}?`;
  const view = show(`concentration-${collector.id}`, (frame) => efficiencyChart(found.curves, frame), title);
  const { beam_W_m2, ambient_C, wind_m_s } = clearHour;
  const about = `It has a concentration of ${optics.concentration} and a slope error of ${own_mrad} mrad. Drawn for ${beam_W_m2} W/m² of beam head on, air of ${ambient_C} °C and a wind of ${wind_m_s} m/s, mirror and film clean and new.`;
  return [{ ...view, reading: `${view.reading} ${about}` }];
}
