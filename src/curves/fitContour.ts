import type { Contour, Straight } from "./contour.js";
import { fitPieces, type StretchFitter } from "./fitPieces.js";
import { integrateAlong } from "./measures.js";

/** A contour in pieces that machines read. mm. */
export interface CurveFit<Piece> {
  /** In order, each from the end of the one before. */
  readonly pieces: readonly Piece[];
  /** Whether the last piece ends where the first begins. */
  readonly closed: boolean;
  /** As asked for. */
  readonly tolerance: number;
  /** Largest distance between fit and exact curve, as measured; never above the tolerance. */
  readonly deviation: number;
  /** Chords that a plain polyline would need for the same tolerance. */
  readonly chords: number;
}

/** A way of fitting: stretches of curves, and what a straight piece becomes. */
export interface PieceFitter<Piece> extends StretchFitter<Piece> {
  straight(piece: Straight): Piece;
}

/** Share of the tolerance that a measured deviation may take: between the points of measurement it is a little larger. */
const SHARE = 0.98;
/** Coordinates in files are rounded to a millionth of a millimetre; that comes on top. */
const ROUNDING = 1e-6;

/** Radians at a time that are enough for counting. */
const COARSE = 0.25;

/** Any contour by a way of fitting. */
export function fitContour<Piece>(
  contour: Contour,
  fitter: PieceFitter<Piece>,
  closed: boolean,
  tolerance: number,
): CurveFit<Piece> {
  const pieces: Piece[] = [];
  let [deviation, chords] = [0, 0];
  for (const piece of contour) {
    if ("straight" in piece) {
      pieces.push(fitter.straight(piece.straight));
      chords++;
      continue;
    }
    const fit = fitPieces(piece.curve, fitter, SHARE * tolerance - ROUNDING);
    pieces.push(...fit.pieces);
    deviation = Math.max(deviation, fit.deviation);
    // A chord of length c is c²·κ/8 off.
    chords += Math.ceil(
      integrateAlong(
        piece.curve,
        ({ curvature, speed }) => speed * Math.sqrt(Math.abs(curvature) / (8 * tolerance)),
        COARSE,
      ),
    );
  }
  return { pieces, closed, tolerance, deviation, chords };
}
