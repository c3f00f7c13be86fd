import type { CutRing } from "../ends/cutRing.js";
import { heightAt } from "../section/columns.js";
import { isProfiled } from "../section/curvedSection.js";
import { type Profile, profileOf } from "../section/profile.js";
import { type SectionProperties, sectionProperties } from "../section/sectionProperties.js";
import { SpecError } from "../spec/error.js";

/** How an unsymmetric section twists when the ring is closed and nothing holds it flat. */
export interface Twist {
  /**
   * By the trade's convention: positive where the lower outer edge comes to lie on the bore, as with a bevel at the upper inner edge. An estimate, for the
   * mean moment; radians.
   */
  readonly angle: number;
  /** Distance by which upper and lower edge of the running face then differ in radius, mm. */
  readonly acrossFace: number;
  /** Share by which the ring is softer in its plane while it is free to twist. */
  readonly softening: number;
}

/** The running face after some wear. */
export interface WornFace {
  /** Radial wear of the contact edge, mm. */
  readonly wear: number;
  /** Height of the land that then lies on the bore, mm. */
  readonly land: number;
  /** Pressure on the land for the ring's contact pressure p₀, MPa. */
  readonly pressure: number;
}

/** What the section of a ring is like. */
export interface SectionDescription {
  /** Corners of the section: x along the axis from the bottom side, y outward from the middle of the nominal thickness. */
  readonly profile: Profile;
  /** Of the section as drawn, unworn. */
  readonly properties: SectionProperties;
  /** Of the closed ring; nil where the section is symmetric. */
  readonly twist: Twist;
  /** One for each wear asked for, in that order. */
  readonly face: readonly WornFace[];
}

/** Wear looked at if none is given, mm. */
const WEAR = [0.001, 0.002, 0.005, 0.01, 0.02];

/**
 * The ring's section: area, centroid, second moments and principal axes; the twist of an unsymmetric one; land and face pressure of a worn-in
 * taper or barrel.
 *
 * Twist: the section turns until its hoop stresses have no moment about the radial axis, φ = r·M·Jxy/(E·(Jx·Jy − Jxy²)), J about the centroid, with the mean
 * moment M = Ft·r of a uniform ring. Along a ring the twist would follow M and torsion would even it out, so its size is an estimate; its sense is
 * certain. Source: worked, from unsymmetric bending.
 *
 * Method: docs/theory/09-sections-and-engine.md.
 *
 * @param ring a designed ring
 * @param wear radial wear of the running face, each above 0 and less than the wall, mm; default 0.001 to 0.02
 * @throws SpecError when a wear is out of range
 *
 * @example
 * describeSection(design).properties.area; // 8.8, mm²
 */
export function describeSection(
  {
    spec,
    load,
    installed,
  }: CutRing & {
    /** How strong it is, besides. */
    readonly load: {
      /** p₀, MPa. */
      readonly contactPressure: number;
    };
  },
  wear: readonly number[] = WEAR,
): SectionDescription {
  const { section, material } = spec;
  const { radialThickness: a, axialHeight: h } = section;
  const profile = profileOf(a, h, section);
  const properties = sectionProperties(profile);
  for (const [k, value] of wear.entries()) {
    if (!(value > 0 && value < a)) {
      throw new SpecError(`wear.${k}`, value, `must be above 0 and less than the wall, ${a} mm`);
    }
  }
  const { inPlane, lateral, product } = properties;
  const r = installed.centroidRadius;
  // Rounding of a symmetric section is no twist.
  const skew = isProfiled(section) && Math.abs(product) > 1e-12 * Math.hypot(inPlane, lateral) ? product : 0;
  const angle =
    (r * r * load.tangentialForce * skew) / (material.youngsModulus * (inPlane * lateral - skew * skew));
  return {
    profile,
    properties,
    twist: { angle, acrossFace: angle * h, softening: (skew * skew) / (inPlane * lateral) },
    face: wear.map((value) => {
      const land = heightAt(profile, a / 2 - value);
      return { wear: value, land, pressure: (load.contactPressure * h) / land };
    }),
  };
}
