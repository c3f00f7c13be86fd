import { lawAt } from "../curvature/lawsAlong.js";
import type { CutRing } from "../ends/cutRing.js";
import { wallAt } from "../section/wall.js";

/** How far a ring follows a bore whose radius has a harmonic of one order. */
export interface ConformabilityLimit {
  readonly order: number;
  /** Largest amplitude of the radius, mm, that the ring follows everywhere, by its smallest local stiffness parameter. */
  readonly fullContact: number;
  /** The same under a uniform pressure with the ring's K. */
  readonly uniform: number;
  /** A looser, semi-empirical limit, mm. */
  readonly semiEmpirical: number;
}

export interface Conformability {
  /** Smallest local stiffness parameter p·h·R·r²/(E·I), which decides. */
  readonly smallestLocal: number;
  /** Where it stands, radians from the back. */
  readonly theta: number;
  readonly limits: ConformabilityLimit[];
}

/**
 * Largest amplitude that an inextensible ring under uniform pressure follows with full contact, K·r/(i² − 1)², mm.
 *
 * @param K stiffness parameter
 * @param r centroid radius, mm
 * @param order i, from 2
 *
 * Source: R. Müller, MTZ 31 (1970) (citation from memory; the formula worked again: a bore of radius R + U·cos iθ
 * changes the pressure by the share (i² − 1)²·U/(K·r), which must not pass 1).
 */
export function fullContactAmplitude(K: number, r: number, order: number): number {
  return (K * r) / (order * order - 1) ** 2;
}

/**
 * Semi-empirical limit K·r/[20·(i² − 1)], mm, of the deformation that rings were seen to follow well enough.
 *
 * Source: E. Tomanik, SAE paper 960356 (from memory).
 */
export function semiEmpiricalAmplitude(K: number, r: number, order: number): number {
  return (K * r) / (20 * (order * order - 1));
}

/**
 * How far a ring follows an out-of-round bore, away from its gap, harmonic by harmonic.
 *
 * For any pressure and any stiffness the smallest local value of p·h·R·r²/(E·I) takes the place of K: exact where both
 * vary little over a wave of the bore, and on the safe side of a wave that meets the weak place elsewhere.
 *
 * @param ring a designed ring
 * @param orders of the bore's harmonics, from 2; default 2 … 12
 */
export function conformability(
  ring: CutRing & { readonly stiffnessParameter: number },
  orders: readonly number[] = [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
): Conformability {
  const { installed, spec, wall } = ring;
  const { outerRadius: R, centroidRadius: r, pressure, theta } = installed;
  const { radialThickness, axialHeight: h } = spec.section;
  let [smallest, at] = [Number.POSITIVE_INFINITY, 0];
  for (let i = 0; i < theta.length; i++) {
    const { flexibility } = lawAt(spec, r, wallAt(radialThickness, wall, i));
    const local = pressure[i] * h * R * r * r * flexibility;
    if (local < smallest) [smallest, at] = [local, i];
  }
  return {
    smallestLocal: smallest,
    theta: theta[at],
    limits: orders.map((order) => ({
      order,
      fullContact: fullContactAmplitude(smallest, r, order),
      uniform: fullContactAmplitude(ring.stiffnessParameter, r, order),
      semiEmpirical: semiEmpiricalAmplitude(ring.stiffnessParameter, r, order),
    })),
  };
}
