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
