import type { DispatchCase, SizeCase } from "../../src/core/dispatch/case.ts";

const infinity = Number.POSITIVE_INFINITY;
const isFree = ({ least, most }: SizeCase) => least === 0 && most === infinity;
const isHeld = ({ least, most }: SizeCase) => least === most;
const isBounded = ({ least, most }: SizeCase) => least < most && most < infinity;
const isLimited = ({ existing, least }: SizeCase) => existing + least < infinity;
const sizesOf = (problem: DispatchCase) =>
  [problem.stores, problem.stepDowns, problem.chillers, problem.backups].flatMap((items) =>
    items.map(({ size }) => size),
  );
const prices = (problem: DispatchCase) => problem.backups.map(({ heatPrice_per_kWh }) => heatPrice_per_kWh);
const hasTwice = (values: readonly number[]) => new Set(values).size < values.length;
const wraps = (window: Int32Array) => window.some((block, n) => n > 0 && block < window[n - 1]!);

/** What a problem may have in it, each with the test by which it is seen. */
export const plantFeatures: Readonly<Record<string, (problem: DispatchCase) => boolean>> = {
  "one network": ({ networks }) => networks.length === 1,
  "two networks": ({ networks }) => networks.length === 2,
  "three networks": ({ networks }) => networks.length === 3,
  "four networks": ({ networks }) => networks.length === 4,
  "a network that wants nothing": ({ networks }) =>
    networks.some(({ fixed_kW }) => fixed_kW.every((kW) => kW === 0)),
  "several collector types on one network": ({ fields }) => hasTwice(fields.map(({ network }) => network)),
  "one collector type on several networks": ({ fields }) =>
    hasTwice(fields.map(({ collector }) => collector)),
  "collector bounds over all networks": ({ collectors }) =>
    collectors.some(({ least_m2, most_m2 }) => least_m2 > 0 || most_m2 < infinity),
  parasitics: ({ fields }) =>
    fields.some(({ parasitic_kW_per_m2 }) => parasitic_kW_per_m2.some((kW) => kW > 0)),
  "existing plant": (problem) =>
    problem.fields.some(({ existing_m2 }) => existing_m2 > 0) ||
    problem.stores.some(({ size }) => size.existing > 0),
  store: ({ stores }) => stores.some(({ serves }) => "network" in serves),
  "store without losses": ({ stores }) => stores.some(({ keep_per_h }) => keep_per_h === 1),
  "store with losses": ({ stores }) => stores.some(({ keep_per_h }) => keep_per_h < 1),
  "store with power limits": ({ stores }) => stores.some(({ chargeLimit_kW }) => chargeLimit_kW < infinity),
  "charging power sized": ({ stores }) => stores.some(({ charger }) => charger !== null && !isHeld(charger)),
  "charging power given": ({ stores }) => stores.some(({ charger }) => charger !== null && isHeld(charger)),
  "step-down without limit": ({ stepDowns }) => stepDowns.some(({ size }) => size.existing === infinity),
  "step-down of given power": ({ stepDowns }) =>
    stepDowns.some(({ size }) => isHeld(size) && isLimited(size)),
  "step-down sized": ({ stepDowns }) => stepDowns.some(({ size }) => !isHeld(size)),
  "cooling by absorption": ({ chillers }) => chillers.length > 0,
  "COP by the hour": ({ chillers }) => chillers.some(({ cop }) => cop.some((value) => value !== cop[0])),
  "hours in which a chiller cannot run": ({ chillers }) =>
    chillers.some(({ capacityFactor }) => capacityFactor.some((factor) => factor === 0)),
  "electric cooling with a limit": ({ cold }) =>
    cold.some(({ electricLimit_kW }) => electricLimit_kW < infinity),
  "cold store": ({ stores }) => stores.some(({ serves }) => "cold" in serves),
  "water with a tank": ({ water }) => water.some(({ tank_m3 }) => tank_m3 > 0),
  "water without a tank": ({ water }) => water.some(({ tank_m3 }) => tank_m3 === 0),
  "batch windows": ({ batches }) => batches.length > 0,
  "batch windows that wrap the end": ({ batches }) => batches.some(({ windows }) => windows.some(wraps)),
  "backup without limit": ({ backups }) => backups.some(({ size }) => size.existing === infinity),
  "boiler of given power": ({ backups }) => backups.some(({ size }) => isHeld(size) && isLimited(size)),
  "boiler sized": ({ backups }) => backups.some(({ size }) => !isHeld(size)),
  "two boilers on a network": ({ backups }) => hasTwice(backups.map(({ network }) => network)),
  "backup that may charge": ({ backups }) => backups.some(({ mayCharge }) => mayCharge),
  "backup that may not charge": ({ backups }) => backups.some(({ mayCharge }) => !mayCharge),
  "hourly prices": (problem) => prices(problem).some((price) => price.some((value) => value !== price[0])),
  "negative prices": (problem) => prices(problem).some((price) => price.some((value) => value < 0)),
  "negative prices of electricity": ({ electricityPrice_per_kWh }) =>
    electricityPrice_per_kWh.some((value) => value < 0),
  land: ({ limits }) => limits.land_m2 !== null,
  budget: ({ limits }) => limits.budget !== null,
  "least solar fraction": ({ limits }) => limits.leastSolarFraction !== null,
  "free sizes": (problem) => sizesOf(problem).some(isFree),
  "bounded sizes": (problem) => sizesOf(problem).some(isBounded),
  "all sizes given": (problem) =>
    sizesOf(problem).every(isHeld) && problem.fields.every(({ least_m2, most_m2 }) => least_m2 === most_m2),
  "days of their own": ({ cycles }) => cycles.length > 1,
  "several years with shares": ({ name }) => name.endsWith("-years"),
  "half hours": ({ step_h }) => step_h === 0.5,
};
