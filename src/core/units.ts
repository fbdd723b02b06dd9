/** Factors between the units at the edge and the units of the core. Conversions happen once, on the way in. */
export const radians = Math.PI / 180;
export const kelvinAtZero_C = 273.15;
export const kJ_per_kWh = 3600;
export const MJ_per_kWh = 3.6;
/** Stefan–Boltzmann constant, CODATA 2018. */
export const stefanBoltzmann_W_m2K4 = 5.670374419e-8;
