import type { IncidenceModifier, Optics } from "../study/schema/collector.ts";
import { radians } from "../units.ts";
import { filmModifier } from "./film-transmittance.ts";

/** Angles of one hour, degrees; cosine of the incidence angle beside it. */
export type Modifier = (
  incidence_deg: number,
  cosIncidence: number,
  longitudinal_deg: number,
  transversal_deg: number,
) => number;

/**
 * The incidence angle modifier K as a function of the beam's angles, the cosine left out: K multiplies
 * DNI·cos θ. K(0) = 1. From 90° on, and where a relation turns negative, it is 0; above 1 it is kept
 * (evacuated tubes gather more from the side).
 *
 * - b0: 1 − b0·(1/cos θ − 1), ISO 9806 and Duffie & Beckman eq. 6.17.10.
 * - polynomial: 1 + c₁θ + c₂θ² + …, θ in degrees. Where it contains the cosine the published form is
 *   cos θ + c₁θ + c₂θ² + … (Dudley et al., SAND94-1884, 1994), which is divided by cos θ here.
 * - table: longitudinal modifier at θL times transversal modifier at θT (1 without a column), linear between
 *   angles; from 1 at 0° to the first angle and from the last angle to 0 at 90°.
 *
 * Where the optics give the cover film an index, its own factor multiplies all of these (@see filmModifier).
 */
export function incidenceModifier(modifier: IncidenceModifier, optics?: Optics): Modifier {
  const given = givenModifier(modifier);
  const film = optics === undefined ? null : filmModifier(optics);
  if (film === null) return given;
  return (angle, cosine, longitudinal, transversal) =>
    cosine > 0 ? given(angle, cosine, longitudinal, transversal) * film(cosine) : 0;
}

function givenModifier(modifier: IncidenceModifier): Modifier {
  switch (modifier.type) {
    case "none":
      return (_, cosine) => (cosine > 0 ? 1 : 0);
    case "b0": {
      const { b0 } = modifier;
      return (_, cosine) => (cosine > 0 ? Math.max(0, 1 - b0 * (1 / cosine - 1)) : 0);
    }
    case "polynomial": {
      const { coefficients, containsCosine } = modifier;
      return (angle, cosine) => {
        if (!(cosine > 0) || angle >= 90) return 0;
        let series = 0;
        for (let i = coefficients.length - 1; i >= 0; i -= 1) series = (series + coefficients[i]!) * angle;
        return Math.max(0, 1 + (containsCosine ? series / cosine : series));
      };
    }
    case "table": {
      const along = interpolator(modifier.angles_deg, modifier.longitudinal);
      if (modifier.transversal === undefined) {
        return (_, cosine, longitudinal) => (cosine > 0 ? along(longitudinal) : 0);
      }
      const across = interpolator(modifier.angles_deg, modifier.transversal);
      return (_, cosine, longitudinal, transversal) =>
        cosine > 0 ? along(longitudinal) * across(transversal) : 0;
    }
  }
}

/** K at one incidence angle in the plane of the long axis (θL = θ, θT = 0), for tables and charts. */
export function modifierAt(modifier: IncidenceModifier, incidence_deg: number, optics?: Optics): number {
  const cosine = incidence_deg >= 90 ? 0 : Math.cos(incidence_deg * radians);
  return incidenceModifier(modifier, optics)(incidence_deg, cosine, incidence_deg, 0);
}

function interpolator(angles_deg: readonly number[], values: readonly number[]): (angle: number) => number {
  const x = [...angles_deg];
  const y = [...values];
  if (x[0]! > 0) {
    x.unshift(0);
    y.unshift(1);
  }
  if (x.at(-1)! < 90) {
    x.push(90);
    y.push(0);
  }
  return (angle) => {
    if (!(angle < 90)) return 0;
    let i = 1;
    while (x[i]! <= angle) i += 1;
    return y[i - 1]! + ((y[i]! - y[i - 1]!) * (angle - x[i - 1]!)) / (x[i]! - x[i - 1]!);
  };
}
