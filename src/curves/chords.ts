import type { Point } from "../numeric/point.js";
import { type Contour, ringContour } from "./contour.js";
import type { Curve } from "./curve.js";
import type { FitOptions } from "./fitRing.js";
import { toleranceFor } from "./fitRing.js";
import { runsOf } from "./measures.js";
import { type FreeBody, NO_METAL } from "./ringFaces.js";

/** Points of the faces as cut: the outer one from left to right, the inner one back from right to left, with its slots. mm. */
export interface OutlinePoints {
  /** Outer face, from its left corner over the back to its right one. */
  readonly outer: Point[];
  /** Inner face back, from its right corner to its left one, slots included. */
  readonly inner: Point[];
}

/**
 * Points of the free ring's outline on the exact curves, so close that chords between them stay within a tolerance. Outer and inner points
 * one after the other are the closed outline, counter-clockwise; the first point is not repeated.
 *
 * @param ring a design
 * @param options tolerance in mm, 0.00001 to 1/100 of the bore, default 0.001; metal on the faces
 * @throws SpecError when the tolerance is outside its range
 *
 * @example
 * const { outer, inner } = outlinePoints(design, { tolerance: 0.01 });
 * outer.length + inner.length; // 337
 */
export function outlinePoints(ring: FreeBody, options: FitOptions = {}): OutlinePoints {
  const tolerance = toleranceFor(ring, options);
  const contour = ringContour(ring, options.added ?? NO_METAL);
  // Between the faces stand the ends.
  return {
    outer: pointsOf(contour.slice(0, 1), tolerance),
    inner: pointsOf(contour.slice(2, -1), tolerance),
  };
}

function pointsOf(contour: Contour, tolerance: number): Point[] {
  const points = contour.flatMap((piece) =>
    "straight" in piece ? [piece.straight.start, piece.straight.end] : chordPoints(piece.curve, tolerance),
  );
  // Pieces share their ends.
  return points.filter(
    ([x, y], i) => i === 0 || Math.hypot(x - points[i - 1][0], y - points[i - 1][1]) > 1e-9,
  );
}

/** Places on a stretch of a curve at which its curvature is looked at. */
const LOOKED_AT = 33;

function chordPoints(curve: Curve, tolerance: number): Point[] {
  return runsOf(curve).flatMap(([from, to]) => {
    const at = (share: number) => curve.at(from + share * (to - from));
    // A chord of length c is c²·κ/8 off; the most curved place counts.
    const densities = Array.from({ length: LOOKED_AT }, (_, k) => {
      const { curvature, speed } = at(k / (LOOKED_AT - 1));
      return speed * Math.sqrt(Math.abs(curvature) / (8 * tolerance));
    });
    const count = Math.max(1, Math.ceil((to - from) * Math.max(...densities)));
    return Array.from({ length: count + 1 }, (_, k): Point => {
      const { x, y } = at(k / count);
      return [x, y];
    });
  });
}
