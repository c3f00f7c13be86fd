import { SpecError } from "../spec/error.js";
import { cutFace, ringContour } from "./contour.js";
import { type CurveFit, fitContour, type PieceFitter } from "./fitContour.js";
import { type AddedMetal, type FreeBody, NO_METAL, ringFaces } from "./ringFaces.js";

/** How a ring's curves are fitted. */
export interface FitOptions {
  /** Largest distance from the exact curve, mm: 0.00001 to 1/100 of the bore. Default 0.001. */
  tolerance?: number;
  /** Metal on the finished faces. Default none. */
  added?: AddedMetal;
}

/** Files give coordinates to a millionth of a millimetre; a tolerance must leave room for that. */
export const FINEST = 1e-5;
export const DEFAULT_TOLERANCE = 0.001;

/** Which of a ring's curves, as a contour. */
export type RingCurve = "outline" | "line";

/** One of a ring's curves by a way of fitting. */
export function fitRing<Piece>(
  ring: FreeBody,
  curve: RingCurve,
  fitter: PieceFitter<Piece>,
  options: FitOptions,
): CurveFit<Piece> {
  const tolerance = toleranceFor(ring, options);
  const { added = NO_METAL } = options;
  if (curve === "outline") return fitContour(ringContour(ring, added), fitter, true, tolerance);
  const line = cutFace(ring, ringFaces(ring).line, added.ends);
  return fitContour([{ curve: line }], fitter, false, tolerance);
}

/** @throws SpecError when the tolerance is outside its range */
export function toleranceFor({ spec }: FreeBody, { tolerance = DEFAULT_TOLERANCE }: FitOptions): number {
  const most = spec.bore / 100;
  if (typeof tolerance === "number" && tolerance >= FINEST && tolerance <= most) return tolerance;
  throw new SpecError(
    "tolerance",
    tolerance,
    `must be from ${FINEST} to ${most} mm, a hundredth of the bore`,
  );
}
