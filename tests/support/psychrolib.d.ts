/** The part of psychrolib that the tests use; the package ships no types. */
declare module "psychrolib" {
  interface Psychrometrics {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(temperature_C: number): number;
    GetRelHumFromHumRatio(temperature_C: number, humidityRatio: number, pressure_Pa: number): number;
    GetTDewPointFromHumRatio(temperature_C: number, humidityRatio: number, pressure_Pa: number): number;
    GetHumRatioFromRelHum(temperature_C: number, relativeHumidity: number, pressure_Pa: number): number;
    GetMoistAirEnthalpy(temperature_C: number, humidityRatio: number): number;
    GetMoistAirVolume(temperature_C: number, humidityRatio: number, pressure_Pa: number): number;
    GetTWetBulbFromRelHum(temperature_C: number, relativeHumidity: number, pressure_Pa: number): number;
  }
  const psychrolib: Psychrometrics;
  export default psychrolib;
}
