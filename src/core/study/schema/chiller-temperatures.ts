import { type Static, Type } from "typebox";
import { quantity, record, tagged } from "./building-blocks.ts";

const rise = {
  rise_K: quantity("Rise of the cooling water", "K", {
    above: 0,
    most: 30,
    description: "Through absorber and condenser at full load; half of it is added for the mean.",
  }),
};
const cooler = {
  approach_K: quantity("Approach", "K", {
    least: 0,
    most: 30,
    description: "Water enters the chiller so much above the wet bulb (tower) or the air (dry cooler).",
  }),
  least_C: quantity("Held at least at", "°C", {
    least: 0,
    most: 50,
    description: "What the control keeps entering water at, against crystals and freezing.",
  }),
};

export const CoolingWater = tagged("from", "Cooling water", [
  record("Wet cooling tower", {
    from: Type.Literal("wet-tower"),
    ...cooler,
    ...rise,
    cyclesOfConcentration: quantity("Cycles of concentration", "1", {
      above: 1,
      most: 20,
      description: "Dissolved matter in the tower's water over that of its make-up; sets the blow-down.",
    }),
  }),
  record("Dry cooler", { from: Type.Literal("dry-cooler"), ...cooler, ...rise }),
  record("Given by the month", {
    from: Type.Literal("by-month"),
    months_C: Type.Array(quantity("Entering water", "°C", { least: 0, most: 60 }), {
      title: "Entering water, January to December",
      minItems: 12,
      maxItems: 12,
      description: "Of the sea, a river or a well.",
    }),
    ...rise,
  }),
]);
export type CoolingWater = Static<typeof CoolingWater>;

const service = {
  drivingMean_C: quantity("Mean driving temperature in service", "°C", {
    least: 40,
    most: 300,
    description: "Mean of inlet and outlet of the driving heat; of steam, its saturation temperature.",
  }),
  coldRise_K: quantity("Rise of the cold water", "K", {
    least: 0,
    most: 20,
    description: "Above the load's cold supply; half of it is added for the mean.",
  }),
  coolingWater: CoolingWater,
};

const Coefficients = record(
  "Coefficients of the tested machine",
  {
    coolingWeight: quantity("Weight of cooling water, a", "1", { above: 0, most: 10 }),
    coldWeight: quantity("Weight of cold water, e", "1", { least: 0, most: 10 }),
    cold_kW_per_K: quantity("Slope of cold", "kW/K", { above: 0, most: 10_000 }),
    coldAtZero_kW: quantity("Cold at ΔΔt = 0", "kW", { least: -10_000, most: 10_000 }),
    heat_kW_per_K: quantity("Slope of driving heat", "kW/K", { above: 0, most: 10_000 }),
    heatAtZero_kW: quantity("Driving heat at ΔΔt = 0", "kW", { least: -10_000, most: 10_000 }),
  },
  "ΔΔt = driving − a · cooling water + e · cold water, means of inlet and outlet. Left out: those of a tested single-effect machine.",
);

export const ByTemperature = tagged("by", "COP and capacity by temperature", [
  record("By the characteristic equation", {
    by: Type.Literal("characteristic"),
    ...service,
    ratedDriving_C: quantity("Driving temperature at the rated point, mean", "°C", { least: 40, most: 300 }),
    ratedCoolingWater_C: quantity("Cooling water at the rated point, mean", "°C", { least: 0, most: 60 }),
    ratedCold_C: quantity("Cold water at the rated point, mean", "°C", { least: -50, most: 30 }),
    mostFactor: quantity("Most cold", "share of the rated cold", { least: 0.5, most: 2 }),
    coefficients: Type.Optional(Coefficients),
  }),
  record("By points of the data sheet", {
    by: Type.Literal("points"),
    ...service,
    points: Type.Array(
      record("Point", {
        coolingIn_C: quantity("Entering cooling water", "°C", { least: 0, most: 60 }),
        cop: quantity("COP", "1", { above: 0, most: 2.5 }),
        capacityFactor: quantity("Cold", "share of the rated cold", { least: 0, most: 2 }),
      }),
      {
        title: "Points at the driving and cold temperatures of service",
        minItems: 2,
        maxItems: 20,
        description: "By rising cooling water; straight lines between them, the nearest point beyond.",
      },
    ),
  }),
]);
export type ByTemperature = Static<typeof ByTemperature>;
