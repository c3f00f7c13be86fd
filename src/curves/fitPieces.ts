import type { Curve } from "./curve.js";
import { runsOf } from "./measures.js";

/** A fit of one stretch of a curve: its pieces, and how far they are off it. */
export interface StretchFit<Piece> {
  readonly pieces: readonly Piece[];
  /** Largest distance between fit and curve, measured, mm. */
  readonly deviation: number;
}

/** How one stretch is fitted. */
export interface StretchFitter<Piece> {
  fit(curve: Curve, from: number, to: number): StretchFit<Piece>;
  /** Power of a stretch's length with which its deviation grows. */
  readonly order: number;
}

/** A stretch turns by about a radian at most, or fits of half circles would have to be thought of. */
const LONGEST = 1;
/** Runs shorter than this are rounding, radians. */
const SHORTEST = 1e-9;
/** Share of the tolerance that is aimed at. */
const AIM = 0.93;
/** No part of a run is left with a smaller share of the mean density of stretches. */
const SPARSEST = 0.2;
/** More rounds than this are not needed: the number of stretches grows in each. */
const MOST_ROUNDS = 60;

/**
 * Fits a curve by few stretches: as many as the tolerance needs, spread so that all deviate alike. How many and where follows from the
 * deviations of a first, even division; the work is in proportion to their number.
 *
 * @param curve to be fitted between its `from` and `to`
 * @param fitter of one stretch
 * @param tolerance largest distance allowed, mm
 * @throws Error when no number of stretches comes within the tolerance
 */
export function fitPieces<Piece>(
  curve: Curve,
  fitter: StretchFitter<Piece>,
  tolerance: number,
): StretchFit<Piece> {
  const fits = runsOf(curve)
    .filter(([from, to]) => to - from > SHORTEST)
    .flatMap(([from, to]) => fitRun(curve, from, to, fitter, tolerance));
  return {
    pieces: fits.flatMap((fit) => fit.pieces),
    deviation: fits.reduce((worst, fit) => Math.max(worst, fit.deviation), 0),
  };
}

function fitRun<Piece>(
  curve: Curve,
  from: number,
  to: number,
  fitter: StretchFitter<Piece>,
  tolerance: number,
): StretchFit<Piece>[] {
  const first = Math.ceil((to - from) / LONGEST);
  let bounds = Array.from({ length: first + 1 }, (_, k) => from + ((to - from) * k) / first);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const stretches = bounds.slice(1).map((end, k) => fitter.fit(curve, bounds[k], end));
    if (stretches.every(({ deviation }) => deviation <= tolerance)) return stretches;
    // In units of the stretches that a stretch would need.
    const needs = stretches.map(({ deviation }) => (deviation / (AIM * tolerance)) ** (1 / fitter.order));
    const mean = needs.reduce((sum, need) => sum + need, 0) / (to - from);
    const floored = needs.map((need, k) => Math.max(need, SPARSEST * mean * (bounds[k + 1] - bounds[k])));
    const total = floored.reduce((sum, need) => sum + need, 0);
    bounds = spread(bounds, floored, Math.max(Math.ceil(total), round > 0 ? stretches.length + 1 : first));
  }
  throw new Error(`no fit within ${tolerance} mm found`);
}

/** `count` stretches between the same ends, each with an equal part of what the given ones need. */
function spread(bounds: readonly number[], needs: readonly number[], count: number): number[] {
  const total = needs.reduce((sum, need) => sum + need, 0);
  const next = [bounds[0]];
  let k = 0;
  let before = 0;
  for (let i = 1; i < count; i++) {
    const wanted = (total * i) / count;
    while (k < needs.length - 1 && before + needs[k] < wanted) before += needs[k++];
    next.push(bounds[k] + ((bounds[k + 1] - bounds[k]) * (wanted - before)) / needs[k]);
  }
  return [...next, bounds[bounds.length - 1]];
}
