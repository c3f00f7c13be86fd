/**
 * Bending a straight, elastic–perfectly plastic wire of rectangular section over a tool: what the wire springs back to, and which tool gives
 * a wanted radius. Curvatures are of the mid wall, 1/mm.
 *
 * With κe = 2Y/(E·a), at which the outer fibre begins to yield, a wire bent to κt > κe springs back to
 * κf = κt − 3κe/2 + κe³/(2κt²).
 *
 * Source: F. J. Gardiner, "The spring back of metals", Transactions of the ASME 79 (1957) 1–9, there as
 * Ri/Rf = 4(Ri·Y/(E·T))³ − 3Ri·Y/(E·T) + 1 (from memory; compared with the integral of the stresses).
 */

/** What the wire is made of. */
export interface SpringbackWire {
  /** Y, MPa. */
  readonly yieldStress: number;
  /** E, MPa. */
  readonly youngsModulus: number;
  /** a, mm: the wire's thickness in the plane of bending. */
  readonly thickness: number;
}

/**
 * Thickness of the rectangular wire that bends as a section of another shape, √(12·I/A), mm: of a rectangle its own.
 *
 * @param properties second moment in the plane of bending, mm⁴; area, mm²
 */
export const bendingThickness = ({ inPlane, area }: { inPlane: number; area: number }) =>
  Math.sqrt((12 * inPlane) / area);

/**
 * κe = 2Y/(E·a), the curvature at which the outer fibre of a straight wire begins to yield, 1/mm.
 *
 * Source: elementary bending.
 *
 * @param wire yield stress and Young's modulus, MPa; thickness in the plane of bending, mm
 *
 * @example
 * 1 / yieldCurvature({ yieldStress: 1400, youngsModulus: 205000, thickness: 4.4 }); // 322.1, mm
 */
export function yieldCurvature({ yieldStress, youngsModulus, thickness }: SpringbackWire): number {
  return (2 * yieldStress) / (youngsModulus * thickness);
}

/**
 * Curvature that a straight wire keeps after it was bent to `tool`, κf = κt − 3κe/2 + κe³/(2κt²); none where it did not yield.
 *
 * Source: F. J. Gardiner, "The spring back of metals", Transactions of the ASME 79 (1957) 1–9, for an elastic–perfectly plastic wire of rectangular
 * section (from memory; compared with the integral of the stresses).
 *
 * @param tool κt, curvature on the tool at mid wall, 1/mm, of either sign
 * @param yielding κe of {@link yieldCurvature}, 1/mm, above 0
 * @returns κf, 1/mm, of the sign of `tool`
 *
 * @example
 * 1 / curvatureAfter(1 / 40, 1 / 322); // 49.1, mm
 */
export function curvatureAfter(tool: number, yielding: number): number {
  if (Math.abs(tool) <= yielding) return 0;
  const share = yielding / Math.abs(tool);
  return Math.sign(tool) * (Math.abs(tool) - 1.5 * yielding + 0.5 * yielding * share * share);
}

/**
 * Curvature to bend a straight wire to, so that it keeps `wanted`: the exact inverse of {@link curvatureAfter}. With q = κe/κt the law
 * is q³ − (2κf/κe + 3)·q + 2 = 0, whose root between 0 and 1 is q = 2√(p/3)·sin(asin((3/p)^1.5)/3), p = 2κf/κe + 3. Source: worked.
 *
 * @param wanted κf, curvature to be kept at mid wall, 1/mm, of either sign
 * @param yielding κe of {@link yieldCurvature}, 1/mm, above 0
 * @returns κt, 1/mm, of the sign of `wanted`
 *
 * @example
 * 1 / curvatureBefore(1 / 58, 1 / 322); // 45.73, mm
 */
export function curvatureBefore(wanted: number, yielding: number): number {
  if (wanted === 0) return 0;
  const p = (2 * Math.abs(wanted)) / yielding + 3;
  const q = 2 * Math.sqrt(p / 3) * Math.sin(Math.asin((3 / p) ** 1.5) / 3);
  return (Math.sign(wanted) * yielding) / q;
}
