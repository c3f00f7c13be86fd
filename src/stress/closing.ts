import type { InstalledRing } from "../forces/installedRing.js";
import { area, curvedSecondMoment, secondMoment } from "../section/rectangle.js";
import type { RingSpec } from "../spec/readSpec.js";

/** Circumferential stress in the closed ring, MPa, tension positive. */
export interface ClosingStress {
  /** Largest magnitude over both faces and all stations. */
  readonly max: number;
  /** Where, radians from the back. */
  readonly theta: number;
  /** Stress of the outer and of the inner fibre there. */
  readonly outer: number;
  readonly inner: number;
}

/**
 * Bending stress of the thin ring, σ = ±6·M/(h·a²); the normal force is neglected.
 * At the back of a uniform ring this is 6·Ft·(d1 − a1)/(h·a²).
 *
 * @param moment M, N·mm
 * @param a radial wall thickness, mm
 * @param h axial height, mm
 */
export function thinFibreStress(moment: number, a: number, h: number): { outer: number; inner: number } {
  const outer = (6 * moment) / (h * a * a);
  return { outer, inner: -outer };
}

/**
 * Fibre stress of a thick curved bar, E·ε(y) at y = ±a/2, with the hyperbolic distribution that carries exactly N
 * and M: σ(y) = (S₀ + S₁·y)/(1 + κ₀·y) with S₀ = (N + κ₀·M)/A and S₁ = M/Z₂ + κ₀·S₀.
 *
 * @param moment M, N·mm
 * @param normal N, N
 * @param kappa0 free curvature, 1/mm
 * @param a radial wall thickness, mm
 * @param sectionArea A, mm²
 * @param Z2 ∫y²/(1 + κ₀·y) dA, mm⁴
 *
 * Source: Winkler's curved bar (E. Winkler; in S. Timoshenko, Strength of Materials, Part II; from memory).
 */
export function curvedFibreStress(
  moment: number,
  normal: number,
  kappa0: number,
  a: number,
  sectionArea: number,
  Z2: number,
): { outer: number; inner: number } {
  const centroidStress = (normal + kappa0 * moment) / sectionArea;
  const gradient = moment / Z2 + kappa0 * centroidStress;
  const at = (y: number) => (centroidStress + gradient * y) / (1 + kappa0 * y);
  return { outer: at(a / 2), inner: at(-a / 2) };
}

/**
 * Largest fibre stress. Along a ring of one section it stands where the moment is largest: more moment means more
 * stress, and what it takes off the free curvature changes that only in proportion to the bending strain.
 *
 * @param spec section and theory
 * @param installed internal forces, end to end
 * @param curvature free curvature, end to end, 1/mm
 */
export function closingStress(
  { theory, section }: RingSpec,
  installed: InstalledRing,
  curvature: readonly number[],
): ClosingStress {
  const { radialThickness: a, axialHeight: h } = section;
  const { moment, normal, theta } = installed;
  let at = (moment.length - 1) / 2;
  for (let i = at; i < moment.length; i++) if (Math.abs(moment[i]) > Math.abs(moment[at])) at = i;
  const Z2 = curvedSecondMoment(secondMoment(a, h), a, curvature[at]);
  const { outer, inner } =
    theory === "thin"
      ? thinFibreStress(moment[at], a, h)
      : curvedFibreStress(moment[at], normal[at], curvature[at], a, area(a, h), Z2);
  return { max: Math.max(Math.abs(outer), Math.abs(inner)), theta: theta[at], outer, inner };
}
