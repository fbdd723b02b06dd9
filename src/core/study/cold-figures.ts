/** A cooling load's year with the plan, against today's plant. First-year prices. */
export interface ColdYear {
  readonly load: string;
  readonly name: string;
  /** Cold asked for less what is not met. */
  readonly delivered_kWh: number;
  readonly byAbsorption_kWh: number;
  readonly byElectricChiller_kWh: number;
  /** Heat that drives its absorption chillers. */
  readonly drivingHeat_kWh: number;
  /** Cold of the absorption chillers per driving heat; null where there is none. */
  readonly meanCop: number | null;
  /** Heat that the absorption chillers reject: cold and driving heat. */
  readonly rejected_kWh: number;
  /** Make-up of wet towers; null where no chiller of the load tells its tower. */
  readonly towerWater_m3: number | null;
  /** Today's electricity for this cold less that of the plan, the chillers' own pumps and fans on both sides. */
  readonly electricityAvoided_kWh: number;
  readonly electricityCostAvoided: number;
  /** Null where the study gives no CO2 factor of electricity. */
  readonly co2Avoided_kg: number | null;
}
