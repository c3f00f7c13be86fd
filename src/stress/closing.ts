import { planeDeformation } from "../curvature/profileBar.js";
import type { InstalledRing } from "../forces/installedRing.js";
import { type CurvedSection, curvedSection, isProfiled } from "../section/curvedSection.js";
import { area, curvedSecondMoment, secondMoment } from "../section/rectangle.js";
import { type WallStations, wallAt } from "../section/wall.js";
import type { RingSpec } from "../spec/ringSpec.js";

/** Stress of the outer and of the inner fibre, MPa, tension positive. */
export interface FibreStress {
  readonly outer: number;
  readonly inner: number;
}

/** Largest circumferential stress in the closed ring, MPa, and where it stands. */
export interface ClosingStress extends FibreStress {
  /** Largest magnitude over both faces and all stations. */
  readonly max: number;
  /** Where, radians from the back. */
  readonly theta: number;
  /** Whether it stands in the net section over a slot; the inner fibre is then the slot's root, its notch not counted. */
  readonly overSlot: boolean;
}

/**
 * Bending stress of the thin ring, σ = ±6·M/(h·a²); the normal force is neglected.
 * At the back of a uniform ring this is 6·Ft·(d1 − a1)/(h·a²).
 *
 * @param moment M, N·mm
 * @param a radial wall thickness, mm
 * @param h axial height, mm
 */
export function thinFibreStress(moment: number, a: number, h: number): FibreStress {
  const outer = (6 * moment) / (h * a * a);
  return { outer, inner: -outer };
}

/**
 * Fibre stress of a thick curved bar, E·ε(y) at y = ±a/2, with the hyperbolic distribution that carries exactly N
 * and M: σ(y) = (S₀ + S₁·y)/(1 + κ₀·y) with S₀ = (N + κ₀·M)/A and S₁ = M/Z₂ + κ₀·S₀, y, M and κ₀ taken over to the
 * section's own centroid.
 *
 * @param moment M about the ring's line, N·mm
 * @param normal N, N
 * @param kappa0 free curvature of the line, 1/mm
 * @param a radial thickness of the section, mm
 * @param h axial height, mm
 * @param offset of its centroid outward of the line, mm
 *
 * Source: Winkler's curved bar (E. Winkler; in S. Timoshenko, Strength of Materials, Part II; from memory).
 */
export function curvedFibreStress(
  moment: number,
  normal: number,
  kappa0: number,
  a: number,
  h: number,
  offset = 0,
): FibreStress {
  const own = moment - normal * offset;
  const curvature = kappa0 / (1 + kappa0 * offset);
  const centroidStress = (normal + curvature * own) / area(a, h);
  const gradient = own / curvedSecondMoment(secondMoment(a, h), a, curvature) + curvature * centroidStress;
  const at = (y: number) => (centroidStress + gradient * y) / (1 + curvature * y);
  return { outer: at(a / 2), inner: at(-a / 2) };
}

/**
 * Fibre stress of a curved bar of any section, held from twisting: E·ε(y) at its outermost and innermost fibres.
 *
 * @param E Young's modulus, MPa
 * @param section of the bar
 * @param moment M about the ring's line, N·mm
 * @param normal N, N
 * @param kappa0 free curvature of the line, 1/mm
 */
export function profileFibreStress(
  E: number,
  section: CurvedSection,
  moment: number,
  normal: number,
  kappa0: number,
): FibreStress {
  const { strain, turn } = planeDeformation(E, section, moment, normal, kappa0);
  const at = (y: number) => (E * (strain + turn * y)) / (1 + kappa0 * y);
  return { outer: at(section.outer), inner: at(section.inner) };
}

/**
 * Largest fibre stress. Along a ring of one section it stands where the moment is largest: more moment means more
 * stress, and what it takes off the free curvature changes that only in proportion to the bending strain. Where the
 * wall varies every station is looked at, over slots with the net section.
 *
 * @param spec section and theory
 * @param installed internal forces, end to end
 * @param curvature free curvature, end to end, 1/mm
 * @param wall along the ring, if it varies
 */
export function closingStress(
  { theory, section, material }: Pick<RingSpec, "theory" | "section" | "material">,
  { moment, normal, theta }: InstalledRing,
  curvature: readonly number[],
  wall?: WallStations,
): ClosingStress {
  const { radialThickness, axialHeight: h } = section;
  const profiled = isProfiled(section) ? curvedSection(radialThickness, h, section) : undefined;
  const fibres = (i: number, a: number): FibreStress => {
    if (profiled && theory === "thin") {
      const { inPlane, centroid } = profiled.properties;
      const at = (y: number) => (moment[i] * (y - centroid.y)) / inPlane;
      return { outer: at(profiled.outer), inner: at(profiled.inner) };
    }
    if (profiled) {
      return profileFibreStress(material.youngsModulus, profiled, moment[i], normal[i], curvature[i]);
    }
    if (theory === "thin") return thinFibreStress(moment[i], a, h);
    return curvedFibreStress(moment[i], normal[i], curvature[i], a, h, (radialThickness - a) / 2);
  };
  const stressAt = (i: number): ClosingStress => {
    const { thickness, slotted } = wallAt(radialThickness, wall, i);
    const { outer, inner } = fibres(i, slotted?.net ?? thickness);
    const max = Math.max(Math.abs(outer), Math.abs(inner));
    return { max, theta: theta[i], outer, inner, overSlot: slotted !== undefined };
  };
  const back = (moment.length - 1) / 2;
  if (!wall) {
    let at = back;
    // From the right, so that of two equal moments the right one is named.
    for (let i = moment.length - 1; i >= 0; i--) if (Math.abs(moment[i]) > Math.abs(moment[at])) at = i;
    return stressAt(at);
  }
  return theta.map((_, i) => stressAt(i)).reduce((most, one) => (one.max > most.max ? one : most));
}
