import type { ProfileFeatures } from "../spec/ringSpec.js";
import { edgesOf, type Profile, profileOf, turnsOf } from "./profile.js";
import { radialMoments, type SectionProperties, sectionProperties } from "./sectionProperties.js";

/** Terms of the series; enough for |κ·a/2| up to 0.6. */
const TERMS = 70;

/** A section as the curved bar needs it. */
export interface CurvedSection {
  readonly properties: SectionProperties;
  /** Its outermost and innermost fibres from the ring's line, mm. */
  readonly outer: number;
  readonly inner: number;
  /** Zₖ = ∫yᵏ/(1 + κ·y) dA, k = 0, 1, 2, y outward from the ring's line; mm², mm³, mm⁴. */
  integrals(kappa: number): readonly [Z0: number, Z1: number, Z2: number];
}

/** Whether a section is other than a plain rectangle. */
export function isProfiled({ face, undercut, inner, sides, outline }: ProfileFeatures): boolean {
  return [face, undercut, inner, sides, outline].some((feature) => feature !== undefined);
}

/**
 * The curved-bar integrals of any section, by their series Zₖ = Σ (−κ)ʲ·∫yᵏ⁺ʲ dA, whose terms are exact boundary integrals and
 * which loses no digits where κ·a is small.
 *
 * @param a radial thickness, mm
 * @param h axial height, mm
 */
export function curvedSection(a: number, h: number, features: ProfileFeatures): CurvedSection {
  const profile = profileOf(a, h, features);
  const properties = sectionProperties(profile);
  const { outer, inner } = radialReach(profile);
  const half = Math.max(outer, -inner);
  // In units of the reach, so that no power over- or underflows.
  const unit = profile.map((corner) => ({ ...corner, x: corner.x / half, y: corner.y / half }));
  const moments = radialMoments(unit, TERMS + 2);
  return {
    properties,
    outer,
    inner,
    integrals(kappa) {
      const x = -kappa * half;
      let [Z0, Z1, Z2] = [0, 0, 0];
      let power = 1;
      for (let j = 0; j < TERMS && Math.abs(power) > 1e-18; j++) {
        Z0 += power * moments[j];
        Z1 += power * moments[j + 1];
        Z2 += power * moments[j + 2];
        power *= x;
      }
      return [half ** 2 * Z0, half ** 3 * Z1, half ** 4 * Z2];
    },
  };
}

/** Highest and lowest y, the bulges of arcs included. */
function radialReach(profile: Profile): { outer: number; inner: number } {
  const heights = edgesOf(profile).flatMap((edge) => [
    edge.from.y,
    ...turnsOf(edge, "y")
      .slice(1, -1)
      .map((share) => edge.at(share).y),
  ]);
  return { outer: Math.max(...heights), inner: Math.min(...heights) };
}
