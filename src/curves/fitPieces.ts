import { NotFound } from "../numeric/notFound.js";
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
/** Rounds in which stretches are spread, and in all. */
const SPREADING_ROUNDS = 8;
const MOST_ROUNDS = 60;
/** How far inside a run the curvature of its ends is taken, as a share of it. */
const INSIDE = 1e-9;

/**
 * Fits a curve by few stretches: as many as the tolerance needs, spread so that all deviate alike. How many and where follows from the
 * deviations of a first, even division; the work is in proportion to their number.
 *
 * @param curve to be fitted between its `from` and `to`
 * @param fitter of one stretch
 * @param tolerance largest distance allowed, mm
 * @throws NotFound when no number of stretches comes within the tolerance
 */
export function fitPieces<Piece>(
  curve: Curve,
  fitter: StretchFitter<Piece>,
  tolerance: number,
): StretchFit<Piece> {
  const fits = runsOf(curve)
    .filter(([from, to]) => to - from > SHORTEST)
    .flatMap(([from, to]) => fitRun(seenFromInside(curve, from, to), from, to, fitter, tolerance));
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
  const fitted = (bounds: readonly number[]) =>
    bounds.slice(1).map((end, k) => fitter.fit(curve, bounds[k], end));
  const within = (fits: readonly StretchFit<Piece>[]) =>
    fits.every(({ deviation }) => deviation <= tolerance);
  /** Stretches that each stretch would need. */
  const needsOf = (fits: readonly StretchFit<Piece>[], bounds: readonly number[]) => {
    const needs = fits.map(({ deviation }) => (deviation / (AIM * tolerance)) ** (1 / fitter.order));
    const mean = needs.reduce((sum, need) => sum + need, 0) / (to - from);
    return needs.map((need, k) => Math.max(need, SPARSEST * mean * (bounds[k + 1] - bounds[k])));
  };
  const total = (needs: readonly number[]) => Math.ceil(needs.reduce((sum, need) => sum + need, 0));

  const first = Math.ceil((to - from) / LONGEST);
  let bounds = evenly(from, to, first);
  let fits = fitted(bounds);
  for (let round = 0; !within(fits); round++) {
    if (round === MOST_ROUNDS) throw new NotFound(`no fit within ${tolerance} mm found`);
    // Where spreading does not help, as where the curve is less smooth than the fitter thinks, only what fails is cut.
    if (round >= SPREADING_ROUNDS) bounds = halved(bounds, fits, tolerance);
    else {
      const needs = needsOf(fits, bounds);
      bounds = spread(bounds, needs, Math.max(total(needs), fits.length + (round > 0 ? 1 : 0)));
    }
    fits = fitted(bounds);
  }
  // A first, coarse division may have asked for too many.
  for (let wanted = total(needsOf(fits, bounds)); wanted < fits.length && wanted >= first; wanted++) {
    const fewer = spread(bounds, needsOf(fits, bounds), wanted);
    const tried = fitted(fewer);
    if (within(tried)) return tried;
  }
  return fits;
}

/** A run of a curve, its curvature at both ends that inside it. */
function seenFromInside(curve: Curve, from: number, to: number): Curve {
  const inside = INSIDE * (to - from);
  return {
    from,
    to,
    breaks: [],
    at: (t) => {
      const point = curve.at(t);
      if (t !== from && t !== to) return point;
      return { ...point, curvature: curve.at(t === from ? from + inside : to - inside).curvature };
    },
  };
}

function evenly(from: number, to: number, count: number): number[] {
  return Array.from({ length: count + 1 }, (_, k) => (k === count ? to : from + ((to - from) * k) / count));
}

/** The same stretches, those that fail cut in two. */
function halved(
  bounds: readonly number[],
  fits: readonly StretchFit<unknown>[],
  tolerance: number,
): number[] {
  return [
    bounds[0],
    ...fits.flatMap(({ deviation }, k) =>
      deviation <= tolerance ? [bounds[k + 1]] : [(bounds[k] + bounds[k + 1]) / 2, bounds[k + 1]],
    ),
  ];
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
