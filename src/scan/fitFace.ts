import { type PenalizedFit, type PenaltyChoice, penalizedFit } from "../numeric/penalizedFit.js";
import type { Point } from "../numeric/point.js";
import { type FootPoint, type FreeFace, type FreeFaces, footPoint } from "./freeFace.js";
import { EVEN_TERMS } from "./pressureModes.js";

/** A rigid motion: p ↦ turned p + shift. */
export interface Motion {
  /** Radians. */
  readonly turn: number;
  /** mm. */
  readonly shift: Point;
}

/** Where the ring lies among the points, and what its curvature is. */
export interface FaceState {
  /** Takes the points as measured into the ring's frame. */
  readonly motion: Motion;
  readonly coefficients: ArrayLike<number>;
}

/** A face laid through points. */
export interface FittedFace extends FaceState {
  readonly face: FreeFace;
  /** Of every point. */
  readonly feet: FootPoint[];
  readonly fit: PenalizedFit;
}

/** Finds the feet on a face of points as measured. */
export function footFinder(face: FreeFace, { turn, shift }: Motion): (point: Point) => FootPoint {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return ([x, y]) => footPoint(face, c * x - s * y + shift[0], s * x + c * y + shift[1]);
}

/** Columns of the fit before those of the terms: two shifts. */
export const PLACE = 2;

const MOST_TURNS = 25;
/** Where κ·r changes by less than this share of the opening, the search has ended: another turn would change it by a tenth of that at most. */
const STILL = 1e-5;
/** After so many turns the penalty stays as it is. */
const CHOOSING = 3;

/**
 * Lays a face of any free curvature through points: least squares of their distances by the Gauss–Newton method, with the unevenness of the
 * pressure penalised. Turning the points and sliding them along the ring are nearly one motion, so they are turned until the middle of those
 * that count is the ring's.
 *
 * @param points as measured, mm
 * @param weights how much each counts, as many; 0 leaves it out
 * @param faces of the ring's length
 * @param start place and coefficients to start from
 * @param choice of the penalty
 * @param opening size of the change of κ·r on closing, K; what is more even than a share of it is not believed
 */
export function fitFace(
  points: readonly Point[],
  weights: ArrayLike<number>,
  faces: FreeFaces,
  start: FaceState,
  choice: PenaltyChoice,
  opening: number,
): FittedFace {
  let { motion, coefficients } = start;
  let penalty = choice;
  const kept = points.map((_, i) => i).filter((i) => weights[i] > 0);
  const roots = kept.map((i) => Math.sqrt(weights[i]));
  for (let turn = 0; ; turn++) {
    const face = faces.of(coefficients);
    const feetOf = (at: Motion) => points.map(footFinder(face, at));
    const off = feetOf(motion);
    const places = kept.map((i) => off[i].u);
    motion = turned(motion, -(Math.max(...places) + Math.min(...places)) / 2);
    const feet = feetOf(motion);
    const column = (at: (foot: FootPoint) => number) =>
      Float64Array.from(kept, (i, k) => roots[k] * at(feet[i]));
    const terms = face.moves.map((move) => column(({ node }) => move[node]));
    // A point that goes outward gains distance; a face that goes outward takes it.
    const shifts = [column(({ node }) => -face.sin[node]), column(({ node }) => face.cos[node])];
    const y = column(({ distance }) => distance);
    for (const [j, term] of terms.entries())
      for (let k = 0; k < y.length; k++) y[k] += term[k] * coefficients[j];
    const fit = penalizedFit(
      { free: [...shifts, ...terms.slice(0, EVEN_TERMS)], penalized: terms.slice(EVEN_TERMS), y },
      penalty,
      MOST_EVEN * opening,
    );
    const [dx, dy, ...next] = fit.coefficients;
    const change = next.reduce((most, value, j) => Math.max(most, Math.abs(value - coefficients[j])), 0);
    coefficients = next;
    motion = { turn: motion.turn, shift: [motion.shift[0] + dx, motion.shift[1] + dy] };
    if (change < STILL * opening || turn === MOST_TURNS) return { motion, coefficients, face, feet, fit };
    if (turn === CHOOSING) penalty = { by: "value", penalty: fit.penalty, noise: fit.noise };
  }
}

/** Standard deviation of the terms of the pressure at least, over the opening. */
const MOST_EVEN = 0.004;

/** A motion turned further about the ring's centre. */
function turned({ turn, shift: [x, y] }: Motion, by: number): Motion {
  const [c, s] = [Math.cos(by), Math.sin(by)];
  return { turn: turn + by, shift: [c * x - s * y, s * x + c * y] };
}
