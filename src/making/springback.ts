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

/** κe, the curvature at which the outer fibre begins to yield. */
export function yieldCurvature({ yieldStress, youngsModulus, thickness }: SpringbackWire): number {
  return (2 * yieldStress) / (youngsModulus * thickness);
}

/** Curvature that a straight wire keeps after it was bent to `tool`; none where it did not yield. */
export function curvatureAfter(tool: number, yielding: number): number {
  if (Math.abs(tool) <= yielding) return 0;
  const share = yielding / Math.abs(tool);
  return Math.sign(tool) * (Math.abs(tool) - 1.5 * yielding + 0.5 * yielding * share * share);
}

/**
 * Curvature to bend a straight wire to, so that it keeps `wanted`: the exact inverse of {@link curvatureAfter}. With q = κe/κt the law
 * is q³ − (2κf/κe + 3)·q + 2 = 0, whose root between 0 and 1 is q = 2√(p/3)·sin(asin((3/p)^1.5)/3), p = 2κf/κe + 3.
 */
export function curvatureBefore(wanted: number, yielding: number): number {
  if (wanted === 0) return 0;
  const p = (2 * Math.abs(wanted)) / yielding + 3;
  const q = 2 * Math.sqrt(p / 3) * Math.sin(Math.asin((3 / p) ** 1.5) / 3);
  return (Math.sign(wanted) * yielding) / q;
}
