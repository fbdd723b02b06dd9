import type { Collector, Part, Study } from "../study/schema/study.ts";
import type { UncertainInput } from "./uncertain-inputs.ts";

/** Values of inputs by factor or addition; what is missing is as in the study. */
export type Variation = Partial<Readonly<Record<UncertainInput, number>>>;

/**
 * A study with what a variation changes in its own values: prices and lives of parts, rates, cleanliness, heat
 * loss. Prices of fuel and electricity are in it too, for figures that are told by them; hourly series, sunshine
 * and demand are the evaluation's.
 */
export function variedStudy(study: Study, variation: Variation): Study {
  const factor = (input: UncertainInput) => variation[input] ?? 1;
  const added = (input: UncertainInput) => variation[input] ?? 0;
  const parts = (list: readonly Part[], price: number, isFilm: (part: Part) => boolean = () => false) =>
    list.map((part) => {
      const film = isFilm(part);
      const times = film ? factor("film-price") : price;
      return {
        ...part,
        price_per_unit: part.price_per_unit * times,
        ...(part.fixedPrice === undefined ? {} : { fixedPrice: part.fixedPrice * times }),
        life_years: part.life_years * (film ? factor("film-life") : 1),
        upkeep_per_unit_year: part.upkeep_per_unit_year * factor("upkeep"),
        ...(part.fixedUpkeep_per_year === undefined
          ? {}
          : { fixedUpkeep_per_year: part.fixedUpkeep_per_year * factor("upkeep") }),
      };
    });
  const other = factor("other-price");
  return {
    ...study,
    collectors: study.collectors.map((collector) => ({
      ...collector,
      parts: parts(collector.parts, factor("collector-price"), ({ name }) => name === collector.filmPart),
      ...(collector.pipes?.parts === undefined
        ? {}
        : { pipes: { ...collector.pipes, parts: parts(collector.pipes.parts, factor("collector-price")) } }),
      cleanliness: collector.cleanliness * factor("optics"),
      heatLoss: variedLoss(collector.heatLoss, factor("heat-loss")),
    })),
    stores: study.stores.map((store) => ({
      ...store,
      parts: parts(store.parts, factor("store-price")),
      ...(store.charging === undefined
        ? {}
        : { charging: { ...store.charging, parts: parts(store.charging.parts, factor("store-price")) } }),
    })),
    stepDowns: study.stepDowns.map((item) => ({ ...item, parts: parts(item.parts, other) })),
    chillers: study.chillers.map((item) => ({ ...item, parts: parts(item.parts, other) })),
    backups: study.backups.map((item) => ({
      ...item,
      parts: parts(item.parts, other),
      fuel: {
        ...item.fuel,
        price_per_kWh: item.fuel.price_per_kWh * factor("fuel-price"),
        ...withRise(item.fuel, added("fuel-price-rise")),
      },
    })),
    electricity: {
      ...study.electricity,
      price_per_kWh: study.electricity.price_per_kWh * factor("electricity-price"),
    },
    money: {
      ...study.money,
      realDiscountRate: Math.max(0, study.money.realDiscountRate + added("discount-rate")),
      carbonPrice_per_t: study.money.carbonPrice_per_t * factor("carbon-price"),
      ...(study.money.sharedCosts === undefined
        ? {}
        : {
            sharedCosts: study.money.sharedCosts.map((cost) => ({
              ...cost,
              ...(cost.share_per_year === undefined
                ? {}
                : { share_per_year: cost.share_per_year * factor("upkeep") }),
              ...(cost.amount_per_year === undefined
                ? {}
                : { amount_per_year: cost.amount_per_year * factor("upkeep") }),
            })),
          }),
    },
  };
}

/** A fuel's course with every year's price higher by an added rise. */
function withRise(fuel: Study["backups"][number]["fuel"], added: number) {
  return {
    escalation_per_year: fuel.escalation_per_year + added,
    ...(fuel.yearFactors === undefined
      ? {}
      : { yearFactors: fuel.yearFactors.map((price, t) => price * (1 + added) ** t) }),
  };
}

/** A published test of an evacuated tube has no figure that could be scaled. */
function variedLoss(loss: Collector["heatLoss"], factor: number): Collector["heatLoss"] {
  switch (loss.by) {
    case "iso-9806":
      return {
        ...loss,
        a1_W_m2K: loss.a1_W_m2K * factor,
        a2_W_m2K2: loss.a2_W_m2K2 * factor,
        ...(loss.a3_J_m3K === undefined ? {} : { a3_J_m3K: loss.a3_J_m3K * factor }),
        ...(loss.a4 === undefined ? {} : { a4: loss.a4 * factor }),
        ...(loss.a8_W_m2K4 === undefined ? {} : { a8_W_m2K4: loss.a8_W_m2K4 * factor }),
      };
    case "receiver-tube":
      return {
        ...loss,
        linear_W_mK: loss.linear_W_mK * factor,
        quartic_W_mK4: loss.quartic_W_mK4 * factor,
      };
    case "computed":
      return {
        ...loss,
        emittance: Math.min(1, loss.emittance * factor),
        ...(loss.insulated_W_m2K === undefined ? {} : { insulated_W_m2K: loss.insulated_W_m2K * factor }),
      };
    case "evacuated-tube":
      return loss;
  }
}
