import { planeDeformation } from "../curvature/profileBar.js";
import { type CurvedSection, curvedSection, isProfiled } from "../section/curvedSection.js";
import { area, curvedSecondMoment, secondMoment } from "../section/rectangle.js";
import { type WallStations, wallAt } from "../section/wall.js";
import type { BodySpec } from "../spec/ringSpec.js";

/** Stress of the outer and of the inner fibre, MPa, tension positive. */
export interface FibreStress {
  /** At the outer face. */
  readonly outer: number;
  /** At the inner face. */
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

/** Stress at a station under M (about the ring's line, N·mm) and N; over slots that of the net section. */
export type StressAt = (
  station: number,
  moment: number,
  normal: number,
  kappa0: number,
) => FibreStress & { readonly overSlot: boolean };

/**
 * Fibre stresses of a ring at its stations, whatever its section.
 *
 * @param body theory, section and material
 * @param wall along the ring, if it varies
 */
export function fibreStresses(
  { theory, section, material }: Pick<BodySpec, "theory" | "section" | "material">,
  wall: WallStations | undefined,
): StressAt {
  const { radialThickness, axialHeight: h } = section;
  if (isProfiled(section)) {
    const profiled = curvedSection(radialThickness, h, section);
    const { inPlane, centroid } = profiled.properties;
    return (_, moment, normal, kappa0) => {
      if (theory === "curved") {
        const stress = profileFibreStress(material.youngsModulus, profiled, moment, normal, kappa0);
        return { ...stress, overSlot: false };
      }
      const at = (y: number) => (moment * (y - centroid.y)) / inPlane;
      return { outer: at(profiled.outer), inner: at(profiled.inner), overSlot: false };
    };
  }
  return (i, moment, normal, kappa0) => {
    const { thickness, slotted } = wallAt(radialThickness, wall, i);
    const a = slotted?.net ?? thickness;
    const stress =
      theory === "thin"
        ? thinFibreStress(moment, a, h)
        : curvedFibreStress(moment, normal, kappa0, a, h, (radialThickness - a) / 2);
    return { ...stress, overSlot: slotted !== undefined };
  };
}
