import { radians } from "../units.ts";

/** Relative optical air mass, 1 at the zenith, 38 at the horizon; Kasten & Young, Applied Optics 28 (1989) 4735. */
export function airMass(zenith_deg: number): number {
  return 1 / (Math.cos(zenith_deg * radians) + 0.50572 * (96.07995 - zenith_deg) ** -1.6364);
}

/**
 * Diffuse share of the global irradiance of an hour from its clearness index; Erbs, Klein & Duffie, Solar
 * Energy 28 (1982) 293, D&B eq. 2.10.1. Fitted to US stations, standard error of an hour about 0.12.
 */
export function erbsDiffuseShare(clearness: number): number {
  const k = clearness;
  if (k <= 0.22) return 1 - 0.09 * k;
  if (k > 0.8) return 0.165;
  return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}

/** Irradiance on a plane, W/m². */
export interface PlaneIrradiance {
  readonly beam_W_m2: number;
  readonly sky_W_m2: number;
  readonly ground_W_m2: number;
}

/** Light of an hour, W/m². */
export interface Irradiance {
  readonly ghi_W_m2: number;
  readonly dni_W_m2: number;
  readonly dhi_W_m2: number;
}

/**
 * Beam, sky and ground-reflected light on a plane under an evenly bright sky: Liu & Jordan 1963, D&B eq.
 * 2.15.1. It gives less than a bright region round the sun would on a plane that faces it.
 *
 * @param cosIncidence not below 0
 * @param albedo reflectance of the ground, 0 to 1
 */
export function isotropicPlane(
  light: Irradiance,
  cosIncidence: number,
  tilt_deg: number,
  albedo: number,
): PlaneIrradiance {
  return {
    beam_W_m2: light.dni_W_m2 * Math.max(0, cosIncidence),
    sky_W_m2: light.dhi_W_m2 * skyView(tilt_deg),
    ground_W_m2: light.ghi_W_m2 * albedo * (1 - skyView(tilt_deg)),
  };
}

/** Share of the sky that a plane sees, (1 + cos β) / 2. */
export function skyView(tilt_deg: number): number {
  return (1 + Math.cos(tilt_deg * radians)) / 2;
}

/**
 * Hourly over daily global irradiation r_t, by the hour's middle; Collares-Pereira & Rabl, Solar Energy 22
 * (1979) 155, D&B eq. 2.13.1–2.13.2 (the minus in b; some copies print plus). Whole hours add up to
 * 0.991–1.002: normalise.
 */
export function hourlyGlobalShare(hourAngle_deg: number, sunset_deg: number): number {
  return profileFactor(hourAngle_deg, sunset_deg) * hourlyExtraterrestrialShare(hourAngle_deg, sunset_deg);
}

/** r_t / r_d = a + b·cos ω: the hour's clearness over the day's. */
export function profileFactor(hourAngle_deg: number, sunset_deg: number): number {
  const past60 = (sunset_deg - 60) * radians;
  const a = 0.409 + 0.5016 * Math.sin(past60);
  const b = 0.6609 - 0.4767 * Math.sin(past60);
  return a + b * Math.cos(hourAngle_deg * radians);
}

/** r_d, hourly over daily irradiation above the air; D&B eq. 2.13.4. */
export function hourlyExtraterrestrialShare(hourAngle_deg: number, sunset_deg: number): number {
  const sunset = sunset_deg * radians;
  const over = Math.cos(hourAngle_deg * radians) - Math.cos(sunset);
  return ((Math.PI / 24) * over) / (Math.sin(sunset) - sunset * Math.cos(sunset));
}

/**
 * Normal beam through clean dry air, W/m²: ESRA clear sky, Rigollier, Bauer & Wald, Solar Energy 68 (2000)
 * 33, with the Rayleigh thickness of Kasten 1996. With a Linke turbidity of 2 (very clear and cold) it is
 * an upper bound of what reaches the ground.
 *
 * @param pressure_Pa station pressure
 */
export function clearBeam_W_m2(
  normal_W_m2: number,
  zenith_deg: number,
  pressure_Pa: number,
  linkeTurbidity: number,
): number {
  const mass = airMass(zenith_deg) * (pressure_Pa / 101325);
  return normal_W_m2 * Math.exp(-0.8662 * linkeTurbidity * mass * rayleighThickness(mass));
}

/** Rayleigh optical thickness of a unit of air mass; Kasten, Solar Energy 56 (1996) 239. */
export function rayleighThickness(mass: number): number {
  if (mass > 20) return 1 / (10.4 + 0.718 * mass);
  return 1 / (6.6296 + mass * (1.7513 + mass * (-0.1202 + mass * (0.0065 - mass * 0.00013))));
}
