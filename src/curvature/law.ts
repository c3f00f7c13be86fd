/**
 * The bar's law at a section, read backwards: from the forces in the closed ring to the state it came from.
 */
export interface BarLaw {
  /** 1/(E·I), 1/(N·mm²). */
  readonly flexibility: number;
  /** Shear angle per shear force, 1/N. */
  readonly shearCompliance: number;
  /**
   * Free curvature from the closed state.
   *
   * @param moment M, N·mm, closing positive
   * @param normal N, N, tension positive
   * @param kappa curvature of the sections when closed, 1/mm
   * @param guess starting value for the free curvature, 1/mm
   * @returns free curvature κ₀, 1/mm
   */
  freeCurvature(moment: number, normal: number, kappa: number, guess: number): number;
  /** Turn λκ − κ₀ of the sections per unit free length, 1/mm; in proportion to the forces for a given κ₀. */
  turn(moment: number, normal: number, kappa0: number): number;
  /** Stretch λ of the line on closing, from M, N and the free curvature. */
  stretch(moment: number, normal: number, kappa0: number): number;
}

/**
 * Turn and strain to a unit of moment in a ring near its circle, where N = −M/r; both are in proportion to M for a known κ₀.
 *
 * @param r radius of the closed ring's line, mm
 */
export function ringBend(law: BarLaw, kappa0: number, r: number): { turn: number; strain: number } {
  // A moment that bends the bar about once round keeps the digits of the strain beside λ = 1.
  const one = 1 / (law.flexibility * r);
  return {
    turn: law.turn(one, -one / r, kappa0) / one,
    strain: (law.stretch(one, -one / r, kappa0) - 1) / one,
  };
}

/** Change of the line's curvature to a unit of moment, 1/(N·mm²): the section's, and what the line gains where it runs beside the centroid. */
export function lineFlexibility(law: BarLaw, kappa0: number, r: number): number {
  const { turn, strain } = ringBend(law, kappa0, r);
  return turn - strain / r;
}

/** Free arc length less r to a radian of the closed ring, mm, as far as bending makes it. */
export function shortening(law: BarLaw, kappa0: number, r: number): number {
  const { turn, strain } = ringBend(law, kappa0, r);
  const moment = (1 / r - kappa0) / (turn - strain / r);
  return r / (1 + strain * moment) - r;
}
