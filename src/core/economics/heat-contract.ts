import { npv } from "financial";
import type { Figure } from "./figures.ts";
import { internalRate } from "./internal-rate.ts";
import { nominalRate, type OwnerFlow, type OwnerTerms, ownerYears } from "./owner-flow.ts";

/** All lists have entry 0 for the end of year 1; money is real. */
export interface ContractInput {
  /** The seller's plant without what heat is sold for: `operating` is upkeep and electricity, as amounts below 0. */
  readonly seller: OwnerFlow;
  readonly terms: OwnerTerms;
  /** Real return that the seller wants on the money of its own. */
  readonly wantedReturn: number;
  /** 0: the lowest price; 1: the price at which the client saves nothing. */
  readonly sellerShare: number;
  readonly heat_kWh: ArrayLike<number>;
  /** Real price of each year per price of the first. */
  readonly index: ArrayLike<number>;
  /** What the client saves before it pays for heat. */
  readonly clientSaves: ArrayLike<number>;
  /** The client's real discount rate. */
  readonly clientRate: number;
}

export interface ContractYear {
  readonly year: number;
  readonly heat_kWh: number;
  readonly price_per_kWh: number;
  readonly payment: number;
  /** On the seller's own money, after tax and loan. */
  readonly seller: number;
  /** What the client saves after paying for heat. */
  readonly client: number;
}

export interface ContractFigures {
  /** Real, of the first year; null where no heat is sold or no price gives the return. */
  readonly lowest_per_kWh: number | null;
  readonly highest_per_kWh: number | null;
  readonly price_per_kWh: number | null;
  /** The seller's real return at the price; null with a remark where it does not exist or is not the only one. */
  readonly sellerReturn: number | null;
  readonly sellerNpv: number;
  readonly clientNpv: number;
  readonly clientSavesOverPeriod: number;
  /** Real money; year 0 is the purchase. */
  readonly years: readonly ContractYear[];
  readonly remarks: readonly string[];
}

/**
 * Prices of heat at which a seller keeps the plant: the lowest gives its own money the wanted return after tax and
 * loan, the highest leaves the client nothing of its saving at its own rate, and the contract's lies between them
 * by the seller's share. The seller's worth at the wanted return rises with the price; it is a line, but for losses
 * carried forward, so the root is found by secants within a bracket.
 */
export function heatContract(input: ContractInput): ContractFigures {
  const { heat_kWh, index, clientSaves, clientRate, sellerShare } = input;
  const years = heat_kWh.length;
  const discounted = (list: ArrayLike<number>, rate: number) => npv(rate, [0, ...Array.from(list)]);
  const sold = Array.from({ length: years }, (_, t) => heat_kWh[t]! * index[t]!);
  const soldWorth = discounted(sold, clientRate);
  if (!(soldWorth > 0)) return nothingSold(input);

  const lowest = lowestPrice(input, sold);
  const highest = discounted(clientSaves, clientRate) / soldWorth;
  const remarks: string[] = [];
  if (lowest === null)
    remarks.push(
      "No price of heat gives the seller the wanted return: more income does not raise its worth.",
    );
  else if (lowest > highest)
    remarks.push(
      "No price suits both sides: at the lowest price that gives the seller its return, heat costs the client more over the period than it saves. The figures are those of the lowest price.",
    );
  const price =
    lowest === null ? null : lowest > highest ? lowest : lowest + sellerShare * (highest - lowest);
  const used = price ?? 0;
  const owner = sellerYears(input, used, sold);
  const flows = owner.map(({ equity, year }) => equity / (1 + input.terms.inflation) ** year);
  const rate: Figure = internalRate(flows);
  if (rate.value === null && price !== null) remarks.push(`The seller's return: ${rate.remark}`);
  const list = owner.map(({ year }, n): ContractYear => {
    if (year === 0) return { year, heat_kWh: 0, price_per_kWh: 0, payment: 0, seller: flows[0]!, client: 0 };
    const payment = used * sold[n - 1]!;
    return {
      year,
      heat_kWh: heat_kWh[n - 1]!,
      price_per_kWh: used * index[n - 1]!,
      payment,
      seller: flows[n]!,
      client: clientSaves[n - 1]! - payment,
    };
  });
  return {
    lowest_per_kWh: lowest,
    highest_per_kWh: highest,
    price_per_kWh: price,
    sellerReturn: price === null ? null : rate.value,
    sellerNpv: npv(input.wantedReturn, flows),
    clientNpv: npv(
      clientRate,
      list.map(({ client }) => client),
    ),
    clientSavesOverPeriod: list.reduce((all, { client }) => all + client, 0),
    years: list,
    remarks,
  };
}

/** The seller's years at a price of heat. */
function sellerYears({ seller, terms }: ContractInput, price: number, sold: readonly number[]) {
  const operating = sold.map((heat, t) => price * heat + seller.operating[t]!);
  return ownerYears({ ...seller, operating }, terms);
}

function lowestPrice(input: ContractInput, sold: readonly number[]): number | null {
  const rate = nominalRate(input.wantedReturn, input.terms.inflation);
  const worth = (price: number) =>
    npv(
      rate,
      sellerYears(input, price, sold).map(({ equity }) => equity),
    );
  // A price that would pay all costs in the first year, and its opposite, lie on either side but for odd taxes.
  const heat = sold.reduce((all, one) => all + one, 0);
  let low = 0;
  let high = Math.max(1e-9, input.seller.capital / heat);
  for (let n = 0; n < 60 && worth(high) < 0; n += 1) high *= 2;
  for (let n = 0; n < 60 && worth(low) > 0; n += 1) low = low === 0 ? -high : low * 2;
  let atLow = worth(low);
  let atHigh = worth(high);
  if (!(atLow <= 0 && atHigh >= 0)) return null;
  for (let n = 0; n < 200 && high - low > 1e-15 * Math.max(Math.abs(high), Math.abs(low)); n += 1) {
    const secant = low - (atLow * (high - low)) / (atHigh - atLow);
    // Every other step halves the bracket, for a secant that creeps.
    const next = n % 2 === 0 && secant > low && secant < high ? secant : (low + high) / 2;
    const value = worth(next);
    if (value === 0) return next;
    if (value < 0) [low, atLow] = [next, value];
    else [high, atHigh] = [next, value];
  }
  return Math.abs(atLow) < Math.abs(atHigh) ? low : high;
}

function nothingSold(input: ContractInput): ContractFigures {
  return {
    lowest_per_kWh: null,
    highest_per_kWh: null,
    price_per_kWh: null,
    sellerReturn: null,
    sellerNpv: 0,
    clientNpv: 0,
    clientSavesOverPeriod: 0,
    years: [],
    remarks: [
      input.seller.capital > 0
        ? "There is no price of heat: the plant sells no solar heat."
        : "There is no price of heat: nothing new is bought.",
    ],
  };
}
